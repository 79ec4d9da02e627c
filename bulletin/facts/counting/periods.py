"""The spans of days that counts are told for: how a fact's name and its explanation say them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from bulletin.facts.scopes.calendar import ONE_DAY, Calendar
from bulletin.model import Window


@dataclass(frozen=True)
class Period:
    """A span of days by the as-of date; `words` stand behind what is counted."""

    name: str
    words: str
    days: Callable[[Calendar, date], Window]


TODAY = Period("today", "on the as-of date", lambda _, day: Window(day, day))
YESTERDAY = Period("yesterday", "on the day before the as-of date", lambda _, day: Window(day - ONE_DAY, day - ONE_DAY))
WEEK = Period("week", "in the week of the as-of date, up to that date", lambda calendar, day: calendar.week(day))
LAST_WEEK = Period("last_week", "in the week before that of the as-of date", lambda calendar, day: calendar.week(day, -1))
MONTH = Period("month", "in the month of the as-of date, up to that date", lambda calendar, day: calendar.month(day))
LAST_MONTH = Period("last_month", "in the month before that of the as-of date", lambda calendar, day: calendar.month(day, -1))
PERIODS = (TODAY, YESTERDAY, WEEK, LAST_WEEK, MONTH, LAST_MONTH)
