"""How a loose figure is told as a fault: the words, and the fact that may be pasted in their place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from bulletin.scrutiny.case import Case
    from bulletin.scrutiny.loose import Loose


def loose_fault(case: Case, loose: Loose) -> Fault:
    """The fault of a loose figure, with the nearest fact as its offer and what that fact comes to."""
    clause = case.clause_at(loose.block, loose.figure.start)
    offered = case.nearest.offer(loose.figure, clause)
    if offered is None:
        return Fault(loose.at, loose.words, {"nearest": ""})
    told = f"; {offered.fact.spelling} is {case.told(offered.fact)}"
    return Fault(loose.at, loose.words, {"nearest": told}, offered.text, applies=offered.is_alone)
