"""A name that no table feeds.

A fact that is not there can't be printed and bears nothing out. Either its name is written wrongly, and the nearest name is
offered (of facts that everybody may see: never a person's or an order's), or a table is missing or empty, and the message says
which. Words of a claim may be answered for by a waiver; a printed fact may not, for it would leave a hole in its sentence.
"""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from bulletin.draft.expressions import references, spell
from bulletin.model import Absent
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.hearing import owners_of
from bulletin.scrutiny.safety import column_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level, Path
    from bulletin.scrutiny.case import Case

NAME = "fact-unknown"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = "{words} can't be told: {why}"
ACCEPTED: tuple[str, ...] = ("We boxed {{ boxed.week }} looms.",)
REJECTED: tuple[str, ...] = (
    "We boxed {{ «boxed.weak» }} looms.",
    "[We can build plenty]{«coverage.buildable» > 5}.",
    "Readers: owners D-99\n\n«»Good day.",
)
ALIKE = 0.6


def check(case: Case) -> Iterator[Fault]:
    """Every reference to a fact that is absent, and owners of a defect that no table knows."""
    yield from _unknown_owners(case)
    for reading in case.readings:
        if reading.outcome is None:
            continue
        for reference in references(reading.claim.expression):
            found = case.facts.find(reference.path)
            if isinstance(found, Absent):
                spelling = spell(reference.path)
                offer = "" if found.known else nearest_name(case, reference.path)
                in_words = reading.claim.kind == "claim"
                details, applies = {"why": found.why}, bool(offer)
                yield Fault(reference.start, spelling, details, offer, item=found.key, waivable=in_words, applies=applies)


def _unknown_owners(case: Case) -> Iterator[Fault]:
    """A letter to the owners of a defect that nobody opened would be held to nothing that such a letter must say."""
    defect = owners_of(case.draft.header.readers)
    if defect and column_of(case, defect, "state") is None:
        yield Fault(None, f"owners {defect}", {"why": "no defect of this name is known"}, item=defect, waivable=False)


def nearest_name(case: Case, path: Path) -> str:
    """The spelling of the countable fact that a path is likest to; empty where none is like it."""
    asked = spell(path)
    family = path[0].text
    known = [spell(other) for other in case.facts.countable()]
    kin = [name for name in known if name.split(".")[0].split("[")[0] == family]
    return next(iter(get_close_matches(asked, kin or known, n=1, cutoff=ALIKE)), "")
