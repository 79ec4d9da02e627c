"""All, none, never and their like in prose, bound to no fact.

One counter-example makes them untrue, and whoever is the counter-example reads the letter. "All looms are boxed" needs a
whole, "nobody is late" a zero, and "never" a record. Free are denials that admit something ("not all"), advice ("never force
the crank"), thanks and greetings, and what everybody likes or knows.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.bindings import remark_fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Fault

NAME = "absolute-without-fact"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" leaves no exception and is bound to no fact{ways}'
ACCEPTED: tuple[str, ...] = (
    "[Nobody is past the date we told]{orders.past_promise == 0}.",
    "Not all pegs fit the small bag.",
    "Never force the crank.",
    "Nobody likes to wait.",
)
REJECTED: tuple[str, ...] = (
    "«Every» loom leaves here oiled.",
    "«Nobody» has been forgotten.",
    "The crank «never» slips.",
)


def check(case: Case) -> Iterator[Fault]:
    """Remarks of this kind in the prose."""
    for remark in case.remarks:
        if remark.group.kind == "absolute":
            yield remark_fault(case, remark, NAME)
