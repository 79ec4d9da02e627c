"""Whether a figure that was told was corrected since: what today's tables say of the same day is another one.

Only what is counted by dated rows can be read back to an earlier day exactly. A count of a day that was not over when it was told
may have grown since, by units that were scanned in the evening; that corrects nothing.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from bulletin.scrutiny.meaning import meaning_of

if TYPE_CHECKING:
    from bulletin.model import Fact, Value

READ_BACK = frozenset({"boxed", "orders", "refunds", "inspections"})
OVERWRITTEN = ("past_promise",)
"""Facts of cells that are written over, without a row that tells from when."""
OVER = frozenset({"yesterday", "last_week", "last_month"})
COUNTS = (int, Fraction, Decimal)


def corrected(fact: Fact, told: Value, *, over: bool) -> bool:
    """Whether what was told differs from the fact of the same day as the tables have it now.

    `over`: whether the day was over when it was told.
    """
    meaning = meaning_of(fact)
    if meaning.family not in READ_BACK or fact.key.endswith(OVERWRITTEN) or fact.value == told:
        return False
    if over or meaning.period in OVER or ".best_" in fact.key:
        return True
    return isinstance(fact.value, COUNTS) and isinstance(told, COUNTS) and fact.value < told
