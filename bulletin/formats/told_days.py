"""Whether words that name a day mean a date: every part that they say must be so, and they must say something."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from bulletin.formats.figures import Day

THIRDS = ("early", "mid", "late")
"""The parts of a month, as the word lists call them."""


@dataclass(frozen=True, slots=True)
class Today:
    """The day that words like "tomorrow" count from, and the weekday on which the maker's weeks begin (Monday is 0)."""

    day: date
    week_start: int = 0

    def week_of(self, day: date) -> date:
        """The day on which a day's week began."""
        return day - timedelta(days=(day.weekday() - self.week_start) % 7)


def is_day(told: Day, value: date, today: Today | None) -> bool:
    """Whether all that the words say of a day is so; words that count from today never are without one."""
    calendar = value.isocalendar()
    parts = (
        (told.year, value.year if told.week is None else calendar.year),
        (told.month, value.month),
        (told.day, value.day),
        (told.weekday, value.weekday()),
        (told.week, calendar.week),
        (told.quarter, _quarter(value)),
        (told.third, third_of(value)),
    )
    said = [(ours, theirs) for ours, theirs in (*parts, *_shifted(told, value, today)) if ours is not None]
    return bool(said) and all(ours == theirs for ours, theirs in said)


def third_of(day: date) -> int:
    """The third of its month that a day lies in: 1 up to the 10th, 2 up to the 20th, 3 to the end."""
    return min((day.day + 9) // 10, 3)


def _shifted(told: Day, value: date, today: Today | None) -> Iterator[tuple[int | None, int | None]]:
    """What words like tomorrow or next week say, beside how far the day lies from today."""
    shifts = (told.shift, told.week_shift, told.month_shift, told.quarter_shift, told.year_shift)
    if today is None:
        yield from ((shift, None) for shift in shifts)
        return
    years = value.year - today.day.year
    weeks = (today.week_of(value) - today.week_of(today.day)).days // 7
    quarters = years * 4 + _quarter(value) - _quarter(today.day)
    yield from zip(
        shifts,
        ((value - today.day).days, weeks, years * 12 + value.month - today.day.month, quarters, years),
        strict=True,
    )


def _quarter(day: date) -> int:
    return (day.month + 2) // 3
