"""A filter that has nothing to say about the fact it stands behind.

`{{ boxed.week | share }}` asks for the percentage of a count, `{{ coverage.parts_in_house | units }}` for the noun of a share,
and `{{ boxed.week | words | short }}` for two ways of writing one number. The filter changes nothing then, and the reader meets
another sentence than the author had in mind. It can't be answered for: taking the filter out is all that it needs.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "filter-off-fact"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = "{why}"
ACCEPTED: tuple[str, ...] = (
    "We boxed {{ boxed.week | units }} this week.",
    "We boxed {{ boxed.week | words }} looms this week.",
    'The next beams come on {{ coverage.part["P-104"].next_arrival | date }}.',
)
REJECTED: tuple[str, ...] = (
    "We boxed {{ «boxed.week» | share }} looms this week.",
    "We boxed {{ «boxed.week» | words | short }} looms this week.",
    "We boxed {{ «boxed.week» | date }} looms this week.",
)


def check(case: Case) -> Iterator[Fault]:
    """Printed facts whose filters do not fit them."""
    for reading in case.readings:
        if reading.claim.filters and len(reading.facts) == 1:
            fact = reading.facts[0]
            why = case.format.misfit(fact, reading.claim.filters)
            if why:
                at = reading.claim.expression.start
                yield Fault(at, fact.spelling, {"why": why}, f"{{{{ {fact.spelling} }}}}")
