"""Something that readers must hear and that the draft leaves out.

A letter of true sentences misleads where it keeps quiet about what matters. So every draft speaks of an open safety defect, an
overdue promise, windows that moved later than they were told, credit that is owed, late refunds, and figures of the last bulletin
that were corrected since, by a claim or a printed fact that touches them; or somebody answers for leaving it out. What a bulletin
on record spoke of to the same readers counts for 28 days, as long as nothing that it told of it has changed. Owners of a defect
must hear of that defect.

Law: leaving out what matters misleads as false words do, Directive 2005/29/EC Art. 7(1) and (2).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.hearing import concerns_for, is_remembered, is_spoken_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "unmentioned"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = "{told}, and the draft does not speak of it (a claim on it, or a waiver that names {words})"
ACCEPTED: tuple[str, ...] = ("We boxed {{ boxed.week }} looms.",)
REJECTED: tuple[str, ...] = (
    "«»We boxed {{ boxed.week }} looms.",
    "«»We are sorry about the fault of the pawl, and about the booklet.",
)


def check(case: Case) -> Iterator[Fault]:
    """Concerns of the readers that neither the draft nor a bulletin still remembered speaks of."""
    for concern in concerns_for(case):
        if not is_spoken_of(case, concern) and not is_remembered(case, concern):
            yield Fault(None, concern.item, {"told": concern.told, "kind": concern.kind}, concern.offer, item=concern.kind)
