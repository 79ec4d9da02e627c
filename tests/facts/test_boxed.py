"""Units boxed: what counts, and on which day."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bulletin.facts.scopes.day import Day
from bulletin.model import Fact
from tests.facts.builders import Row, boxed, day_of, find, order, reopened, value, why

YEARS = range(2020, 2027)
FRIDAY = "2026-03-27"
"""In ISO week 2026-W13, from Monday 23 March."""


def a_day(*scans: Row, as_of: str = FRIDAY, **more: Any) -> Day:
    return day_of(as_of, boxing=list(scans), **more)


def test_a_unit_boxed_again_does_not_count_twice() -> None:
    """A unit counts once, on the day of its first scan as boxed; that it was boxed again is told apart."""
    day = a_day(boxed("H-1", "2026-03-16"), reopened("H-1", "2026-03-17"), boxed("H-1", "2026-03-24"))

    actual = [value(day, f"boxed.{key}") for key in ("total", "week", "last_week", "reboxed_week")]

    assert [1, 0, 1, 1] == actual


def test_a_unit_that_was_opened_does_not_stand_boxed() -> None:
    """The latest event decides, and the week in which it was first boxed loses it."""
    day = a_day(boxed("H-1", "2026-03-16"), reopened("H-1", "2026-03-24"))

    actual = [value(day, f"boxed.{key}") for key in ("total", "last_week", "reboxed_week")]

    assert [0, 0, 0] == actual


def test_it_stood_boxed_on_the_days_before_it_was_opened() -> None:
    """As of a day before the unit was opened, it counts."""
    day = a_day(boxed("H-1", "2026-03-16"), reopened("H-1", "2026-03-24"), as_of="2026-03-20")

    actual = value(day, "boxed.week")

    assert 1 == actual


def test_events_are_taken_in_time_not_in_the_order_of_the_file() -> None:
    """A file sorted otherwise tells the same."""
    day = a_day(reopened("H-1", "2026-03-17"), boxed("H-1", "2026-03-24"), boxed("H-1", "2026-03-16"))

    actual = [value(day, f"boxed.{key}") for key in ("total", "last_week", "reboxed_week")]

    assert [1, 1, 1] == actual


def test_of_two_events_at_one_moment_the_later_row_is_the_later_one() -> None:
    """Scans of the same minute stand in the order of the file."""
    day = a_day(
        boxed("H-1", "2026-03-24"), reopened("H-1", "2026-03-24"), reopened("H-2", "2026-03-24"), boxed("H-2", "2026-03-24")
    )

    actual = (value(day, "boxed.total"), find(day, "boxed.total").rows.lines())

    assert (1, {"boxing.csv": [5]}) == actual


def test_a_second_scan_without_opening_is_no_second_boxing() -> None:
    """A unit that was scanned twice was not opened."""
    day = a_day(boxed("H-1", "2026-03-16"), boxed("H-1", "2026-03-24"))

    actual = [value(day, f"boxed.{key}") for key in ("last_week", "week", "reboxed_week")]

    assert [1, 0, 0] == actual


def test_samples_never_count() -> None:
    """A sample is no unit; a unit that was a sample first counts from the day it was boxed for somebody."""
    day = a_day(
        boxed("H-1", "2026-03-24", purpose="sample"),
        boxed("H-2", "2026-03-16", purpose="sample"),
        reopened("H-2", "2026-03-17"),
        boxed("H-2", "2026-03-25", purpose="order"),
        boxed("H-3", "2026-03-16", purpose="order"),
        boxed("H-3", "2026-03-24", purpose="sample"),
    )

    actual = [value(day, f"boxed.{key}") for key in ("total", "week", "last_week", "reboxed_week")]

    assert [1, 1, 0, 0] == actual


def test_a_day_ends_at_midnight_of_the_maker() -> None:
    """A scan at 23:30 UTC is of the next day in Vienna."""
    day = a_day(boxed("H-1", "2026-03-25T23:30:00+00:00"))

    actual = [value(day, f"boxed.{key}") for key in ("today", "yesterday")]

    assert [0, 1] == actual


def test_a_week_across_the_turn_of_the_year_is_one_week() -> None:
    """2024-12-30 lies in ISO week 2025-W01 (isocalendar), which began that day."""
    day = a_day(boxed("H-1", "2024-12-30"), boxed("H-2", "2024-12-29"), as_of="2025-01-02")

    actual = [value(day, f"boxed.{key}") for key in ("week", "last_week", "month", "last_month")]

    assert [1, 1, 0, 2] == actual


def test_the_settings_say_when_a_week_begins() -> None:
    """Weeks from Sunday hold the Sunday before."""
    day = a_day(boxed("H-1", "2026-03-22"), maker='week_starts = "sunday"')

    actual = value(day, "boxed.week")

    assert 1 == actual


def test_the_best_week_is_the_record_before_this_one() -> None:
    """The current period does not compete with itself, so that a better week can be told by comparing."""
    scans = [
        boxed(f"H-{number}", when) for number, when in enumerate(["2026-03-09", "2026-03-11", "2026-03-16", *["2026-03-23"] * 3])
    ]
    day = a_day(*scans)

    actual = [value(day, f"boxed.{key}") for key in ("best_day", "best_week", "week")]

    assert [3, 2, 3] == actual
    assert why(day, "boxed.best_month") == "no unit was boxed in a month before this one"


@pytest.mark.parametrize("period", ["day", "week", "month"])
def test_a_first_period_has_no_record_before_it(period: str) -> None:
    """Never a record of zero by accident."""
    day = a_day(boxed("H-1", FRIDAY))

    actual = why(day, f"boxed.best_{period}")

    assert f"no unit was boxed in a {period} before this one" == actual


def test_the_rate_is_of_the_twenty_working_days_that_ended_before() -> None:
    """From Friday 27 February to Thursday 26 March: weekends between count, the days before and the as-of date do not."""
    counted = ["2026-02-27", "2026-03-01", "2026-03-14", "2026-03-26"]
    day = a_day(*(boxed(f"H-{when}", when) for when in [*counted, "2026-02-26", FRIDAY]))

    actual = value(day, "boxed.rate")

    assert Fraction(4, 20) == actual


def test_holidays_are_no_working_days_of_the_rate() -> None:
    """A holiday more reaches a day further back."""
    day = a_day(boxed("H-1", "2026-02-26"), maker="holidays = [2026-03-19]")

    actual = value(day, "boxed.rate")

    assert Fraction(1, 20) == actual


def test_a_first_day_has_no_rate_yet() -> None:
    """Without a scan before the as-of date there is no rate, not a rate of zero."""
    day = a_day(boxed("H-1", FRIDAY))

    actual = why(day, "boxed.rate")

    assert "nothing was boxed or opened before the as-of date" == actual


def test_a_calendar_of_holidays_has_no_rate() -> None:
    """Where there are not twenty working days, no rate."""
    every_day = ", ".join(f"{year}-{month:02}-{day:02}" for year in YEARS for month in range(1, 13) for day in range(1, 29))
    day = a_day(boxed("H-1", "2026-03-02"), maker=f'working_days = ["friday"]\nholidays = [{every_day}]')

    actual = why(day, "boxed.rate")

    assert "there are no 20 working days before the as-of date" == actual


def test_an_unusual_week_is_told_by_its_units_a_working_day() -> None:
    """Eight weeks of 2 a day, one of 6, one of 2 in a week of four days: only that of 6 lies beyond 2.4 + 2.66 * 8 / 9."""
    mondays = [
        f"2026-{month:02}-{day:02}" for month, day in [(1, 5), (1, 12), (1, 19), (1, 26), (2, 2), (2, 9), (2, 16), (2, 23)]
    ]
    scans = [boxed(f"H-{when}-{number}", when) for when in mondays for number in range(10)]
    scans += [boxed(f"H-x-{number}", "2026-03-02") for number in range(30)]
    scans += [boxed(f"H-y-{number}", "2026-03-09") for number in range(8)]
    day = a_day(*scans, maker="holidays = [2026-03-10]", as_of="2026-03-20")

    found = find(day, "boxed.unusual")

    assert isinstance(found, Fact)
    assert ("2026-W10",) == found.value
    assert {"boxing.csv": 30} == found.rows.counts()


def test_one_completed_week_says_nothing_about_scatter() -> None:
    """Two weeks are the least a chart can be drawn from."""
    day = a_day(boxed("H-1", "2026-03-16"))

    actual = why(day, "boxed.unusual")

    assert "fewer than two weeks with a working day are complete" == actual


def test_units_for_orders_leave_stock_and_replacements_out() -> None:
    """A purpose says what a unit is for; where there is none, an order does."""
    purposes: list[dict[str, str]] = [
        {"purpose": "order", "order": "A-1"},
        {"order": "A-1"},
        {"purpose": "replacement", "order": "A-1"},
        {"purpose": "stock"},
        {},
    ]
    day = a_day(*(boxed(f"H-{at}", "2026-03-24", **said) for at, said in enumerate(purposes)), orders=[order("A-1")])

    actual = [value(day, f"boxed.{key}") for key in ("total", "for_orders")]

    assert [5, 2] == actual


def test_days_are_given_as_iso_dates() -> None:
    """A day of another form is absent with the form that is wanted."""
    day = a_day(boxed("H-1", "2026-03-24"))

    actual = [value(day, "boxed.on.2026-03-24"), value(day, "boxed.between.2026-03-01.2026-03-27")]

    assert [1, 1] == actual
    for text in ("24.03.2026", "2026-02-30", "20260324", "2026-3-24"):
        assert why(day, f'boxed.on["{text}"]') == f'"{text}" is no day of the form "2026-03-05" (year-month-day)'


def test_nothing_is_told_of_days_to_come() -> None:
    """A count up to a day after the as-of date would be a count of what nobody knows."""
    day = a_day(boxed("H-1", "2026-03-24"))

    actual = [why(day, "boxed.on.2026-03-28"), why(day, "boxed.between.2026-03-01.2026-03-31")]

    assert ["2026-03-28 lies after the as-of date", "2026-03-31 lies after the as-of date"] == actual
    assert why(day, "boxed.between.2026-03-05.2026-03-01") == "2026-03-05 lies after 2026-03-01"


def test_a_model_has_the_facts_of_the_family() -> None:
    """A model that only orders name has zero units, one that nobody names has no facts."""
    day = a_day(boxed("H-1", "2026-03-24"), boxed("H-2", "2026-03-24", model="Heron 12"), orders=[order("A-1", model="Wren 4")])

    actual = [value(day, f"boxed.of.{model}.week") for model in ("Heron 8", "Heron 12", "Wren 4")]

    assert [1, 1, 0] == actual
    assert why(day, "boxed.of.Heron 9.week") == "there is no such item"


def test_an_empty_table_counts_nothing() -> None:
    """No scan is a full count of none."""
    day = a_day()

    actual = [value(day, f"boxed.{key}") for key in ("today", "total", "week", "reboxed_week", "for_orders")]

    assert [0, 0, 0, 0, 0] == actual


SCANS = st.lists(
    st.tuples(
        st.sampled_from(["H-1", "H-2", "W-3", "W-4"]),
        st.sampled_from(["boxed", "reopened"]),
        st.integers(1, 27),
        st.sampled_from(["", "order", "stock", "sample"]),
    ),
    max_size=14,
    unique_by=lambda scan: (scan[0], scan[2]),
)


@settings(max_examples=25, deadline=None)
@given(SCANS, st.randoms(use_true_random=False))
def test_neither_the_order_of_rows_nor_the_parting_by_model_changes_counts(
    scans: list[tuple[str, str, int, str]], chance: Any
) -> None:
    """Shuffled rows give the same facts, and the models add up to the whole."""
    rows = [
        boxed(serial, f"2026-03-{day:02}", event=event, purpose=purpose, model="Heron 8" if serial[0] == "H" else "Wren 4")
        for serial, event, day, purpose in scans
    ]
    orders = [order("A-1"), order("A-2", model="Wren 4")]
    shuffled = chance.sample(rows, len(rows))
    keys = ("total", "week", "last_week", "reboxed_week", "today")

    first, second = day_of(FRIDAY, boxing=rows, orders=orders), day_of(FRIDAY, boxing=shuffled, orders=orders)
    whole = [value(first, f"boxed.{key}") for key in keys]
    parts = [value(first, f"boxed.of.Heron 8.{key}") + value(first, f"boxed.of.Wren 4.{key}") for key in keys]

    assert whole == [value(second, f"boxed.{key}") for key in keys]
    assert whole == parts
