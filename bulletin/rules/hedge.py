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

NAME = "hedge"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" leaves open whether it is so{ways}'
ACCEPTED: tuple[str, ...] = (
    "We do not know what it was.",
    "[I think the new beam is prettier]{opinion}.",
    "We expect the queue to be gone {{ forecast.cleared }}.",
)
REJECTED: tuple[str, ...] = (
    "«Maybe» it was the spring.",
    "«I think» the shelves went out.",
    "«Hopefully» the paint holds.",
)


def check(case: Case) -> Iterator[Fault]:
    """Remarks of this kind in the prose."""
    for remark in case.remarks:
        if remark.group.kind == "hedge":
            yield remark_fault(case, remark, NAME)
