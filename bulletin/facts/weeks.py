"""Output a week: units boxed in each completed week, and the working days it had."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

import numpy as np

from bulletin.facts.calendar import Calendar, day_number
from bulletin.facts.keys import Integers
from bulletin.model import Window


@dataclass(frozen=True)
class WorkedWeek:
    """A week that had working days."""

    days: Window
    units: int
    working_days: int

    @property
    def rate(self) -> Fraction:
        """Units a working day."""
        return Fraction(self.units, self.working_days)


def worked_weeks(calendar: Calendar, boxed: Integers, as_of: date) -> tuple[WorkedWeek, ...]:
    """The completed weeks before that of a day, oldest first, from the first with a unit; those without a working day apart.

    `boxed` are the days on which units count, in days since 1970-01-01.
    """
    now = int(calendar.week_numbers(np.array([day_number(as_of)]))[0])
    numbers = calendar.week_numbers(boxed)
    numbers = numbers[numbers < now]
    if not numbers.size:
        return ()
    back = now - int(numbers.min())
    counts = np.bincount(numbers - numbers.min(), minlength=back)
    windows = [calendar.week(as_of, offset) for offset in range(-back, 0)]
    weeks = zip(windows, counts, strict=True)
    worked = (WorkedWeek(window, int(count), len(calendar.working_days(*window))) for window, count in weeks)
    return tuple(week for week in worked if week.working_days)
