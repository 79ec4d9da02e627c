"""When supply that is still on its way arrives: its due day and the lateness that past supply had.

Each future weighs the past deliveries anew (the Bayesian bootstrap: Rubin, Annals of Statistics 9 (1981) 130-134), so that five
deliveries are not taken for a law; all of a part's deliveries share a future's weights, as they share a supplier.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bulletin.forecast.output import Integers, Reals
from bulletin.forecast.streams import stream

ENOUGH = 8
"""Past deliveries that speak for themselves: where a part has fewer, those of all parts weigh as much as are missing."""
UNKNOWN = (0.0, 3.0, 7.0, 14.0)
"""Days late where no delivery is on record: common practice, no source."""
LONGER = 7.0
"""Mean days that a delivery which is later than any before still takes: common practice, no source."""


@dataclass(frozen=True, eq=False)
class PastLateness:
    """Days from due to received of past deliveries (early ones negative): of the part, and of all parts."""

    own: Reals
    all: Reals

    def pool(self) -> tuple[Reals, Reals]:
        """The values to draw from and how much each weighs: the part's own, and, where these are few, all others' too."""
        if not len(self.all) and not len(self.own):
            return np.array(UNKNOWN), np.ones(len(UNKNOWN))
        others = max(ENOUGH - len(self.own), 0.0)
        weights = np.concatenate([np.ones(len(self.own)), np.full(len(self.all), others / max(len(self.all), 1))])
        values = np.concatenate([self.own, self.all])
        return values[weights > 0], weights[weights > 0]


def arrivals(due: Integers, past: PastLateness, *, after: int, futures: int, part: str) -> Integers:
    """The day each delivery arrives, by delivery and future; days are numbers as `due` has them, all later than `after`."""
    values, weights = past.pool()
    chances = stream("lateness", part)
    believed = chances.standard_gamma(weights, (futures, len(weights)))
    of_any = believed.cumsum(axis=1)
    spread = _bandwidth(values, weights)
    found = np.empty((len(due), futures), np.int64)
    for delivery, day in enumerate(due):
        elapsed = after - int(day)
        still_possible = values > elapsed
        possible = of_any if still_possible.all() else np.where(still_possible, believed, 0.0).cumsum(axis=1)
        total = possible[:, -1]
        picked = (possible < (chances.random(futures) * total)[:, None]).sum(axis=1)
        late = values[np.minimum(picked, len(values) - 1)] + spread * chances.standard_normal(futures)
        longer = elapsed + chances.exponential(LONGER, futures)
        found[delivery] = day + np.rint(np.where(total > 0, late, longer)).astype(np.int64)
    return np.maximum(found, after + 1)


def _bandwidth(values: Reals, weights: Reals) -> float:
    """How far a delivery may lie from any that is on record (Silverman's rule of thumb, by weight)."""
    total = weights.sum()
    mean = (weights * values).sum() / total
    deviation = np.sqrt((weights * (values - mean) ** 2).sum() / total)
    return float(0.9 * deviation * total**-0.2)
