"""A waiver that answers for nothing.

A `Waive:` line names a rule and words or an item. Where no finding of that rule has them, the line does nothing: the rule may be
spelled wrongly, the words may have changed, or nobody need answer any more. An unused waiver might let something through later
that nobody meant, so it is told. A rule that can't be waived, or that does not exist, is told as well, with the nearest name.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "waiver-unused"
LEVEL: Level = "warn"
WAIVABLE = False
SENTENCE = "this waiver answers for nothing: {why}"
ACCEPTED: tuple[str, ...] = ('Waive: number-without-fact "87" | Ines Holm | counted by hand\n\nWe boxed 87 looms.',)
REJECTED: tuple[str, ...] = (
    'Waive: «number-without-fact "88" | Ines Holm | counted by hand»\n\nAll is well on the bench.',
    'Waive: «numbers-without-fact "87" | Ines Holm | counted by hand»\n\nWe boxed 87 looms.',
    'Waive: «raw-html "<b>" | Ines Holm | it looks better»\n\nOur looms are <b>strong.',
)


def check(case: Case) -> Iterator[Fault]:
    """The waivers that the other rules' findings left over; which these are the runner knows."""
    for unused in case.unused:
        waiver = unused.waiver
        yield Fault(waiver.place, f'{waiver.rule} "{waiver.words}"', {"why": unused.why}, unused.offer)
