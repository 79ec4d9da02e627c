"""An individuals chart: which of a run of single values lie further out than the run's own scatter explains."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

REACH = Fraction("2.66")
"""3 / 1.128: three standard deviations, told by the mean of moving ranges of two."""


@dataclass(frozen=True)
class Limits:
    """The centre of the chart and how far a value may lie from it."""

    low: Fraction
    centre: Fraction
    high: Fraction

    def hold(self, value: Fraction) -> bool:
        """Whether a value lies within; one on a limit does."""
        return self.low <= value <= self.high


def limits_of(values: Sequence[Fraction]) -> Limits | None:
    """Mean plus and minus 2.66 times the mean moving range (NIST/SEMATECH e-Handbook 6.3.2.2); None of fewer than two values.

    The low limit may lie below zero, where no count can fall out of it.
    """
    if len(values) < 2:
        return None
    centre = sum(values, Fraction(0)) / len(values)
    ranges = [abs(after - before) for before, after in pairwise(values)]
    reach = REACH * sum(ranges, Fraction(0)) / len(ranges)
    return Limits(centre - reach, centre, centre + reach)
