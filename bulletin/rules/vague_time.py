"""A time that nobody can hold anybody to.

"Soon" and "in the coming weeks" sound like a date and are none: each reader hears another. Say the window that the forecast
gives, the day when you write next, or that you do not know yet, which is an answer too.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.bindings import remark_fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Fault

NAME = "vague-time"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" names no time{ways}'
ACCEPTED: tuple[str, ...] = (
    "We do not know yet when the beams come.",
    "See you soon!",
    "We expect the queue to be gone {{ forecast.cleared }}.",
)
REJECTED: tuple[str, ...] = (
    "The beams come «soon».",
    "«Before long» the bench is free.",
)


def check(case: Case) -> Iterator[Fault]:
    """Remarks of this kind in the prose."""
    for remark in case.remarks:
        if remark.group.kind == "vague-time":
            yield remark_fault(case, remark, NAME)
