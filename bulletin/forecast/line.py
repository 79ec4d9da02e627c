"""A line as history shows it, and its simulated futures: cumulative output by day ahead.

Days of a future are drawn from a gamma process (mean the rate, variance dispersion times it), which holds for counts that scatter
less than Poisson's as well as for those that scatter more; half a unit is taken off a place where it is read (`windows.py`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from bulletin.forecast.dispersion import Dispersion, dispersion_of
from bulletin.forecast.output import Integers, Output, Reals
from bulletin.forecast.rate import RatePosterior, rate_posterior
from bulletin.forecast.stoppages import Stoppages, standing_days, stoppages_of
from bulletin.forecast.streams import shares_of_one, stream
from bulletin.forecast.weekly import weekly_pattern

Paths = NDArray[np.float32]
"""Cumulative output: one row a working day ahead, one column a future."""

LEAST_DAYS = 10
"""Working days since the first unit, half of which at least ran: with fewer, nothing can be said about a rate."""
FARTHEST = 0.35
"""How far a wandering log rate gets at last (one standard deviation): rates do not wander out of sight."""


@dataclass(frozen=True, eq=False)
class Line:
    """All that is drawn from: the posterior of the rate, the weekly pattern, the dispersion, the stoppages (None: never any)."""

    name: str
    rate: RatePosterior
    weekly: Reals
    dispersion: Dispersion
    stoppages: Stoppages | None

    def without_stoppages(self) -> Line:
        """The same line if it never stood still."""
        return replace(self, stoppages=None)

    def with_known_rate(self) -> Line:
        """The same line if its rate were known to be the mean of what is believed."""
        return replace(self, rate=self.rate.known())


def line_of(output: Output, ahead: int, name: str = "line") -> Line | None:
    """What the history of a line tells, good for `ahead` working days; None where it is too short."""
    recent = output.recent
    if len(recent.units) < LEAST_DAYS:
        return None
    standing = standing_days(recent)
    running = ~standing
    if running.sum() < LEAST_DAYS // 2:
        return None
    weekly = weekly_pattern(recent, running)
    units, factors = recent.units[running].astype(np.float64), weekly[recent.weekday[running]]
    dispersion = dispersion_of(units, factors)
    rate = rate_posterior(units, factors, dispersion.ratio, ahead)
    return Line(name, rate, weekly, dispersion, stoppages_of(standing))


def draw_paths(line: Line, weekday: Integers, futures: int) -> Paths:
    """Simulated cumulative output of a line, by working day ahead (whose weekdays are given) and future."""
    drawn = _Levels.draw(line, futures)
    freedom = line.dispersion.freedom
    dispersion = line.dispersion.ratio * freedom / stream("dispersion", line.name).chisquare(freedom, futures)
    runs = line.stoppages.running(len(weekday), futures, line.name) if line.stoppages else None
    paths = np.empty((len(weekday), futures), np.float32)
    made = np.zeros(futures)
    for day, factor in enumerate(line.weekly[weekday]):
        chances = stream("day", line.name, day)
        drawn.change(chances)
        mean = drawn.level * np.exp(line.rate.models.ahead[:, day])[drawn.row] * factor
        units = chances.standard_gamma(mean / dispersion) * dispersion
        made += units if runs is None else units * runs[day]
        paths[day] = made
    return paths


class _Levels:
    """The level of each future, from day to day."""

    def __init__(self, level: Reals, row: Integers, walk: Reals, hazard: Reals, usual: tuple[float, float]) -> None:
        self.level = level
        self.row = row
        self.walk = walk
        self.hazard = hazard
        self.usual = usual
        self.tires = np.exp(-(walk**2) / (2 * FARTHEST**2))

    @staticmethod
    def draw(line: Line, futures: int) -> _Levels:
        """Models in proportion to their weights, in a scattered order, and a level of each."""
        models = line.rate.models
        chances = stream("rate", line.name)
        picked = np.searchsorted(np.cumsum(models.weight), shares_of_one(futures), side="right")
        picked = chances.permutation(np.minimum(picked, len(models.weight) - 1))
        known = np.isinf(models.gamma[picked])
        shape = np.where(known, 1.0, models.gamma[picked])
        around = np.where(known, 1.0, chances.standard_gamma(shape) / shape)
        level = models.mean[picked] * around
        return _Levels(level, models.row[picked], models.walk[picked], models.hazard[picked], line.rate.usual)

    def change(self, chances: np.random.Generator) -> None:
        """One day further: wandering levels move, less from day to day; restless ones are drawn anew from the usual ones."""
        if self.walk.any():
            self.level = self.level * np.exp(self.walk * chances.standard_normal(len(self.level)) - self.walk**2 / 2)
            self.walk = self.walk * self.tires
        if self.hazard.any():
            mean, shape = self.usual
            anew = chances.random(len(self.level)) < self.hazard
            self.level = np.where(anew, mean / shape * chances.standard_gamma(shape, len(self.level)), self.level)
