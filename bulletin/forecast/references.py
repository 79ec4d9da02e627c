"""The plain ways to say when: what a forecast must beat to be worth its trouble. Each gives a low and a high day, by place.

Days count from 0, the first working day ahead; the history is units a working day, oldest first.
"""

from __future__ import annotations

from statistics import NormalDist

import numpy as np

from bulletin.forecast.output import Integers, Reals
from bulletin.forecast.streams import stream
from bulletin.forecast.windows import curves_of

MEAN_DAYS = 20
BOOTSTRAP_DAYS = 60


def remaining_by_rate(units: Integers, places: Integers) -> tuple[Reals, Reals]:
    """The place by the mean rate of the last 20 working days: one day, no window."""
    rate = max(float(np.mean(units[-MEAN_DAYS:])), 1e-9)
    day = np.ceil(places / rate) - 1
    return day, day


def normal_approximation(units: Integers, places: Integers) -> tuple[Reals, Reals]:
    """Mean and variance of the last 60 working days: days to a place as normal, with the variance that renewals have.

    The variance of the time to k is k variance / rate ** 3 (Cox, Renewal Theory (1962), section 3.3).
    """
    last = units[-BOOTSTRAP_DAYS:].astype(np.float64)
    rate, variance = max(float(last.mean()), 1e-9), float(last.var(ddof=1)) if len(last) > 1 else 0.0
    centre, deviation = places / rate, np.sqrt(places * variance / rate**3)
    reach = NormalDist().inv_cdf(0.9) * deviation
    return np.maximum(np.ceil(centre - reach) - 1, 0), np.maximum(np.ceil(centre + reach) - 1, 0)


def day_bootstrap(units: Integers, places: Integers, ahead: int, futures: int = 1000) -> tuple[Reals, Reals]:
    """Days drawn at random from the last 60 working days, again and again: the central 80 % of when a place is reached."""
    last = units[-BOOTSTRAP_DAYS:]
    drawn = stream("bootstrap").choice(last, (ahead, futures))
    low, high = curves_of(np.cumsum(drawn, axis=0, dtype=np.float32)).windows(places)
    return low.astype(np.float64), high.astype(np.float64)
