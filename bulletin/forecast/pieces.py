"""Histories cut into pieces of constant rate: how well days bear out a piece, and all ways of cutting, summed over exactly.

Given the model, the level of a piece is a gamma variable in closed form: the units of a day count as Poisson, each weighing
1 / dispersion, which gives level and evidence the spread that they have where days scatter more, or less, than that
(quasi-likelihood: Wedderburn, Biometrika 61 (1974) 439-447).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from bulletin.forecast.output import Reals
from bulletin.forecast.special import log_gamma

HAZARD = 1 / 700
"""The chance that a new piece begins on a day."""
LEAST_PIECE = 6
"""Working days of the shortest piece."""
BELIEF = 3.0
"""What is believed of a level before any unit is seen: around the mean of all days, with this shape of a gamma variable."""
STAY = float(np.log1p(-HAZARD))


@dataclass(frozen=True, eq=False)
class Days:
    """Days that ran: units and exposure (the weekly pattern's share of each day), both over the dispersion."""

    units: Reals
    exposure: Reals

    @property
    def belief_rate(self) -> float:
        """The inverse scale of the belief about a level."""
        return BELIEF * float(self.exposure.sum()) / max(float(self.units.sum()), 1e-9)

    def evidence(self, units: Reals, exposure: Reals) -> Reals:
        """The log evidence of pieces, by what their days sum up to; factors that all models share are left out."""
        shape, rate = BELIEF + units, self.belief_rate + exposure
        none = BELIEF * np.log(self.belief_rate) - log_gamma(np.array(BELIEF))
        found: Reals = none + log_gamma(shape) - shape * np.log(rate)
        return found

    @cached_property
    def sums(self) -> tuple[Reals, Reals]:
        """Units and exposure of all days before each, and of all."""
        units, exposure = (np.concatenate([[0.0], np.cumsum(part)]) for part in (self.units, self.exposure))
        return units, exposure


@dataclass(frozen=True, eq=False)
class Cuts:
    """For each day: the log evidence of all days before it, however they are cut (-inf where a piece can't begin on it), and the
    number of pieces to be expected in them.
    """

    evidence: Reals
    pieces: Reals


def cuts_of(days: Days) -> Cuts:
    """All ways of cutting a history (the recursion of Fearnhead, Statistics and Computing 16 (2006) 203-213)."""
    count = len(days.units)
    units, exposure = days.sums
    evidence, pieces = np.full(count, -np.inf), np.zeros(count)
    evidence[0] = 0.0
    end, begin = np.tril_indices(count, -LEAST_PIECE)
    piece = days.evidence(units[end] - units[begin], exposure[end] - exposure[begin])
    since = piece + STAY * (end - begin - 1) + np.log(HAZARD)
    done = 0
    for day in range(LEAST_PIECE, count):
        begins = day - LEAST_PIECE + 1
        terms = evidence[:begins] + since[done : done + begins]
        done += begins
        share = np.exp(terms - terms.max())
        evidence[day] = terms.max() + np.log(share.sum())
        pieces[day] = 1 + (share * pieces[:begins]).sum() / share.sum()
    return Cuts(evidence, pieces)
