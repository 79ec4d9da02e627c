"""What became of windows: how many came true, how late the others were, and their scores, by place in the queue.

Windows that overlap are not independent: whether coverage is as it should be is judged on windows of which each begins after the
one before it had come true or not, against the exact binomial band.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bulletin.forecast.backtest import FORECAST, REFERENCES, Replayed
from bulletin.forecast.output import Reals
from bulletin.forecast.scoring import coverage_band, interval_score, pinball
from bulletin.forecast.windows import HIGH, LOW

SHARE = HIGH - LOW


@dataclass(frozen=True)
class Score:
    """One way of telling: shares of its windows that held what came and that it came after, and mean losses in open days."""

    way: str
    held: float
    late: float
    interval_score: float
    pinball_loss: float


@dataclass(frozen=True)
class Tally:
    """All windows of one place. `band` is how many of the separate ones come true if the forecast is right, 95 times in 100."""

    place: int
    windows: int
    separate: int
    separate_held: int
    band: tuple[int, int]
    scores: tuple[Score, ...]


def tally(replayed: Sequence[Replayed]) -> list[Tally]:
    """A tally of each place, nearest first."""
    return [_of_place([one for one in replayed if one.place == place]) for place in _places(replayed)]


def separate(replayed: Sequence[Replayed]) -> list[Replayed]:
    """The windows of one place that do not overlap, from the first on: each begins when the one before had come."""
    found: list[Replayed] = []
    for one in sorted(replayed, key=lambda one: one.as_of):
        if not found or one.as_of >= found[-1].came:
            found.append(one)
    return found


def _places(replayed: Sequence[Replayed]) -> list[int]:
    return sorted({one.place for one in replayed})


def _of_place(replayed: list[Replayed]) -> Tally:
    apart = separate(replayed)
    ways = [FORECAST, *(name for name in REFERENCES if all(name in one.others for one in replayed))]
    scores = tuple(_score(way, replayed) for way in ways)
    band = coverage_band(len(apart), SHARE)
    return Tally(replayed[0].place, len(replayed), len(apart), sum(map(held, apart)), band, scores)


def held(one: Replayed) -> bool:
    """Whether what came lies in the window, its ends included."""
    return one.first <= one.came <= one.last


def _score(way: str, replayed: list[Replayed]) -> Score:
    low, high = (np.array(ends, np.float64) for ends in zip(*(one.ends(way) for one in replayed), strict=True))
    return score_of(way, low, high, np.array([one.came for one in replayed], np.float64))


def score_of(way: str, low: Reals, high: Reals, came: Reals) -> Score:
    """The score of windows from `low` to `high` of what came, all in open days."""
    losses = (pinball(low, came, LOW) + pinball(high, came, HIGH)) / 2
    within = float(np.mean((low <= came) & (came <= high)))
    return Score(way, within, float(np.mean(came > high)), float(interval_score(low, high, came).mean()), float(losses.mean()))
