"""Runs of days on which a line stood still although it should have run, and how they come again."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bulletin.forecast.output import Chosen, Output, Reals
from bulletin.forecast.streams import stream

SURPRISE, DOUBTFUL = 0.0003, 0.005
"""A run of empty days that a running line would show more rarely than this is a stoppage; the second, where there are others."""
RARE, SEEN = 0.02, 0.6
"""What is believed of starts of stoppages before any is seen, in starts a day; and once some are."""


@dataclass(frozen=True)
class Stoppages:
    """What history tells: stoppages that began, days that ran, days that stood, stoppages that ended; whether it stands now."""

    starts: int
    ran: int
    stood: int
    ends: int
    standing: bool

    def running(self, ahead: int, futures: int, line: str) -> NDArray[np.bool_]:
        """Whether the line runs, by day ahead and future; each future has its own chances, as far as history leaves them open."""
        chances = stream("stoppages", line)
        start = chances.beta(self.starts + (SEEN if self.starts else RARE), max(self.ran - self.starts, 0) + 1.0, futures)
        end = chances.beta(self.ends + 2.0, self.stood - self.ends + 3.0, futures)
        stands = np.full(futures, self.standing)
        runs = np.empty((ahead, futures), np.bool_)
        for day in range(ahead):
            turn = chances.random(futures)
            stands = np.where(stands, turn >= end, turn < start)
            runs[day] = ~stands
        return runs


def standing_days(output: Output) -> Chosen:
    """Which days of history stood still: runs of empty days that a running line would hardly show.

    An empty day on a weekday that is usually empty is no surprise and breaks no run.
    """
    units = output.units
    empty = units == 0
    usual = _chance_of_none(output)
    found = np.zeros(len(units), np.bool_)
    runs = [(slice(first, last), float(np.prod(usual[first:last]))) for first, last in _runs(empty)]
    least = DOUBTFUL if any(chance < SURPRISE for _, chance in runs) else SURPRISE
    for days, chance in runs:
        found[days] = chance < least
    return found


def stoppages_of(standing: Chosen) -> Stoppages:
    """The stoppages of a history, given which days stood still."""
    before = np.concatenate([[False], standing[:-1]])
    starts = int((standing & ~before).sum())
    ends = int((~standing & before).sum())
    return Stoppages(starts, int((~standing).sum()), int(standing.sum()), ends, bool(len(standing)) and bool(standing[-1]))


def _chance_of_none(output: Output) -> Reals:
    """For each day the chance that a running line makes nothing: that of a Poisson count, or the share seen on its weekday.

    The level is the mean of the days around that made something; a weekday that is empty half of the time is taken as it is.
    """
    units, weekday = output.units.astype(np.float64), output.weekday
    made = units > 0
    at = np.arange(len(units))
    reach = 15
    total, count = (np.concatenate([[0.0], np.cumsum(part)]) for part in (units, made.astype(np.float64)))
    low, high = np.maximum(at - reach, 0), np.minimum(at + reach + 1, len(units))
    around = (total[high] - total[low]) / np.maximum(count[high] - count[low], 1)
    spread = _overdispersion(units[made])
    chance = np.exp(-around) if spread <= 0 else (1 + around * spread) ** (-1 / spread)
    days = np.maximum(np.bincount(weekday, minlength=7), 1)
    empty = np.bincount(weekday, ~made, minlength=7) / days
    return np.where(empty[weekday] > 0.5, empty[weekday], chance)


def _overdispersion(units: Reals) -> float:
    """The square of the coefficient of variation beyond that of a Poisson count, from successive days."""
    if len(units) < 3:
        return 0.0
    mean = float(units.mean())
    variance = float(np.mean(np.diff(units) ** 2) / 2)
    return max((variance - mean) / mean**2, 0.0)


def _runs(days: Chosen) -> list[tuple[int, int]]:
    """First and one past the last of each run of true days."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], days.astype(np.int8), [0]])))
    return [(int(first), int(last)) for first, last in zip(edges[::2], edges[1::2], strict=True)]
