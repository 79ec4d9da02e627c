"""How good windows were: coverage, interval score, pinball loss, ranked probability score."""

from __future__ import annotations

from math import comb

import numpy as np

from bulletin.forecast.output import Reals


def pinball(quantile: Reals, truth: Reals, level: float) -> Reals:
    """The pinball loss of quantiles at a level (Koenker and Bassett, Econometrica 46 (1978) 33-50)."""
    short = np.asarray(truth, np.float64) - np.asarray(quantile, np.float64)
    loss: Reals = np.where(short >= 0, level * short, (level - 1) * short)
    return loss


def interval_score(low: Reals, high: Reals, truth: Reals, missed: float = 0.2) -> Reals:
    """Width, and 2 / `missed` for each day by which the truth lies outside (Gneiting and Raftery, JASA 102 (2007) eq. 43)."""
    low, high, truth = (np.asarray(values, np.float64) for values in (low, high, truth))
    score: Reals = high - low + 2 / missed * (np.maximum(low - truth, 0) + np.maximum(truth - high, 0))
    return score


def ranked_probability(ensemble: Reals, truth: float) -> float:
    """The continuous ranked probability score of an ensemble (Gneiting and Raftery (2007) eq. 21)."""
    ordered = np.sort(np.asarray(ensemble, np.float64))
    count = len(ordered)
    ranks = 2 * np.arange(1, count + 1) - count - 1
    return float(np.abs(ordered - truth).mean() - (ranks * ordered).sum() / count**2)


def coverage_band(windows: int, share: float = 0.8, confidence: float = 0.95) -> tuple[int, int]:
    """How many of so many separate windows come true if each does with chance `share`: the exact central binomial limits."""
    chances = np.array([comb(windows, k) * share**k * (1 - share) ** (windows - k) for k in range(windows + 1)])
    below = np.cumsum(chances)
    tail = (1 - confidence) / 2
    return int(np.searchsorted(below, tail)), int(np.searchsorted(below, 1 - tail))
