"""Models that share a line: which share of its output each gets, and what becomes of it when a queue runs out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bulletin.forecast.output import Integers, Reals
from bulletin.forecast.streams import stream

Paths = NDArray[np.float32]

DAYS = 60
HALF_LIFE = 30.0
"""Working days after which a day's mix tells half as much."""
WEEK = 5
SEEDS = 0.1
"""What is believed of each model's output before any unit is seen."""


@dataclass(frozen=True, eq=False)
class Mix:
    """How sure the share of each model is (the shapes of a Dirichlet variable); its variance over that of chance draws."""

    shapes: Reals
    scatter: float


@dataclass(frozen=True, eq=False)
class Queues:
    """For each model the orders that wait, and how many more come a working day: a line builds no model that nobody waits for."""

    waiting: Reals
    coming: Reals


def mix_of(units: Integers) -> Mix:
    """The mix of the last 60 working days, recent ones counting more. `units` has one row a day, one column a model."""
    recent = units[-DAYS:].astype(np.float64)
    weight = 0.5 ** (np.arange(len(recent))[::-1] / HALF_LIFE)
    counts = (weight[:, None] * recent).sum(axis=0)
    scatter = _scatter(recent)
    return Mix(counts / max(scatter, 1.0) + SEEDS, scatter)


def split(paths: Paths, mix: Mix, queues: Queues, name: str) -> list[Paths]:
    """Cumulative output of each model, day by future.

    What a model can't use, because nobody waits for it any more, goes to those for which somebody does; where nobody waits at all
    the line goes on with its mix.
    """
    models, futures = len(mix.shapes), paths.shape[1]
    share = stream("mix", name).standard_gamma(np.repeat(mix.shapes[:, None], futures, axis=1))
    share /= share.sum(axis=0)
    done = np.zeros((models, futures))
    found = [np.empty_like(paths) for _ in range(models)]
    before = np.zeros(futures, np.float32)
    for day, reached in enumerate(paths):
        made = (reached - before).astype(np.float64)
        before = reached
        chances = stream("mix", name, day)
        parts = chances.standard_gamma(share * np.maximum(made / mix.scatter, 1e-3)) + 1e-12
        parts *= made / parts.sum(axis=0)
        room = np.maximum((queues.waiting + queues.coming * (day + 1))[:, None] - done, 0.0)
        done += _within(parts, room, share)
        for model in range(models):
            found[model][day] = done[model]
    return found


def _within(parts: Reals, room: Reals, share: Reals) -> Reals:
    """Parts of a day's output that fit the room of each model; what does not fit is shared out among those with room left."""
    taken = np.minimum(parts, room)
    for _ in range(len(parts) - 1):
        left = parts.sum(axis=0) - taken.sum(axis=0)
        if not (left > 1e-9).any():
            return taken
        open_share = share * (taken < room)
        total = open_share.sum(axis=0)
        taken = np.minimum(taken + np.where(total > 0, open_share * left / np.maximum(total, 1e-12), 0.0), room)
    left = parts.sum(axis=0) - taken.sum(axis=0)
    rest: Reals = taken + share * np.maximum(left, 0.0)
    return rest


def _scatter(units: Reals) -> float:
    """Variance of weekly shares over that of a draw without memory (1 where too little is on record)."""
    weeks = len(units) // WEEK
    if weeks < 3:
        return 1.0
    sums = units[len(units) - weeks * WEEK :].reshape(weeks, WEEK, -1).sum(axis=1)
    totals = sums.sum(axis=1)
    share = sums.sum(axis=0) / max(sums.sum(), 1.0)
    expected = totals[:, None] * share * (1 - share)
    if not expected.sum():
        return 1.0
    ratio = float(((sums - totals[:, None] * share) ** 2).sum() / expected.sum()) * weeks / (weeks - 1)
    return max(ratio, 0.05)
