"""A comparison in prose that is bound to no fact.

"Faster", "our best week" and "most of you" are measured against something, and the records know it or nobody does. So words
that compare, rank or tell a trend stand in a claim whose condition holds both sides, or are marked as an opinion where they
tell a feeling. Free are comparisons of other things: kin and weather, idioms, advice ("use a longer screw").
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.bindings import remark_fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Fault

NAME = "comparison-without-fact"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" compares something and is bound to no fact{ways}'
ACCEPTED: tuple[str, ...] = (
    "[More than last week]{boxed.week > boxed.last_week} were boxed.",
    "My daughter plays better than I do.",
    "[It is the prettiest one we ever made]{opinion}.",
)
REJECTED: tuple[str, ...] = (
    "We are «faster» now.",
    "Fennmoor has had its «biggest» week.",
    "«Most of you» have a loom by now.",
    "The queue «is shrinking».",
)


def check(case: Case) -> Iterator[Fault]:
    """Remarks of this kind in the prose."""
    for remark in case.remarks:
        if remark.group.kind == "comparison":
            yield remark_fault(case, remark, NAME)
