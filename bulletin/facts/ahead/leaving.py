"""From the bench to the door of the shop: the working days that units usually take from boxing to leaving."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bulletin.facts.counting.order_units import order_units
from bulletin.facts.counting.telling import Dates
from bulletin.facts.counting.units import units_of
from bulletin.facts.scopes.calendar import day_number, day_of
from bulletin.tables.integer_keys import NONE

if TYPE_CHECKING:
    from bulletin.facts.counting.keys import Integers
    from bulletin.facts.scopes.day import Day

NEWEST = 200
"""So many of the units that left last are looked at."""
LEFT = ("shipped", "delivered")


def days_to_leave(day: Day) -> int:
    """The working days within which nine of ten of the newest units left after they had been boxed; 0 where none has left.

    Nine of ten, as the end of a window is the day by which nine of ten futures have boxed a unit.
    """
    frame, unit = day.table("orders").frame, day.once(order_units)
    closed = frame["closed"].to_numpy().astype("datetime64[D]")
    gone = np.flatnonzero(frame["status"].isin(LEFT).to_numpy() & ~np.isnat(closed) & (unit != NONE))
    newest = gone[np.argsort(closed[gone], kind="stable")][-NEWEST:]
    if not len(newest):
        return 0
    left, boxed = closed[newest].astype(np.int64), day.once(units_of).last_day[unit[newest]].astype(np.int64)
    first, last = int(min(left.min(), boxed.min())), int(max(left.max(), boxed.max()))
    working = np.array([day_number(one) for one in day.calendar.working_days(day_of(first), day_of(last))], np.int64)
    taken = np.searchsorted(working, left, "right") - np.searchsorted(working, boxed, "right")
    return max(int(np.quantile(taken, 0.9, method="inverted_cdf")), 0)


def leaving(day: Day, boxed: Dates) -> Dates:
    """The day by which what is boxed on a day has left; NaT stays NaT. Each distinct day is worked out once."""
    count = day.once(days_to_leave)
    days, which = np.unique(boxed, return_inverse=True)
    carried = [one if np.isnat(one) else _carried(day, one.astype(np.int64), count) for one in days]
    return np.array(carried, "datetime64[D]")[which]


def _carried(day: Day, boxed: Integers, count: int) -> np.datetime64:
    return np.datetime64(day.calendar.add_working_days(day_of(int(boxed)), count), "D")
