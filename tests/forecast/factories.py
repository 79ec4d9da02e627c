"""Factories with known truth: a history that a maker could have, and as many equally true futures as one asks for.

Written apart from the forecast: days are counts drawn one by one (`processes.py`), a scarce part is taken from its shelf unit by
unit.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tests.forecast import processes
from tests.forecast.processes import Counts, Process

AHEAD = 420
"""Working days of each future."""
PLACES = np.array([5, 15, 30, 60, 100])
"""Places that are asked for, in days of mean output."""

KINDS: dict[str, Callable[[np.random.Generator, float, Counts, int], Process]] = {
    "steady": processes.steady,
    "over-dispersed": processes.over_dispersed,
    "weekly pattern": processes.weekly,
    "learning curve": processes.learning,
    "step change": processes.step,
    "stoppages": processes.stoppages,
    "scarce late part": processes.usual,
    "two models with priority": processes.steady,
    "holiday": processes.usual,
    "rework": processes.rework,
}


@dataclass(frozen=True, eq=False)
class Shelf:
    """A scarce part: units it is good for now; on which calendar days (0 = the as-of day) how many more are due; how late, in
    calendar days, past deliveries came and those to come will: a normal variable, in whole days.
    """

    free: int
    due: Counts
    units: Counts
    past: Counts
    usual: float
    scatter: float

    def lateness(self, random: np.random.Generator, count: int) -> Counts:
        """Days late of so many deliveries."""
        return np.rint(random.normal(self.usual, self.scatter, count)).astype(np.int64)


@dataclass(frozen=True)
class Sharing:
    """Another model on the same line: its share of the output while orders for it wait, and how many do."""

    share: float
    waiting: int


@dataclass(frozen=True, eq=False)
class Factory:
    """What a forecaster may see (all but `process`), and the truth.

    `past` are units a working day, oldest first, of the model that is asked for, `other` those of the other model on its line.
    `past_days` and `days` are the calendar days of working days, up to 0 and from 1 on. `waiting` orders stand in the queue.
    """

    kind: str
    seed: int
    process: Process
    past: Counts
    other: Counts
    past_days: Counts
    days: Counts
    places: Counts
    standing: bool
    shelf: Shelf | None = None
    sharing: Sharing | None = None

    @cached_property
    def truths(self) -> Counts:
        """The working day ahead (from 0) on which each place was reached: place by future, in 200 futures."""
        return self.futures(200, "truth")

    @cached_property
    def known(self) -> Counts:
        """The same in as many other futures: what one who knows the process would say."""
        return self.futures(400, "oracle")

    def futures(self, count: int, name: str) -> Counts:
        """Equally true futures, others under another name."""
        random = np.random.default_rng([self.seed, *name.encode()])
        begin = len(self.past)
        units, _ = self.process.made(random, slice(begin, begin + len(self.days)), np.repeat(self.standing, count))
        if self.shelf:
            units = through_shelf(units, self.days, self.shelf, random)
        if self.sharing:
            units = units - shared(units, self.sharing, random)
        total = units.cumsum(axis=0)
        return np.array([(total < place).sum(axis=0) for place in self.places])


def factory(kind: str, seed: int) -> Factory:
    """The factory of a kind that a seed stands for: 70 to 240 working days of history, 2 to 40 units a day."""
    random = np.random.default_rng([seed, list(KINDS).index(kind)])
    history = int(random.integers(70, 240))
    rate = float(np.exp(random.uniform(np.log(2), np.log(40))))
    closed = _closure(random) if kind == "holiday" else range(0)
    past_days, days = working_days(-400, 0)[-history:], working_days(1, 2 * AHEAD, closed)[:AHEAD]
    process = KINDS[kind](random, rate, weekdays(np.concatenate([past_days, days])), history)
    shelf = _shelf(random, rate) if kind == "scarce late part" else None
    sharing = Sharing(float(random.uniform(0.2, 0.65)), int(rate * random.uniform(4, 20))) if "two models" in kind else None
    line, standing = process.made(random, slice(0, history), np.zeros(1, np.bool_))
    other = random.binomial(line[:, 0], sharing.share) if sharing else np.zeros(history, np.int64)
    own = rate * (1 - sharing.share) if sharing else rate
    places = np.unique(np.maximum(np.rint(own * PLACES), 1).astype(np.int64))
    seen = line[:, 0] - other, other, past_days, days, places, bool(standing[0])
    return Factory(kind, seed, process, *seen, shelf=shelf, sharing=sharing)


def working_days(first: int, last: int, closed: range = range(0)) -> Counts:
    """The calendar days from first to last that are Monday to Friday (day 0 is a Friday) and not closed."""
    return np.array([day for day in range(first, last + 1) if (day + 4) % 7 < 5 and day not in closed], np.int64)


def weekdays(days: Counts) -> Counts:
    """Monday 0 to Sunday 6."""
    return (days + 4) % 7


def through_shelf(units: Counts, days: Counts, shelf: Shelf, random: np.random.Generator) -> Counts:
    """What comes of free output when each unit takes one of the scarce part, day by day."""
    futures = units.shape[1]
    arrived = [np.maximum(due + shelf.lateness(random, futures), 1) for due in shelf.due]
    left = np.full(futures, shelf.free)
    made = np.empty_like(units)
    before = 0
    for day, number in enumerate(days):
        for on, more in zip(arrived, shelf.units, strict=True):
            left = left + np.where((on > before) & (on <= number), more, 0)
        made[day] = np.minimum(units[day], left)
        left = left - made[day]
        before = int(number)
    return made


def shared(units: Counts, sharing: Sharing, random: np.random.Generator) -> Counts:
    """What the other model gets of a line's output, until nobody waits for it any more."""
    taken = random.binomial(units, sharing.share)
    total = np.minimum(taken.cumsum(axis=0), sharing.waiting)
    return np.diff(total, axis=0, prepend=0)


def _closure(random: np.random.Generator) -> range:
    begin = int(random.integers(5, 40))
    return range(begin, begin + int(random.integers(7, 22)))


def _shelf(random: np.random.Generator, rate: float) -> Shelf:
    due = 10 + 14 * np.arange(14) + random.integers(-3, 4)
    units = np.maximum(rate * random.uniform(8, 16, len(due)), 1).astype(np.int64)
    shelf = Shelf(int(rate * random.uniform(5, 20)), due, units, due, float(random.uniform(2, 15)), float(random.uniform(2, 8)))
    past = shelf.lateness(random, int(random.integers(6, 25)))
    return Shelf(shelf.free, due, units, past, shelf.usual, shelf.scatter)
