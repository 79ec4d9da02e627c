"""From boxing to the door: the working days that a market's lane takes."""

from __future__ import annotations

from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Gap
from bulletin.model import Window


def carried(day: Day, market: str, boxed: Window) -> Window | Gap:
    """The window at the door of what is boxed within a window; why there is none."""
    if not day.has("lanes"):
        return Gap(f"needs {day.tables.file('lanes')}, which the data folder lacks")
    lanes = day.table("lanes").frame
    lane = lanes[lanes["market"] == market]
    if lane.empty:
        return Gap(f"{day.tables.file('lanes')} has no lane to {market}")
    low, high = (int(lane[name].iloc[0]) for name in ("days_low", "days_high"))
    return Window(day.calendar.add_working_days(boxed.first, low), day.calendar.add_working_days(boxed.last, high))
