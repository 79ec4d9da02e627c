"""The window of every order at once: percentiles a day, and one look-up a place."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bulletin.facts.ahead.outlook import Outlook
from bulletin.facts.counting.backlog import backlog_of
from bulletin.facts.counting.telling import Dates
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Gap


@dataclass(frozen=True, eq=False)
class OrderWindows:
    """One entry a row of orders.csv: first and last day of the window; NaT outside the queue and beyond what is seen."""

    first: Dates
    last: Dates


def order_windows(day: Day) -> OrderWindows | Gap:
    """The windows as of a day; why there is none."""
    outlook = day.once(Outlook)
    scenario = outlook.usual()
    if isinstance(scenario, Gap):
        return scenario
    place = day.once(backlog_of).place
    first, last = (np.full(len(place), np.datetime64("NaT"), "datetime64[D]") for _ in range(2))
    model = day.table("orders").frame["model"]
    days = outlook.ahead.astype("datetime64[D]")
    for name in scenario.paths:
        rows = np.flatnonzero((place > 0) & (model == name).to_numpy())
        begin, end = scenario.curves(name).windows(place[rows])
        begin, end = np.maximum(begin - outlook.widening, 0), end + outlook.widening
        seen = end < len(days)
        first[rows[seen]], last[rows[seen]] = days[begin[seen]], days[end[seen]]
    return OrderWindows(first, last)
