"""When one order will have been boxed, and when it will be with its customer."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

import numpy as np

from bulletin.facts.ahead.lanes import carried
from bulletin.facts.ahead.windows import order_windows
from bulletin.facts.counting.backlog import backlog_of
from bulletin.facts.counting.keys import Integers, texts
from bulletin.facts.prospects import FORECAST
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, Scope, fact
from bulletin.model import Window


class OrderForecast(Scope):
    """One order: all its lines that still wait."""

    tables = ("orders", "boxing")

    def __init__(self, day: Day, number: str, behind: Callable[[], Records]) -> None:
        """An order by its number, and the rows that all forecasts rest on."""
        super().__init__(day)
        self.number = number
        self.behind = behind

    @fact("window", FORECAST)
    def itself(self) -> Found | Gap:
        """When the last unit of the order will be boxed, by its place in the queue: the central 80 % of the simulated futures."""
        window = self.window()
        return window if isinstance(window, Gap) else Found(window, self.records)

    def window(self) -> Window | Gap:
        """The window of the order's last line."""
        if not len(self.positions):
            return Gap("there is no such order")
        backlog = self.day.once(backlog_of)
        waiting = self.positions[backlog.waiting[self.positions]]
        if not len(waiting):
            return Gap("no unit of the order waits any more")
        if not backlog.queued[waiting].all():
            return Gap("the order stands outside the queue: it is held, or its refund was asked for")
        windows = self.day.once(order_windows)
        if isinstance(windows, Gap):
            return windows
        first, last = windows.first[waiting], windows.last[waiting]
        if np.isnat(last).any():
            return Gap("its window ends later than the parts on order, or the forecast, reach")
        return Window(first.max().item(), last.max().item())

    @cached_property
    def positions(self) -> Integers:
        """Its rows in the frame of orders."""
        return np.flatnonzero(texts(self.day.table("orders").frame["order"]) == self.number)

    def records(self) -> Records:
        """The rows behind the forecast; of the orders its own alone."""
        return {**self.behind(), "orders": self.day.table("orders").frame.index.to_numpy(np.int64)[self.positions]}


class OrderArrival(OrderForecast):
    """One order on its way to the door."""

    @fact("window", FORECAST, tables=("lanes",))
    def itself(self) -> Found | Gap:
        """When the order will be with its customer: the window of boxing and the working days that its market's lane takes."""
        window = self.window()
        if isinstance(window, Gap):
            return window
        market = str(self.day.table("orders").frame["market"].iloc[int(self.positions[0])])
        arrival = carried(self.day, market, window)
        return arrival if isinstance(arrival, Gap) else Found(arrival, lambda: {**self.records(), "lanes": self._lane(market)})

    def _lane(self, market: str) -> Integers:
        lanes = self.day.table("lanes").frame
        return lanes.index[lanes["market"] == market].to_numpy(np.int64)
