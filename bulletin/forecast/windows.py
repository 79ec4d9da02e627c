"""Windows read off simulated output: order k is done by a day in as many futures as have cumulative output k by then.

So no order is simulated: percentiles of the output a day, then one look-up a place, whatever the number of orders.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bulletin.forecast.output import Integers, Reals

LOW, HIGH = 0.1, 0.9
"""The central 80 % of the futures."""
HALF = 0.5
"""Output is simulated in fractions of a unit: a place counts as reached half a unit earlier, as in rounding."""


@dataclass(frozen=True, eq=False)
class Curves:
    """Cumulative output by day ahead that a share of the futures reaches: `early` is reached by LOW of them, `late` by HIGH."""

    early: Reals
    late: Reals

    def windows(self, places: Integers) -> tuple[Integers, Integers]:
        """The first and last day ahead (from 0) of the window of each place (from 1); the number of days where it lies beyond."""
        return (
            np.searchsorted(self.early, places - HALF).astype(np.int64),
            np.searchsorted(self.late, places - HALF).astype(np.int64),
        )


def curves_of(paths: NDArray[np.float32]) -> Curves:
    """The percentiles of cumulative output, day by day (`paths`: day by future, never falling along the days)."""
    futures = paths.shape[1]
    ranks = [futures - max(int(np.ceil(level * futures - 1e-9)), 1) for level in (LOW, HIGH)]
    found = np.empty((len(ranks), len(paths)))
    for day, reached in enumerate(paths):
        found[:, day] = np.partition(reached, ranks)[ranks]
    return Curves(*np.maximum.accumulate(found, axis=1))


def days_reached(paths: NDArray[np.float32], place: int) -> Integers:
    """For each future the day ahead (from 0) on which it reaches a place; the number of days where it does not."""
    found: Integers = np.count_nonzero(paths < np.float32(place - HALF), axis=0).astype(np.int64)
    return found
