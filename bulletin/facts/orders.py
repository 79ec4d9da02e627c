"""`orders`: who waits and since when, what left, what was cancelled. A row of orders.csv is one unit and counts as one order."""

from __future__ import annotations

from datetime import date
from functools import cached_property

import numpy as np

from bulletin.facts.boxed import Boxed
from bulletin.facts.counting.joins import order_keys
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.medians import median
from bulletin.facts.counting.models import models_of
from bulletin.facts.counting.movements import Movements
from bulletin.facts.counting.order_rows import STATUSES, OrderRows, order_cuts, order_rows
from bulletin.facts.counting.telling import telling_of
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, door, fact

NOBODY_WAITS = Gap("no order is waiting")


class Orders(Movements):
    """All orders, or those of a model, a market, a batch, or several of these at once."""

    tables = ("orders",)

    def __init__(self, day: Day, orders: OrderRows | None = None) -> None:
        """All orders of the day, unless some are given."""
        super().__init__(day, day.once(order_rows) if orders is None else orders)
        self.whole = orders is None

    @classmethod
    def newest(cls, day: Day) -> date | None:
        """The day of the newest scan: orders change their state by being boxed."""
        return Boxed.newest(day)

    @fact("order")
    def waiting(self) -> Found | Gap:
        """Orders with the status waiting, held ones and those whose refund was asked for among them."""
        return self._count("waiting")

    @fact("order")
    def boxed(self) -> Found | Gap:
        """Orders with the status boxed: off the bench and not yet shipped."""
        return self._count("boxed")

    @fact("order")
    def shipped(self) -> Found | Gap:
        """Orders with the status shipped: on their way, delivered ones not among them."""
        return self._count("shipped")

    @fact("order")
    def delivered(self) -> Found | Gap:
        """Orders with the status delivered."""
        return self._count("delivered")

    @fact("order")
    def cancelled(self) -> Found | Gap:
        """Orders with the status cancelled."""
        return self._count("cancelled")

    @fact("order")
    def out(self) -> Found | Gap:
        """Orders that have left: shipped and delivered ones together."""
        return self._count("shipped", "delivered")

    @fact("day")
    def oldest_wait(self) -> Found | Gap:
        """Days from the day it was placed to the as-of date, of the waiting order for which they are most."""
        placed = self._placed_by_waiting
        if not placed.size:
            return NOBODY_WAITS
        first = int(placed.min())
        return Found(day_number(self.day.as_of) - first, lambda: self.records(self._waiting[placed == first]))

    @fact("day", decimals=1)
    def median_wait(self) -> Found | Gap:
        """Median of the days from the day it was placed to the as-of date, over the waiting orders."""
        placed = self._placed_by_waiting
        if not placed.size:
            return NOBODY_WAITS
        return Found(day_number(self.day.as_of) - median(placed), lambda: self.records(self._waiting))

    @fact("order")
    def past_promise(self) -> Found | Gap:
        """Waiting orders whose date of leaving, as it was told last, lies before the as-of date.

        That is the newest date in told.csv; for an order without one there, `promised` in orders.csv.
        """
        if not self.day.has("told") and not self.day.table("orders").has("promised"):
            return Gap(f"needs {self.day.tables.file('told')} or the column promised, which the data folder lacks")
        telling = self.day.once(telling_of)
        past = telling.latest[self.orders.row[self._waiting]] < np.datetime64(self.day.as_of)
        positions = self._waiting[past]
        return Found(len(positions), lambda: self._with_told(positions, telling.latest_row))

    @fact("order", tables=("told",))
    def retold(self) -> Found | Gap:
        """Waiting orders that told.csv has more than one row of: their date was told anew."""
        telling = self.day.once(telling_of)
        positions = self._waiting[telling.times[self.orders.row[self._waiting]] > 1]
        return Found(len(positions), lambda: self._with_all_told(positions))

    @door("call", choices="models")
    def of(self, model: str) -> Orders | None:
        """The same facts for the orders of one model."""
        return self._cut("model", model) if model in self.day.once(models_of) else None

    @door("call", choices="markets")
    def in_market(self, market: str) -> Orders | None:
        """The same facts for the orders from one market."""
        return self._cut("market", market) if market in self.day.once(order_cuts)["market"] else None

    @door("item", choices="batches")
    def batch(self, batch: str) -> Orders | None:
        """The same facts for the orders of one batch."""
        return self._cut("batch", batch) if batch in self.day.once(order_cuts)["batch"] else None

    def models(self) -> tuple[str, ...]:
        """The models to count: of all orders alone, since parts of parts are told only where they are asked for."""
        return self.day.once(models_of) if self.whole else ()

    def markets(self) -> tuple[str, ...]:
        """The markets to count."""
        return tuple(sorted(self.day.once(order_cuts)["market"])) if self.whole else ()

    def batches(self) -> tuple[str, ...]:
        """The batches to count."""
        return tuple(sorted(self.day.once(order_cuts)["batch"])) if self.whole else ()

    def _cut(self, column: str, value: str) -> Orders:
        rows = self.day.once(order_cuts)[column].get(value, np.zeros(0, np.int64))
        if self.whole:
            return Orders(self.day, self.orders.at(rows))
        return Orders(self.day, self.orders.at(np.flatnonzero(np.isin(self.orders.row, rows, assume_unique=True))))

    @cached_property
    def _waiting(self) -> Integers:
        """Positions of the waiting ones among these orders."""
        return np.flatnonzero(self.orders.having("waiting"))

    @cached_property
    def _placed_by_waiting(self) -> Integers:
        """The days on which the waiting ones were placed."""
        return self.orders.placed[self._waiting]

    @cached_property
    def _by_status(self) -> dict[str, int]:
        counts = np.bincount(self.orders.status, minlength=len(STATUSES))
        return dict(zip(STATUSES, counts.tolist(), strict=True))

    def _count(self, *statuses: str) -> Found:
        count = sum(self._by_status[status] for status in statuses)
        return Found(count, lambda: self.records(np.flatnonzero(self.orders.having(*statuses))))

    def _with_told(self, positions: Integers, told_row: Integers) -> Records:
        told = told_row[self.orders.row[positions]]
        return self._told(positions, np.unique(told[told >= 0]))

    def _with_all_told(self, positions: Integers) -> Records:
        keys = self.day.once(order_keys)
        spoken_of = keys["orders"][self.orders.row[positions]]
        return self._told(positions, np.flatnonzero(np.isin(keys["told"], spoken_of)))

    def _told(self, positions: Integers, rows: Integers) -> Records:
        records = self.records(positions)
        if not self.day.has("told"):
            return records
        return {**records, "told": self.day.table("told").frame.index.to_numpy()[rows]}
