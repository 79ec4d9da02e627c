"""The `forecast` family: when what waits will have been boxed, what will have been made by then, and what was told otherwise."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import numpy as np

from bulletin.facts.ahead.windows import order_windows
from bulletin.facts.boxed import Boxed
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.medians import median
from bulletin.facts.counting.models import models_of
from bulletin.facts.counting.telling import telling_of
from bulletin.facts.order_forecast import OrderArrival, OrderForecast
from bulletin.facts.prospects import FORECAST, Prospects
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, door, fact


class ModelForecast(Prospects):
    """One model alone."""


class Forecast(Prospects):
    """All models together, single orders, and what they were told before."""

    def __init__(self, day: Day) -> None:
        """Every model that was made or is waited for."""
        super().__init__(day, day.once(models_of), day.once(Boxed))

    @classmethod
    def newest(cls, day: Day) -> date | None:
        """The day of the newest scan."""
        return Boxed.newest(day)

    @fact("order", FORECAST)
    def moved(self) -> Found | Gap:
        """Orders in the queue whose window now ends later than they were told, by more than `window_moved_days` days."""
        late = self._late()
        return late if isinstance(late, Gap) else Found(len(late[0]), self._told(late[0]))

    @fact("day", FORECAST, decimals=1)
    def moved_days(self) -> Found | Gap:
        """The median of the days by which the windows of the orders of `moved` now end later than they were told."""
        late = self._late()
        if isinstance(late, Gap):
            return late
        return Found(median(late[1]), self._told(late[0])) if len(late[0]) else Gap("no window moved")

    @fact("working day", FORECAST)
    def widened(self) -> Found | Gap:
        """Working days by which both ends of every window are put out, since too few of the past weeks' windows came true."""
        scenario = self.outlook.usual()
        return scenario if isinstance(scenario, Gap) else Found(self.outlook.widening, self.records)

    @door("call", choices="model_choices")
    def of(self, model: str) -> ModelForecast | None:
        """The same facts for one model."""
        boxed = self.boxed.of.function(self.boxed, model)
        return ModelForecast(self.day, (model,), boxed) if model in self.models and isinstance(boxed, Boxed) else None

    @door("item")
    def order(self, number: str) -> OrderForecast | None:
        """One order."""
        return OrderForecast(self.day, number, self.records)

    @door("item")
    def arrive(self, number: str) -> OrderArrival | None:
        """One order at its customer's door."""
        return OrderArrival(self.day, number, self.records)

    def model_choices(self) -> tuple[str, ...]:
        """The models that have facts of their own."""
        return self.models

    def _late(self) -> tuple[Integers, Integers] | Gap:
        """Positions in the frame of orders, and by how many days their windows end after the day that was told."""
        windows = self.day.once(order_windows)
        if isinstance(windows, Gap):
            return windows
        late = (windows.last - self.day.once(telling_of).latest).astype("timedelta64[D]")
        known = np.flatnonzero(~np.isnat(late))
        days = late[known].astype(np.int64)
        moved = days > self.day.settings.checks.window_moved_days
        return known[moved], days[moved]

    def _told(self, positions: Integers) -> Callable[[], Records]:
        """The rows behind orders at some positions."""

        def records() -> Records:
            found = {**self.records(), "orders": self.day.table("orders").frame.index.to_numpy(np.int64)[positions]}
            told = self.day.once(telling_of).latest_row[positions]
            if self.day.has("told"):
                found["told"] = self.day.table("told").frame.index.to_numpy(np.int64)[told[told >= 0]]
            return found

        return records
