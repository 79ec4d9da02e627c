"""MIL-STD-105E (1989, public domain), Tables I and II-A: General Level II, normal inspection, single sampling.

Two transcriptions agree in all cells. The plan of a lot whose own cell is an arrow is the one that the arrow leads to.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from decimal import Decimal
from types import MappingProxyType
from typing import NamedTuple

LAST_OF_LOT = (8, 15, 25, 50, 90, 150, 280, 500, 1200, 3200, 10000, 35000)
"""The largest lot of each code letter from A to M, without I."""
LEAST_LOT = 2

PLANS: Mapping[Decimal, str] = MappingProxyType(
    {
        Decimal("0.65"): "20/0 20/0 20/0 20/0 20/0 20/0 20/0 80/1 80/1 125/2 200/3 315/5",
        Decimal("1.0"): "13/0 13/0 13/0 13/0 13/0 13/0 50/1 50/1 80/2 125/3 200/5 315/7",
        Decimal("1.5"): "8/0 8/0 8/0 8/0 8/0 32/1 32/1 50/2 80/3 125/5 200/7 315/10",
        Decimal("2.5"): "5/0 5/0 5/0 5/0 20/1 20/1 32/2 50/3 80/5 125/7 200/10 315/14",
        Decimal("4.0"): "3/0 3/0 3/0 13/1 13/1 20/2 32/3 50/5 80/7 125/10 200/14 315/21",
        Decimal("6.5"): "2/0 2/0 8/1 8/1 13/2 20/3 32/5 50/7 80/10 125/14 200/21 200/21",
    }
)
"""By quality limit, in per cent, and lot: sample size / acceptance number. One more than that rejects the lot."""


class SamplingPlan(NamedTuple):
    """So many are checked, and the lot passes with at most so many of them failed."""

    needed: int
    accept_at_most: int


def sampling_plan(lot_size: int, quality_limit: Decimal) -> SamplingPlan | None:
    """The plan for a lot at a quality limit in per cent; None where the table has no cell for it.

    Where the sample would reach the lot, all of the lot is checked.
    """
    column = bisect_left(LAST_OF_LOT, lot_size)
    if lot_size < LEAST_LOT or column == len(LAST_OF_LOT) or quality_limit not in PLANS:
        return None
    needed, accept_at_most = map(int, PLANS[quality_limit].split()[column].split("/"))
    return SamplingPlan(min(needed, lot_size), accept_at_most)
