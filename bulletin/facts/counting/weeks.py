"""Output a week: units boxed in each completed week, and the working days it had."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

import numpy as np

from bulletin.facts.counting.day_counts import DayCounts
from bulletin.facts.scopes.calendar import Calendar, day_number
from bulletin.model import Window


@dataclass(frozen=True)
class WorkedWeek:
    """A week that had working days; `number` is that of `Calendar.week_numbers`."""

    number: int
    days: Window
    units: int
    working_days: int

    @property
    def rate(self) -> Fraction:
        """Units a working day."""
        return Fraction(self.units, self.working_days)


def worked_weeks(calendar: Calendar, boxed: DayCounts, as_of: date) -> tuple[WorkedWeek, ...]:
    """The completed weeks before that of a day, oldest first, from the first with a unit; those without a working day apart."""
    counts, first = boxed.by(calendar.week_numbers)
    now = int(calendar.week_numbers(np.array([day_number(as_of)]))[0])
    weeks = []
    for number in range(first, now if counts.size else first):
        window = calendar.week(as_of, number - now)
        units = int(counts[number - first]) if number - first < len(counts) else 0
        weeks.append(WorkedWeek(number, window, units, len(calendar.working_days(*window))))
    return tuple(week for week in weeks if week.working_days)
