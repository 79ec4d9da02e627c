"""Scores and limits against published values, closed forms and a reference library."""

from __future__ import annotations

from math import comb, exp, lgamma, sqrt

import numpy as np
import pytest
import scoringrules
from scipy import stats

from bulletin.forecast.scoring import coverage_band, interval_score, pinball, ranked_probability
from bulletin.forecast.special import log_gamma

VALUES = np.random.default_rng(3).normal(10, 4, (200, 3))


def test_the_published_interval_score() -> None:
    """[5, 15] at alpha 0.2 and y = 3 scores 30 (Gneiting and Raftery, JASA 102 (2007) eq. 43, computed)."""
    assert 30.0 == pytest.approx(float(interval_score(np.array(5), np.array(15), np.array(3))))


def test_the_published_ranked_probability_score() -> None:
    """The ensemble 1 to 5 at 3.5 scores 0.5 (computed with scoringrules 0.10)."""
    assert 0.5 == pytest.approx(ranked_probability(np.arange(1.0, 6), 3.5))


def test_scores_equal_the_reference_library() -> None:
    """Interval score, pinball loss and ranked probability score equal those of scoringrules on random values."""
    low, high, truth = np.sort(VALUES[:, :2], axis=1)[:, 0], np.sort(VALUES[:, :2], axis=1)[:, 1], VALUES[:, 2]
    ensembles = np.random.default_rng(4).gamma(3, 2, (200, 25))

    assert scoringrules.interval_score(truth, low, high, 0.2) == pytest.approx(interval_score(low, high, truth))
    assert scoringrules.quantile_score(truth, low, 0.1) == pytest.approx(pinball(low, truth, 0.1))
    assert scoringrules.crps_ensemble(truth, ensembles) == pytest.approx(
        np.array([ranked_probability(ensemble, one) for ensemble, one in zip(ensembles, truth, strict=True)])
    )


def test_a_quantile_minimises_the_pinball_loss() -> None:
    """The mean pinball loss at 0.9 of a normal variable is least at its 90th percentile, where it is the closed form.

    For a standard normal variable it is phi(z) there (from the definition, by parts).
    """
    drawn = stats.norm.ppf((np.arange(200_000) + 0.5) / 200_000)
    z = stats.norm.ppf(0.9)
    losses = [float(pinball(np.array(at), drawn, 0.9).mean()) for at in (z - 0.1, z, z + 0.1)]

    assert losses[1] == min(losses)
    assert exp(-(z**2) / 2) / sqrt(2 * np.pi) == pytest.approx(losses[1], abs=1e-4)


def test_the_published_coverage_band() -> None:
    """Of 50 windows at 80 %, 34 to 45 come true (exact binomial, central 95 %; computed)."""
    assert (34, 45) == coverage_band(50)


@pytest.mark.parametrize("windows", [1, 7, 10, 83, 400])
def test_coverage_bands_are_binomial(windows: int) -> None:
    """The band is the central 95 % of the binomial as scipy has it."""
    expected = tuple(int(limit) for limit in stats.binom.interval(0.95, windows, 0.8))

    assert expected == coverage_band(windows)
    assert 1 == pytest.approx(sum(comb(windows, k) * 0.8**k * 0.2 ** (windows - k) for k in range(windows + 1)))


def test_log_gamma_is_that_of_the_standard_library() -> None:
    """From a thousandth to a million within 1e-11 of its size."""
    values = np.geomspace(1e-3, 1e6, 500)
    expected = np.array([lgamma(value) for value in values])

    assert expected == pytest.approx(log_gamma(values), rel=1e-11, abs=1e-11)
