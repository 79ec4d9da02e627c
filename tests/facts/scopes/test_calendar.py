"""Working days, weeks and months."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bulletin.facts.scopes.calendar import Calendar, day_number, day_of
from bulletin.model import Window

DAYS = st.dates(date(1971, 1, 1), date(2199, 12, 31))
ISO = Calendar(frozenset(range(5)), lambda day: False)


@pytest.mark.parametrize(
    ("day", "name"),
    [
        (date(2020, 12, 31), "2020-W53"),
        (date(2024, 12, 30), "2025-W01"),
        (date(2026, 12, 28), "2026-W53"),
        (date(2027, 1, 3), "2026-W53"),
    ],
)
def test_weeks_are_those_of_iso_8601(day: date, name: str) -> None:
    """ISO 8601 weeks as Python's isocalendar gives them: a week belongs to the year that has its Thursday."""
    actual = ISO.week_name(day)

    assert name == actual


def test_a_week_may_begin_on_sunday() -> None:
    """The settings' first weekday decides what a week is, and the week is then named by the day it begins on."""
    calendar = Calendar(frozenset(range(5)), lambda day: False, week_start=6)

    actual = (calendar.week(date(2026, 3, 28)), calendar.week_name(date(2026, 3, 28)))

    assert (Window(date(2026, 3, 22), date(2026, 3, 28)), "2026-03-22") == actual


@given(DAYS, st.integers(0, 6))
def test_numbers_of_weeks_and_months_part_days_as_the_windows_do(day: date, week_start: int) -> None:
    """Two days have one number just where one window holds both."""
    calendar = Calendar(frozenset(range(5)), lambda day: False, week_start)
    for window, numbers in ((calendar.week(day), calendar.week_numbers), (calendar.month(day), calendar.month_numbers)):
        first, last = day_number(window.first), day_number(window.last)

        before, *inside, after = numbers(np.array([first - 1, first, day_number(day), last, last + 1])).tolist()

        assert {before + 1} == set(inside) == {after - 1}


@given(DAYS)
def test_a_day_comes_back_from_its_number(day: date) -> None:
    """Days in arrays are the days they were made of."""
    actual = day_of(day_number(day))

    assert day == actual


def test_a_holiday_is_no_working_day() -> None:
    """Working days before a day leave out weekends and holidays."""
    calendar = Calendar(frozenset(range(5)), lambda day: day == date(2026, 4, 6))

    actual = calendar.working_days_before(date(2026, 4, 8), 2)

    assert [date(2026, 4, 3), date(2026, 4, 7)] == actual


def test_a_maker_who_never_works_has_no_working_days() -> None:
    """Where every day is a holiday the search ends."""
    calendar = Calendar(frozenset(range(7)), lambda day: True)

    actual = calendar.working_days_before(date(2026, 4, 8), 20)

    assert [] == actual
