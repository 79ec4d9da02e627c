"""A state of things told in prose and bound to no fact.

Solved, ready, in stock, sold out, on its way: readers act on such words, and the records know whether they hold today. What
is not done may be said, how a thing is made as well ("the beam is turned from beech"); what is done needs its fact.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.bindings import remark_fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Fault

NAME = "state-without-fact"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" tells how things stand and is bound to no fact{ways}'
ACCEPTED: tuple[str, ...] = (
    '[The policy is in force]{policies["P-1"].in_force}.',
    "The frame is made from beech.",
    "The pawl is not ready yet.",
    "My sister is ready for spring.",
)
REJECTED: tuple[str, ...] = (
    "The pawl problem «is solved».",
    "«Shuttles are back in stock».",
    "The fault? «Fixed».",
    "## «Beams sanded»",
)


def check(case: Case) -> Iterator[Fault]:
    """Remarks of this kind in the prose."""
    for remark in case.remarks:
        if remark.group.kind == "state":
            yield remark_fault(case, remark, NAME)
