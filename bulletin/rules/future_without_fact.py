"""What will be, told in prose and bound to no fact.

"Your loom will ship" is a promise, whoever types it. The forecast gives a window, the plan a date, and a promise on record
its due day: the words belong to one of these. Free are letters and answers that you announce, and what the weather will do.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.bindings import remark_fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Fault

NAME = "future-without-fact"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" foretells something and is bound to no fact{ways}'
ACCEPTED: tuple[str, ...] = (
    "We expect the queue to be gone {{ forecast.cleared }}.",
    "We will keep you posted.",
    "My knees say it will rain.",
)
REJECTED: tuple[str, ...] = (
    "Your loom «will ship» then.",
    "The queue «will be gone».",
    "«We'll have» it sorted.",
)


def check(case: Case) -> Iterator[Fault]:
    """Remarks of this kind in the prose."""
    for remark in case.remarks:
        if remark.group.kind == "future":
            yield remark_fault(case, remark, NAME)
