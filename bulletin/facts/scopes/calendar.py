"""The maker's calendar: working days, weeks and months.

A working day is one of the settings' working days that is no holiday. Known stops are not holidays: they belong to the plan
and the forecast, and `rate` tells of working days as they were.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from bulletin.model import Window
from bulletin.settings import Settings

ONE_DAY = timedelta(days=1)
EPOCH = date(1970, 1, 1)


@dataclass(frozen=True, eq=False)
class Calendar:
    """`working` holds weekdays from Monday 0 to Sunday 6, `holiday` answers for a day, `week_start` is a weekday."""

    working: frozenset[int]
    holiday: Callable[[date], bool]
    week_start: int = 0

    @staticmethod
    def of(settings: Settings) -> Calendar:
        """The calendar that the settings describe."""
        maker = settings.maker
        return Calendar(frozenset(maker.working_weekdays), maker.is_holiday, maker.week_start)

    def is_working(self, day: date) -> bool:
        """Whether the maker works that day."""
        return day.weekday() in self.working and not self.holiday(day)

    def working_days(self, first: date, last: date) -> list[date]:
        """The working days from first to last, both inclusive."""
        return [day for day in days(first, last) if self.is_working(day)]

    def working_days_before(self, day: date, count: int) -> list[date]:
        """The last `count` working days that ended before a day, in order."""
        found: list[date] = []
        before = day
        for _ in range(count * 14 + 400):
            before -= ONE_DAY
            if len(found) == count:
                break
            if self.is_working(before):
                found.append(before)
        return found[::-1]

    def add_working_days(self, day: date, count: int) -> date:
        """The count-th working day after a day."""
        while count > 0:
            day += ONE_DAY
            count -= self.is_working(day)
        return day

    def week(self, day: date, offset: int = 0) -> Window:
        """The week a day lies in, or `offset` weeks later."""
        first = day - timedelta(days=(day.weekday() - self.week_start) % 7) + timedelta(weeks=offset)
        return Window(first, first + timedelta(days=6))

    def month(self, day: date, offset: int = 0) -> Window:
        """The calendar month a day lies in, or `offset` months later."""
        months = day.year * 12 + day.month - 1 + offset
        first = date(months // 12, months % 12 + 1, 1)
        following = date((months + 1) // 12, (months + 1) % 12 + 1, 1)
        return Window(first, following - ONE_DAY)

    def week_numbers(self, days: NDArray[np.int64]) -> NDArray[np.int64]:
        """Consecutive numbers of the weeks that days lie in; days are counted from 1970-01-01."""
        return (days + EPOCH.weekday() - self.week_start) // 7

    def month_numbers(self, days: NDArray[np.int64]) -> NDArray[np.int64]:
        """Consecutive numbers of the calendar months that days lie in; days are counted from 1970-01-01."""
        return days.astype("datetime64[D]").astype("datetime64[M]").astype(np.int64)

    def week_name(self, day: date) -> str:
        """The week a day lies in: 2026-W13 for an ISO 8601 week, the day it begins on for weeks that begin on another day."""
        if self.week_start:
            return self.week(day).first.isoformat()
        year, week, _ = day.isocalendar()
        return f"{year}-W{week:02}"


def days(first: date, last: date) -> Iterator[date]:
    """Every day from first to last, both inclusive."""
    for number in range(first.toordinal(), last.toordinal() + 1):
        yield date.fromordinal(number)


def day_number(day: date) -> int:
    """A day counted from 1970-01-01, as arrays of days hold them."""
    return (day - EPOCH).days


def day_of(number: int) -> date:
    """The day of such a number."""
    return EPOCH + timedelta(days=number)
