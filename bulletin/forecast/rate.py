"""What history tells about the rate of a line: a posterior over a few models of its logarithm, each with its own uncertainty.

A model says since when the rate has had its present shape (`pieces.py`: before that it was constant by pieces), and which shape
that is: steady, drifting, learning (`shapes.py`), or wandering, which forgets the past as it goes (West and Harrison, Bayesian
Forecasting and Dynamic Models (1997), chapter 14).
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from bulletin.forecast.output import Integers, Reals
from bulletin.forecast.pieces import BELIEF, LEAST_PIECE, STAY, Cuts, Days, cuts_of
from bulletin.forecast.shapes import Shapes, drifting, learning, steady
from bulletin.forecast.special import log_gamma

BELIEFS = {"steady": 0.65, "drifting": 0.02, "learning": 0.3, "wandering": 0.03}
"""How far each kind of model is believed before any day is seen."""
SOON, STILL_TO_COME = 60, 0.15
"""A shape is believed less the more it would still change: in 60 working days by this, in the log, is one standard deviation."""
WALKS = (0.005, 0.01, 0.02, 0.04, 0.08)
"""Standard deviations of what a wandering log rate does in a day."""
SPAN = 10
"""Working days whose mean is a level that the rate has had."""
USUAL_CUTS = 2.0
"""Changes that are events of their own; rates that changed more often than that will do it again."""


@dataclass(frozen=True, eq=False)
class Models:
    """One entry a model: log weight, the gamma variable of today's level (shape and mean), its row of `ahead`, its walk a day,
    its chance a day of another level. `ahead` has one row a shape: the log of the rate relative to today's, by working day ahead.
    """

    weight: Reals
    gamma: Reals
    mean: Reals
    row: Integers
    walk: Reals
    hazard: Reals
    ahead: Reals


@dataclass(frozen=True, eq=False)
class RatePosterior:
    """All models with their weights (which sum to 1), and the levels that the rate has had: mean and gamma shape."""

    models: Models
    usual: tuple[float, float]

    @property
    def average(self) -> float:
        """The posterior mean of today's level, in units on an average working day that runs."""
        return float((self.models.weight * self.models.mean).sum())

    def known(self) -> RatePosterior:
        """The rate as if its mean were known for certain."""
        models = self.models
        expected = models.weight * models.mean
        rows = np.bincount(models.row, expected, len(models.ahead))
        growth = np.log((rows[:, None] * np.exp(models.ahead)).sum(axis=0) / expected.sum())
        one, nothing = np.ones(1), np.zeros(1)
        return RatePosterior(
            Models(one, one * np.inf, one * self.average, nothing.astype(np.int64), nothing, nothing, growth[None]), self.usual
        )


def rate_posterior(units: Reals, factors: Reals, dispersion: float, ahead: int) -> RatePosterior:
    """The posterior after days that ran; `factors` is the weekly pattern's share of each. The level is that of an average day."""
    days = Days(units / dispersion, factors / dispersion)
    cuts = cuts_of(days)
    from_the_start = Cuts(cuts.evidence[:1], cuts.pieces[:1])
    count = len(units)
    found = {
        "steady": _since(days, cuts, steady(count, ahead)),
        "drifting": _since(days, from_the_start, drifting(count, ahead)),
        "learning": _since(days, from_the_start, learning(count, ahead)),
        "wandering": _wandering(days, ahead),
    }
    return RatePosterior(_together(found), _usual(units, factors, dispersion))


def _since(days: Days, cuts: Cuts, shapes: Shapes) -> Models:
    """Models in which one of some shapes has held since a day on which a piece may begin."""
    rows, count = shapes.past.shape
    begins = np.flatnonzero(np.isfinite(cuts.evidence))
    begins = begins[(begins <= count - LEAST_PIECE) | (begins == 0)]
    exposure = _from_each(days.exposure * np.exp(shapes.past))[:, begins]
    bent = _from_each(days.units * shapes.past)[:, begins]
    units = np.broadcast_to(_from_each(days.units)[begins], exposure.shape)
    before = cuts.evidence[begins] + STAY * (count - begins - 1)
    weight = before + days.evidence(units, exposure) + bent + _belief(shapes)[:, None]
    gamma = (BELIEF + units).ravel()
    hazard = np.maximum(cuts.pieces[begins] - USUAL_CUTS, 0) / count
    return Models(
        weight.ravel(),
        gamma,
        gamma / (days.belief_rate + exposure).ravel(),
        np.repeat(np.arange(rows), len(begins)),
        np.zeros(weight.size),
        np.tile(hazard, rows),
        shapes.ahead,
    )


def _wandering(days: Days, ahead: int) -> Models:
    """Models that forget: before each day the log rate has moved, so that the gamma variable knows less."""
    walk = np.array(WALKS)
    shape, rate = np.full(len(walk), BELIEF), np.full(len(walk), days.belief_rate)
    before, after = np.empty((2, 2, len(days.units), len(walk)))
    for day, (units, exposure) in enumerate(zip(days.units, days.exposure, strict=True)):
        kept = 1 / (1 + shape * walk**2)
        before[:, day] = shape * kept, rate * kept
        shape, rate = after[:, day] = shape * kept + units, rate * kept + exposure
    told = before[0] * np.log(before[1]) - log_gamma(before[0]) + log_gamma(after[0]) - after[0] * np.log(after[1])
    weight = told.sum(axis=0) - np.log(len(walk))
    nothing = np.zeros(len(walk))
    return Models(weight, shape, shape / rate, nothing.astype(np.int64), walk, nothing, np.zeros((1, ahead)))


def _together(found: dict[str, Models]) -> Models:
    """All models of all kinds, weighed."""
    parts = list(found.values())
    joined = {field.name: np.concatenate([getattr(part, field.name) for part in parts]) for field in fields(Models)}
    belief = np.repeat([np.log(BELIEFS[name]) for name in found], [len(part.weight) for part in parts])
    weight = np.exp(joined["weight"] + belief - (joined["weight"] + belief).max())
    offsets = np.cumsum([0, *(len(part.ahead) for part in parts[:-1])])
    row = joined["row"] + np.repeat(offsets, [len(part.weight) for part in parts])
    return Models(**{**joined, "weight": weight / weight.sum(), "row": row})


def _belief(shapes: Shapes) -> Reals:
    """How far each shape is believed before any day is seen (logarithms)."""
    to_come = shapes.ahead[:, :SOON][:, -1]
    believed = -((to_come / STILL_TO_COME) ** 2) / 2
    found: Reals = believed - np.log(np.exp(believed).sum())
    return found


def _from_each(values: Reals) -> Reals:
    """The sum of each day and all later ones."""
    return np.cumsum(values[..., ::-1], axis=-1)[..., ::-1]


def _usual(units: Reals, factors: Reals, dispersion: float) -> tuple[float, float]:
    """Mean and gamma shape of the levels that the rate has had, from spans of ten days: where it may go when it changes."""
    spans = max(len(units) // SPAN, 1)
    used = slice(len(units) - spans * SPAN if len(units) >= SPAN else 0, None)
    made, exposure = (part[used].reshape(spans, -1).sum(axis=1) for part in (units, factors))
    mean = float(made.sum() / max(exposure.sum(), 1e-9))
    levels = made / np.maximum(exposure, 1e-9)
    noise = dispersion * mean / max(float(exposure.mean()), 1e-9)
    spread = max(float(levels.var()) - noise, 0.0) / max(mean, 1e-9) ** 2
    return mean, 1 / max(spread, 0.01)
