"""What a history tells of a line: rate, weekly pattern, stoppages, dispersion, and how surely."""

from __future__ import annotations

import numpy as np
import pytest

from bulletin.forecast.line import Line, draw_paths, line_of
from bulletin.forecast.output import Integers, Output
from bulletin.forecast.windows import curves_of

AHEAD = 120
FUTURES = 2000


def line(units: Integers) -> Line:
    found = line_of(Output(units, np.arange(len(units)) % 5), AHEAD)
    if found is None:
        raise ValueError("too short")
    return found


def width(units: Integers, place: int) -> int:
    paths = draw_paths(line(units), np.arange(len(units), len(units) + AHEAD) % 5, FUTURES)
    low, high = curves_of(paths).windows(np.array([place]))
    return int(high[0] - low[0])


def poisson(rate: float, days: int, seed: int = 1) -> Integers:
    return np.random.default_rng(seed).poisson(rate, days)


def test_too_short_a_history_tells_nothing() -> None:
    """Nine working days from the first unit on are too few, ten are not."""
    assert line_of(Output(np.array([0, 0, *[4] * 9]), np.arange(11) % 5), AHEAD) is None
    assert line_of(Output(np.array([0, 0, *[4] * 10]), np.arange(12) % 5), AHEAD) is not None


def test_a_rate_known_from_few_days_is_not_known_well() -> None:
    """Twelve days leave windows for place 600 nearly twice as wide as two hundred days do, or wider."""
    few, many = (sum(width(poisson(10, days, seed), 600) for seed in range(5)) for days in (12, 200))

    assert few > 1.8 * many


def test_a_step_change_is_noticed() -> None:
    """Fifteen days after the rate fell from twelve to six a day, it is taken to be near six."""
    units = np.concatenate([poisson(12, 120), poisson(6, 15, seed=2)])

    assert line(units).rate.average == pytest.approx(units[-15:].mean(), rel=0.12)


def test_one_bad_day_is_no_step() -> None:
    """A single day with a third of the usual output hardly moves the rate."""
    units = np.append(poisson(12, 120), 4)

    assert line(units).rate.average == pytest.approx(12, rel=0.06)


def test_a_learning_curve_goes_on_and_flattens() -> None:
    """Where the rate has grown as the square root of the days, the next sixty days are expected to go on in the same way."""
    mean = 20 * np.sqrt(np.arange(1, 241) / 180)
    histories = [line(np.random.default_rng(seed).poisson(mean[:180])) for seed in range(8)]
    made = np.mean([draw_paths(drawn, np.arange(60) % 5, FUTURES)[-1].mean() for drawn in histories])

    assert mean[180:].sum() == pytest.approx(made, rel=0.06)


def test_the_weekly_pattern_is_kept() -> None:
    """A line that makes half as much on Fridays is believed to, and one without a pattern to have none."""
    factors = np.array([1.125, 1.125, 1.125, 1.125, 0.5])
    with_pattern = np.random.default_rng(6).poisson(20 * np.tile(factors, 40))
    without = poisson(20, 200)

    assert factors == pytest.approx(line(with_pattern).weekly[:5], abs=0.06)
    assert np.ones(5) == pytest.approx(line(without).weekly[:5], abs=0.03)


def test_a_weekday_without_output_is_no_stoppage() -> None:
    """A maker who never boxes on Fridays has a pattern, not forty stoppages."""
    found = line(np.tile([9, 11, 10, 10, 0], 40))

    assert found.stoppages is not None
    assert found.stoppages.stood == 0
    assert found.weekly[4] == pytest.approx(0, abs=0.02)


def test_runs_of_empty_days_are_stoppages() -> None:
    """Three runs of empty days are three stoppages; the rate is that of the days that ran; a run at the end still lasts."""
    units = poisson(10, 120)
    for first, length in ((20, 3), (60, 5), (116, 4)):
        units[first : first + length] = 0
    found = line(units)

    assert found.stoppages is not None
    assert (found.stoppages.starts, found.stoppages.stood, found.stoppages.standing) == (3, 12, True)
    assert found.rate.average == pytest.approx(10, rel=0.08)
    assert found.without_stoppages().stoppages is None


def test_empty_days_of_a_slow_line_are_not() -> None:
    """A line of one unit a day has empty days by chance."""
    found = line(poisson(1, 150))

    assert found.stoppages is not None
    assert found.stoppages.stood == 0


@pytest.mark.parametrize("ratio", [0.2, 1.0, 4.0])
def test_the_dispersion_is_found(ratio: float) -> None:
    """Variance over mean of the days, below, at and above that of counts at random; a step in between does not matter."""
    random = np.random.default_rng(8)
    mean = np.where(np.arange(200) < 100, 30.0, 45.0)
    units = np.rint(random.gamma(mean / ratio, ratio)).astype(np.int64)

    assert ratio / 1.5 < line(units).dispersion.ratio < ratio * 1.5


def test_paths_keep_mean_and_variance() -> None:
    """The output of 50 days has the mean and the variance that a line with a known rate and dispersion has."""
    known = line(poisson(10, 250)).with_known_rate()
    made = draw_paths(known, np.arange(50) % 5, 20_000)[-1]

    assert made.mean() == pytest.approx(50 * known.rate.average, rel=0.01)
    assert made.var() == pytest.approx(50 * known.rate.average * known.dispersion.ratio, rel=0.12)


def test_a_known_rate_narrows_the_window() -> None:
    """Doubt about the rate is part of the window: without it the window of a far place is narrower."""
    drawn = line(poisson(10, 60))
    weekday = np.arange(AHEAD) % 5
    ways = drawn, drawn.with_known_rate()
    both = [curves_of(draw_paths(one, weekday, FUTURES)).windows(np.array([900])) for one in ways]
    widths = [int(high[0] - low[0]) for low, high in both]

    assert widths[0] > 1.5 * widths[1]


def test_the_same_history_draws_the_same_futures() -> None:
    """Everything comes from one fixed seed."""
    units = poisson(7, 90)
    first, second = (draw_paths(line(units), np.arange(AHEAD) % 5, 300) for _ in range(2))

    assert np.array_equal(first, second)
