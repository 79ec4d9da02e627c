"""Orders that are due a notice of delay which nobody has sent.

Some markets have a rule by which whoever waits past a date must be told, with a choice to agree or to get the money back: the
`[[notice]]` sections of the settings name them. Where the date that a waiting order was told (or the day it was placed and the
rule's days) has come, or its window begins after it, and told.csv has no row since, this warns, with the rule and the orders. A
letter to all is no such notice. The tool is no lawyer: local law and counsel decide what is owed to whom.

Law, for example: 16 CFR 435.2(b) in the United States; Directive 2011/83/EU Art. 18(1) and the Consumer Rights Act 2015
s. 28(3), by which delivery is due within 30 days where nothing else was agreed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "notice-due"
LEVEL: Level = "warn"
WAIVABLE = True
SENTENCE = "under {words} a notice of delay is due to {count}: {orders}"
ACCEPTED: tuple[str, ...] = ("We boxed {{ boxed.week }} looms.",)
REJECTED: tuple[str, ...] = ("«»We boxed {{ boxed.week }} looms.",)
SHOWN = 10
ITEM = "notices of delay"
"""What a waiver may name instead of a rule."""


def check(case: Case) -> Iterator[Fault]:
    """One finding a rule; the first orders by name, the others by number."""
    for due in case.run.notices:
        count = "1 order" if len(due.orders) == 1 else f"{len(due.orders)} orders"
        more = [f"and {len(due.orders) - SHOWN} more"] if len(due.orders) > SHOWN else []
        yield Fault(None, due.rule, {"count": count, "orders": ", ".join([*due.orders[:SHOWN], *more])}, item=ITEM)
