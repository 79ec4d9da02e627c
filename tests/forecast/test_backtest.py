"""Replaying past weeks, tallying windows, and widening only what is proven wrong."""

from __future__ import annotations

import numpy as np
import pytest

from bulletin.forecast.backtest import FORECAST, Hindsight, Replayed, replay
from bulletin.forecast.references import day_bootstrap, normal_approximation, remaining_by_rate
from bulletin.forecast.tally import separate, tally
from bulletin.forecast.widening import asked_for, widening

MONDAYS_ON = np.array([day for day in range(4, 600) if (day + 3) % 7 < 5])
"""Working days from Monday, 5 January 1970 on."""


def replayed(as_of: int, first: int, last: int, came: int, place: int = 10) -> Replayed:
    return Replayed(as_of, place, first, last, came)


def outside(windows: list[Replayed]) -> list[int]:
    """By how many days what came lay outside each of the windows that do not overlap."""
    return [max(one.first - one.came, one.came - one.last) for one in separate(windows)]


def test_only_what_was_known_then_is_used() -> None:
    """What was made after a week does not change the windows told as of it."""
    units = np.random.default_rng(1).poisson(8, 120)
    later = np.concatenate([units[:60], units[60:] * 2])
    places = np.array([40, 80])
    told = [[Hindsight(made, MONDAYS_ON).told(at, places) for at in (29, 39, 59)] for made in (units, later)]
    known, other = ([ends.tolist() for week in weeks for ends in week or ()] for weeks in told)

    assert len(known) == 6
    assert known == other


def test_what_came_is_counted_from_the_output() -> None:
    """Four a day reach place 20 on the fifth working day after each week's last one."""
    units = np.full(60, 4)
    found = [one for one in replay(Hindsight(units, MONDAYS_ON)) if one.place == 20]

    assert {5} == {one.came - one.as_of for one in found}
    assert all(one.first <= one.came <= one.last for one in found)
    assert [19, 24, 29] == [one.as_of for one in found[:3]]


def test_separate_weeks_are_those_of_separate_windows() -> None:
    """Weeks that are told apart by what came are the weeks of the replayed windows that do not overlap."""
    hindsight = Hindsight(np.random.default_rng(2).poisson(6, 200), MONDAYS_ON)
    replayed = replay(hindsight)
    places = hindsight.places.tolist()
    expected = [[(one.as_of, one.came) for one in separate([one for one in replayed if one.place == place])] for place in places]

    assert expected == [hindsight.separate(number) for number in range(len(places))]


def test_separate_windows_do_not_overlap() -> None:
    """Of windows a week apart that each take twelve days, every third is judged."""
    windows = [replayed(at, at + 8, at + 14, at + 12) for at in range(0, 60, 5)]

    assert [0, 15, 30, 45] == [one.as_of for one in separate(windows)]


def test_a_tally_counts_what_held_and_what_came_late() -> None:
    """Two windows of which one held and one was exceeded by two days: half held, half late, scores by hand."""
    windows = [replayed(0, 3, 7, 5), replayed(10, 13, 17, 19)]
    (found,) = tally(windows)
    score = found.scores[0]

    assert (FORECAST, 0.5, 0.5) == (score.way, score.held, score.late)
    assert (4 + (4 + 10 * 2)) / 2 == pytest.approx(score.interval_score)
    assert score.interval_score / 20 == pytest.approx(score.pinball_loss)
    assert (2, 2, 1) == (found.windows, found.separate, found.separate_held)


def test_nothing_is_widened_on_nine_windows() -> None:
    """However wrong they were, fewer than ten separate windows widen nothing."""
    wrong = outside([replayed(at, at + 1, at + 2, at + 6) for at in range(0, 54, 6)])

    assert len(wrong) == 9
    assert asked_for(wrong, 9) == 0


def test_windows_that_prove_wrong_are_widened() -> None:
    """Ten of twenty held, fewer than the 12 of the band: the others were four days out, and four days is what is added."""
    windows = [replayed(at, at + 4, at + 6, at + (5 if number % 2 else 10)) for number, at in enumerate(range(0, 400, 20))]

    assert 4 == asked_for(outside(windows), 20)


def test_windows_that_hold_are_left_alone() -> None:
    """Nine of ten held: nothing is added, although one lay outside."""
    windows = [replayed(at, at + 4, at + 6, at + (5 if at else 12)) for at in range(0, 200, 20)]

    assert asked_for(outside(windows), 10) == 0


def test_no_more_windows_are_looked_at_than_prove_them_right() -> None:
    """Of twenty windows, twelve that held are enough: the lower end of the exact band (scipy: binom.ppf(.025, 20, .8))."""
    left = iter([0] * 20)

    assert asked_for(left, 20) == 0
    assert len(list(left)) == 8


STEPS = np.tile(np.repeat([2, 20], 10), 20)
"""Output that jumps up and down every other week, which no window of a few days could have known."""


@pytest.mark.parametrize(("units", "widened"), [(STEPS, True), (np.random.default_rng(6).poisson(8, 360), False)])
def test_widening_is_that_of_all_replayed_windows(units: np.ndarray[tuple[int], np.dtype[np.int64]], widened: bool) -> None:
    """Looked at one by one, and only near places, past windows ask for what all the replayed ones together ask for."""
    hindsight = Hindsight(units, np.array([day for day in range(4, 1200) if (day + 3) % 7 < 5]))
    every = replay(hindsight)
    of_place = [outside([one for one in every if one.place == place]) for place in hindsight.places.tolist()]
    expected = max(asked_for(found, len(found)) for found in of_place)

    assert expected == widening(hindsight)
    assert widened == (expected > 0)


def test_the_plain_references() -> None:
    """At ten a day place 100 comes on the tenth day; the normal window is that of a renewal process (Cox 1962, computed)."""
    places = np.array([100])
    steady = np.full(60, 10)
    scattered = np.tile([5, 15], 30)
    low, high = normal_approximation(scattered, places)
    deviation = np.sqrt(100 * scattered.var(ddof=1) / 10**3)

    assert ([9.0], [9.0]) == tuple(end.tolist() for end in remaining_by_rate(steady, places))
    assert ([9.0], [9.0]) == tuple(end.tolist() for end in day_bootstrap(steady, places, 40))
    assert np.ceil(10 - 1.2815515655 * deviation) - 1 == low[0]
    assert np.ceil(10 + 1.2815515655 * deviation) - 1 == high[0]
