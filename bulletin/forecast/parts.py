"""What parts allow: stock, and what arrives in each future, as a cap on cumulative output.

A line that waits for a part does not catch up on the days lost: with cumulative free output O and a cap, its output is in closed
form C = O + min(0, running minimum of (cap - O)), as for a queue with a reflecting barrier (Harrison, Brownian Motion and
Stochastic Flow Systems (1985), section 2.2).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bulletin.forecast.lateness import PastLateness, arrivals
from bulletin.forecast.output import Integers, Reals

Caps = NDArray[np.float32]


@dataclass(frozen=True, eq=False)
class Supply:
    """One part of a line, in units of the line's output: what stands free now and what is to arrive.

    `due` are the days on which deliveries are due, `quantity` how many units each is good for, `past` how late such were.
    """

    part: str
    free: float
    due: Integers
    quantity: Reals
    past: PastLateness

    def cap(self, days: Integers, *, after: int, futures: int) -> Caps:
        """Cumulative output that the part allows, by day ahead (`days` are their numbers) and future."""
        steps = np.zeros((len(days) + 1, futures), np.float32)
        steps[0] = max(self.free, 0.0)
        arrived = arrivals(self.due, self.past, after=after, futures=futures, part=self.part)
        column = np.arange(futures)
        for quantity, on in zip(self.quantity, arrived, strict=True):
            steps[np.searchsorted(days, on), column] += np.float32(quantity)
        return np.cumsum(steps[:-1], axis=0, dtype=np.float32)


def least(caps: Sequence[Caps]) -> Caps | None:
    """The cap of all of them together; None where there is none."""
    found: Caps | None = None
    for cap in caps:
        found = cap if found is None else np.minimum(found, cap)
    return found


def capped(paths: NDArray[np.float32], cap: Caps | None) -> NDArray[np.float32]:
    """Cumulative output under a cap (day by future, or one column for all futures)."""
    if cap is None:
        return paths
    room = np.minimum.accumulate(cap - paths, axis=0)
    return paths + np.minimum(room, np.float32(0))
