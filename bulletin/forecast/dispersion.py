"""How far the output of single days scatters around the rate: the variance of a day's units over their mean."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bulletin.forecast.output import Reals

LEAST = 0.02
PRIOR_DAYS = 2.0
"""Days at which a line is believed to scatter like a Poisson count, before any day is seen."""


@dataclass(frozen=True)
class Dispersion:
    """Variance over mean, and the degrees of freedom with which it is known."""

    ratio: float
    freedom: float


def dispersion_of(units: Reals, factors: Reals) -> Dispersion:
    """The dispersion of days that ran, from differences of successive ones, which a slowly changing rate hardly touches.

    `factors` is the weekly pattern's share of each day. Good and bad weeks are a matter of the rate, and no dispersion of days.
    """
    daily, pairs = _by_difference(units, factors)
    mean_freedom = max(pairs * 2 / 3, 1.0)
    ratio = (daily * mean_freedom + PRIOR_DAYS) / (mean_freedom + PRIOR_DAYS)
    return Dispersion(max(ratio, LEAST), mean_freedom + PRIOR_DAYS)


def _by_difference(units: Reals, factors: Reals) -> tuple[float, int]:
    """Half the squared difference of successive rates over its expectation at ratio 1; the number of pairs."""
    there = factors > 1e-6
    rates, factors = units[there] / factors[there], factors[there]
    if len(rates) < 2:
        return 1.0, 0
    level = (rates[1:] * factors[1:] + rates[:-1] * factors[:-1]) / (factors[1:] + factors[:-1])
    expected = level * (1 / factors[1:] + 1 / factors[:-1])
    total = expected.sum()
    return (float((np.diff(rates) ** 2).sum() / total) if total > 0 else 1.0), len(rates) - 1
