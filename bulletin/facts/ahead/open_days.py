"""The days on which the line is open: working days of the calendar, less the known stops of stops.csv.

Ahead, every known stop is a day without output. Behind, a stop of a working week or more was a closure, known beforehand like a
holiday; a shorter one was a breakdown, such as may come again, and stays in the history as days on which nothing was made.
"""

from __future__ import annotations

from datetime import date

import numpy as np

from bulletin.facts.counting.keys import Integers
from bulletin.facts.scopes.calendar import day_number, day_of
from bulletin.facts.scopes.day import Day

CLOSURE = 5
"""Working days of a stop that was planned."""


def open_days_ahead(day: Day, count: int) -> Integers:
    """The next so many open days after the as-of date, or all within four times as many days; counted from 1970-01-01."""
    begin = day_number(day.as_of) + 1
    return _open(day, range(begin, begin + 4 * count), shortest=1)[:count]


def open_days_behind(day: Day, first: int) -> Integers:
    """The days from `first` to the as-of date that the line was not closed."""
    return _open(day, range(first, day_number(day.as_of) + 1), shortest=CLOSURE)


def _open(day: Day, span: range, *, shortest: int) -> Integers:
    working = np.array([number for number in span if day.calendar.is_working(day_of(number))], np.int64)
    closed = np.zeros(len(working), np.bool_)
    for first, last in _stops(day):
        within = (working >= first) & (working <= last)
        if len(day.calendar.working_days(day_of(first), day_of(last))) >= shortest:
            closed |= within
    return working[~closed]


def _stops(day: Day) -> list[tuple[int, int]]:
    """First and last day of each stop; one without an end lasts its one day."""
    if not day.has("stops"):
        return []
    frame = day.table("stops").frame
    spans = zip(frame["from"], frame["until"].fillna(frame["from"]), strict=True)
    return [(day_number(first.date()), day_number(last.date())) for first, last in spans]


def date_of(days: Integers, position: int) -> date:
    """The day at a position among day numbers."""
    return day_of(int(days[position]))
