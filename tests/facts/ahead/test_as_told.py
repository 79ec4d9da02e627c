"""Windows that bulletins told, held against what came of each order."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from bulletin.facts.ahead.as_told import ToldBand, as_told
from bulletin.facts.ahead.backtest import backtest_of
from bulletin.facts.scopes.family import Gap
from bulletin.model import ToldWindow, Window, WindowsTold
from tests.facts.builders import Row, boxed, day_of, order

MARCH_6 = date(2026, 3, 6)
WEEK = Window(date(2026, 3, 16), date(2026, 3, 20))


def steady(*served: tuple[str, str]) -> list[Row]:
    """Ten stock units each working day from January to 10 April, and units of orders on the days given."""
    days = [date(2026, 1, 5) + timedelta(number) for number in range(96)]
    stock = [
        boxed(f"S-{day}-{number}", day.isoformat(), purpose="stock" if number else "order")
        for day in days
        if day.weekday() < 5
        for number in range(10)
    ]
    return stock + [boxed(f"H8-{number}", day, order=number) for number, day in served]


def told(as_of: date, *windows: tuple[str, int, Window]) -> WindowsTold:
    """What a bulletin told of orders with one line each."""
    return WindowsTold(as_of, tuple(ToldWindow(number, "", place, window) for number, place, window in windows))


def bands(
    orders: list[Row], served: list[tuple[str, str]], *bulletins: WindowsTold, as_of: str = "2026-04-10"
) -> tuple[ToldBand, ...]:
    return as_told(day_of(as_of, orders=orders, boxing=steady(*served)), bulletins)


CAME = {
    "on its first day": ("2026-03-16", (1.0, 0.0), 4.0),
    "on its last day": ("2026-03-20", (1.0, 0.0), 4.0),
    "a working day sooner": ("2026-03-13", (0.0, 0.0), 14.0),
    "two working days later": ("2026-03-24", (0.0, 1.0), 24.0),
}


@pytest.mark.parametrize(("came", "shares", "score"), CAME.values(), ids=CAME)
def test_what_came_of_a_window(came: str, shares: tuple[float, float], score: float) -> None:
    """A window of five working days, as (4 + 10 a working day outside) has it (Gneiting and Raftery (2007) eq. 43, by hand)."""
    (band,) = bands([order("A-1", status="boxed")], [("A-1", came)], told(MARCH_6, ("A-1", 1, WEEK)))

    assert (shares, score) == ((band.score.held, band.score.late), band.score.interval_score)
    assert (1, 1, 0) == (band.bulletins, band.windows, band.outstanding)


def test_what_has_not_come_counts_as_later() -> None:
    """An order that still waits after the end of its window is late by the working days so far."""
    (band,) = bands([order("A-1")], [], told(MARCH_6, ("A-1", 1, WEEK)), as_of="2026-03-27")

    assert (1, 1.0, 4.0 + 50) == (band.outstanding, band.score.late, band.score.interval_score)
    assert [None] == [window.came for window in band.shown]


def test_who_left_the_queue_unserved_is_left_out() -> None:
    """Cancelled, held and refunded orders prove nothing, nor does one that the tables no longer know."""
    orders = [order("A-1", status="cancelled", closed="2026-03-10"), order("A-2", status="boxed"), order("A-4")]
    windows = [(f"A-{number}", number, WEEK) for number in (1, 2, 3, 4)]
    holds = [{"order": "A-4", "reason": "moving house", "from": "2026-03-10"}]
    day = day_of("2026-04-10", orders=orders, boxing=steady(("A-2", "2026-03-18")), holds=holds)
    (band,) = as_told(day, [told(MARCH_6, *windows)])

    assert (1, 1.0) == (band.windows, band.score.held)


def test_places_are_parted_where_the_replay_looks() -> None:
    """Near places and far ones are told apart, the furthest in a band without an end; one window a bulletin is shown."""
    orders = [order(f"A-{number}", status="boxed") for number in (1, 2, 3)]
    served = [(f"A-{number}", "2026-03-18") for number in (1, 2, 3)]
    windows = (("A-1", 1, WEEK), ("A-2", 2, WEEK), ("A-3", 900, WEEK))
    near, far = bands(orders, served, told(MARCH_6, *windows))

    assert (2, [2]) == (near.windows, [window.place for window in near.shown])
    assert (1, None) == (far.windows, far.last_place)


def test_bulletins_that_overlap_are_counted_once() -> None:
    """Of bulletins of two weeks whose windows overlap one counts as separate; one told after the first had come counts too."""
    orders = [order(f"A-{number}", status="boxed") for number in (1, 2, 3)]
    served = [("A-1", "2026-03-18"), ("A-2", "2026-03-19"), ("A-3", "2026-03-25")]
    late = Window(date(2026, 3, 30), date(2026, 4, 3))
    bulletins = [
        told(MARCH_6, ("A-1", 1, WEEK)),
        told(date(2026, 3, 13), ("A-2", 1, WEEK)),
        told(date(2026, 3, 20), ("A-3", 1, late)),
    ]
    (band,) = bands(orders, served, *bulletins)

    assert (3, 2, 1) == (band.bulletins, band.separate, band.separate_held)


def test_a_backtest_tells_both_apart() -> None:
    """Replayed windows and told ones stand side by side in the data, and the note says what a replay does not know."""
    day = day_of("2026-04-10", orders=[order("A-1", status="boxed")], boxing=steady(("A-1", "2026-03-18")))
    found = backtest_of(day, [told(MARCH_6, ("A-1", 1, WEEK))])
    assert not isinstance(found, Gap)
    data = found.as_json()

    assert "output alone is replayed" in data["note"]
    assert [{"as_of": "2026-03-06", "place": 1, "first": "2026-03-16", "last": "2026-03-20", "came": "2026-03-18"}] == data[
        "as_told"
    ][0]["shown"]
    assert {"forecast", "remaining by rate", "normal approximation", "day bootstrap"} == {
        one["way"] for one in data["places"][0]["scores"]
    }
