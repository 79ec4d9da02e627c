"""Words that take back what they say.

"I think the fault was the spring" leaves the reader to guess what is known. Where a fact could say it, the fact says it;
where none can, say plainly that you do not know, or mark the sentence as your opinion.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.bindings import remark_fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Fault
    from bulletin.scrutiny.remarks import Remark

NAME = "hedge"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" leaves open whether it is so{ways}'
ACCEPTED: tuple[str, ...] = (
    "We do not know what it was.",
    "[I think the new beam is prettier]{opinion}.",
    "We expect the queue to be gone {{ forecast.cleared }}.",
    'It is {{ defects["D-14"].affected }} looms, as far as we know.',
)
REJECTED: tuple[str, ...] = (
    "«Maybe» it was the spring.",
    "«I think» the shelves went out.",
    "«Hopefully» the paint holds.",
)


def check(case: Case) -> Iterator[Fault]:
    """Remarks of this kind in the prose."""
    for remark in case.remarks:
        if remark.group.kind == "hedge" and not _tells_a_growing_count(case, remark):
            yield remark_fault(case, remark, NAME)


def _tells_a_growing_count(case: Case, remark: Remark) -> bool:
    """Whether the words say "as far as we know" of a count that may still grow, which is no doubt but the truth."""
    if case.language is None or not case.language.has("so_far", remark.words):
        return False
    at = remark.span.start
    around = (passage for passage in case.passages if passage.block is remark.block and passage.sentence.holds(at))
    stretches = (stretch for passage in around for stretch in passage.stretches)
    return any(fact.at_least for stretch in stretches for fact in case.reading_of[stretch.claim.start].facts)
