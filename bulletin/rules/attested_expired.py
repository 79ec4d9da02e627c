"""A signed statement past its date.

An `Attested:` line, or a row of attested.csv, lends the words of a named person for a time. After its last day nobody vouches for
them any more: they are struck out, or the person signs again with a new date. Nobody else can answer for them, so that this rule
can't be waived.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from bulletin.draft.expressions import references, spell
from bulletin.model import Fact, Step
from bulletin.scrutiny.attesting import is_expired
from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level, Path, Value
    from bulletin.scrutiny.case import Case

NAME = "attested-expired"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = '{who} signed "{words}" until {until}, which is past'
ACCEPTED: tuple[str, ...] = ("Attested: Every frame is oiled by hand | Ines Holm | 2026-12-31\n\nEvery frame is oiled by hand.",)
REJECTED: tuple[str, ...] = (
    "Attested: «Every frame is oiled by hand» | Ines Holm | 2026-03-01\n\nEvery frame is oiled by hand.",
    '[Every reed is looked at]{«attested["lens"]»}.',
)


def check(case: Case) -> Iterator[Fault]:
    """Statements on top of the draft, and statements of the table that it names, which no longer hold on the as-of date."""
    for statement in case.draft.header.attested:
        if is_expired(statement, case.as_of):
            details = {"who": statement.who, "until": str(statement.until)}
            yield Fault(statement.place, statement.text, details, item=statement.who)
    for reading in case.readings:
        for reference in references(reading.claim.expression) if reading.outcome else ():
            expired, who = _signed(case, reference.path, "expires"), _signed(case, reference.path, "by")
            if isinstance(expired, date) and expired < case.as_of:
                yield Fault(reference.start, spell(reference.path), {"who": str(who or "somebody"), "until": str(expired)})


def _signed(case: Case, path: Path, name: str) -> Value | None:
    """What the row of a statement says under a name, where a path is that of a statement."""
    if path[0].text != "attested" or len(path) < 2:
        return None
    found = case.facts.find((*path[:2], Step("name", name)))
    return found.value if isinstance(found, Fact) else None
