"""MIL-STD-105E (1989, public domain), Tables I and II-A: General Level II, normal inspection, single sampling.

In the standard's table each quality limit is a column. Down from its first plan, which accepts no failure, two cells are arrows,
and then the acceptance numbers follow one another; a limit that is one step lower begins one code letter further down. The plan
of a lot whose own cell is an arrow is the one that the arrow leads to.
"""

from __future__ import annotations

from bisect import bisect_left
from decimal import Decimal
from typing import NamedTuple

LAST_OF_LOT = (8, 15, 25, 50, 90, 150, 280, 500, 1200, 3200, 10_000, 35_000, 150_000, 500_000)
"""The largest lot of each code letter from A to P, without I and O; all larger ones have the letter Q."""
LEAST_LOT = 2
SAMPLES = (2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000)
"""The sample of each code letter from A to R."""
LIMITS = tuple(map(Decimal, "10 6.5 4.0 2.5 1.5 1.0 0.65 0.40 0.25 0.15 0.10 0.065 0.040 0.025 0.015 0.010".split()))
"""Quality limits in per cent of units; above 10 the standard counts defects, of which a unit may have several."""
ACCEPTED = (1, 2, 3, 5, 7, 10, 14, 21)
"""The acceptance numbers of a column below the arrows."""


class SamplingPlan(NamedTuple):
    """So many are checked, and the lot passes with at most so many of them failed."""

    needed: int
    accept_at_most: int


def sampling_plan(lot_size: int, quality_limit: Decimal) -> SamplingPlan | None:
    """The plan for a lot at a quality limit in per cent; None where the table has no cell for it.

    Where the sample would reach the lot, all of the lot is checked.
    """
    if lot_size < LEAST_LOT or quality_limit not in LIMITS:
        return None
    first = LIMITS.index(quality_limit) - 1
    needed, accept_at_most = _followed(bisect_left(LAST_OF_LOT, lot_size), first)
    return SamplingPlan(min(needed, lot_size), accept_at_most)


def _followed(letter: int, first: int) -> SamplingPlan:
    """The plan of a code letter, counted from 0, in a column whose plan without a failure stands at `first`; none does at -1."""
    below = first + 3
    if first >= 0 and letter <= first + 1:
        return SamplingPlan(SAMPLES[first], 0)
    row = min(max(letter, below), below + len(ACCEPTED) - 1)
    return SamplingPlan(SAMPLES[row], ACCEPTED[row - below])
