"""What goes on in a factory with known truth: the mean output of each day and all that disturbs it. Units are whole."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Counts = NDArray[np.int64]
Standing = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Process:
    """`mean` has an entry a working day, of history and then ahead. Days have variance mean + spread * mean ** 2; the line stops
    with chance `stops` a day and comes back with chance `returns`; a share `reopened` of what was boxed is boxed again instead.
    """

    mean: NDArray[np.float64]
    spread: float = 0.0
    stops: float = 0.0
    returns: float = 1.0
    reopened: float = 0.0

    def made(self, random: np.random.Generator, days: slice, standing: Standing) -> tuple[Counts, Standing]:
        """Units by day and future of some days, given which futures stand still before; which stand still after."""
        mean = np.repeat(self.mean[days, None], len(standing), axis=1)
        if self.spread:
            mean = mean * random.gamma(1 / self.spread, self.spread, mean.shape)
        units = random.poisson(mean)
        for day in range(len(units)):
            turn = random.random(len(standing))
            standing = np.where(standing, turn >= self.returns, turn < self.stops)
            units[day, standing] = 0
        return units - random.binomial(units, self.reopened), standing


def a_little(random: np.random.Generator) -> float:
    """The spread of a factory whose days scatter about as counts do."""
    return float(random.choice([0.0, 0.05]))


def steady(random: np.random.Generator, rate: float, weekday: Counts, history: int) -> Process:
    """The same rate every day."""
    return Process(np.full(len(weekday), rate))


def over_dispersed(random: np.random.Generator, rate: float, weekday: Counts, history: int) -> Process:
    """Good days and bad days."""
    return Process(np.full(len(weekday), rate), spread=float(random.uniform(0.15, 0.8)))


def weekly(random: np.random.Generator, rate: float, weekday: Counts, history: int) -> Process:
    """A pattern over the days of the week."""
    pattern = np.array([*random.dirichlet(np.full(5, 4.0)) * 5, 1, 1])
    return Process(rate * pattern[weekday], spread=a_little(random))


def learning(random: np.random.Generator, rate: float, weekday: Counts, history: int) -> Process:
    """A power of the days since the start, or a gap to a ceiling that closes."""
    day = np.arange(len(weekday))
    if random.random() < 0.5:
        grown = ((day + random.uniform(5, 30)) / history) ** random.uniform(0.15, 0.5)
    else:
        grown = 1 - random.uniform(0.4, 0.8) * np.exp(-day / random.uniform(25, 90))
    return Process(rate * grown, spread=a_little(random))


def step(random: np.random.Generator, rate: float, weekday: Counts, history: int) -> Process:
    """Another rate until 8 to 55 working days ago, by 35 to 120 % more or by as much less."""
    before = np.arange(len(weekday)) < history - int(random.integers(8, 55))
    other = rate * np.exp(random.choice([-1, 1]) * random.uniform(0.3, 0.8))
    return Process(np.where(before, other, rate), spread=a_little(random))


def stoppages(random: np.random.Generator, rate: float, weekday: Counts, history: int) -> Process:
    """Days in a row on which nothing is made, a few times in a hundred days."""
    chances = {"stops": float(random.uniform(0.015, 0.05)), "returns": 1 / float(random.uniform(2, 6))}
    return Process(np.full(len(weekday), rate), spread=a_little(random), **chances)


def usual(random: np.random.Generator, rate: float, weekday: Counts, history: int) -> Process:
    """A steady rate, days that scatter a little."""
    return Process(np.full(len(weekday), rate), spread=a_little(random))


def rework(random: np.random.Generator, rate: float, weekday: Counts, history: int) -> Process:
    """Some units are opened and boxed again, and take the place of new ones."""
    return Process(np.full(len(weekday), rate), spread=a_little(random), reopened=float(random.uniform(0.03, 0.15)))
