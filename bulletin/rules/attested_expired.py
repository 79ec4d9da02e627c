"""A signed statement past its date.

An `Attested:` line lends the words of a named person for a time. After its last day nobody vouches for them any more: they are
struck out, or the person signs again with a new date. Nobody else can answer for them, so that this rule can't be waived.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.attesting import is_expired
from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "attested-expired"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = '{who} signed "{words}" until {until}, which is past'
ACCEPTED: tuple[str, ...] = ("Attested: Every frame is oiled by hand | Ines Holm | 2026-12-31\n\nEvery frame is oiled by hand.",)
REJECTED: tuple[str, ...] = (
    "Attested: «Every frame is oiled by hand» | Ines Holm | 2026-03-01\n\nEvery frame is oiled by hand.",
)


def check(case: Case) -> Iterator[Fault]:
    """Statements on top of the draft that no longer hold on the as-of date."""
    for statement in case.draft.header.attested:
        if is_expired(statement, case.as_of):
            details = {"who": statement.who, "until": str(statement.until)}
            yield Fault(statement.place, statement.text, details, item=statement.who)
