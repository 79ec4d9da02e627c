"""`orders`: who waits and since when, what left, what was cancelled. A row of orders.csv is one unit and counts as one order."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from functools import cached_property

import numpy as np

from bulletin.facts.boxed import Boxed
from bulletin.facts.counting.cuts import APART, Cut, by_batch, by_market, by_model, uncut
from bulletin.facts.counting.joins import order_keys
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.medians import middle_two
from bulletin.facts.counting.movements import Movements
from bulletin.facts.counting.telling import telling_of, told_late
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, door, fact
from bulletin.tables.integer_keys import among

NOBODY_WAITS = Gap("no order is waiting")


class Orders(Movements):
    """All orders, or those of a model, a market, a batch, or several of these at once."""

    tables = ("orders",)

    def __init__(self, day: Day, cut: Cut | None = None, part: int = 0) -> None:
        """All orders of the day, or a part of a cut."""
        super().__init__(day, cut or day.once(uncut), part)
        self.whole = cut is None

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
        if not self._waiting.size:
            return NOBODY_WAITS
        first = int(self.cut.orders.placed(self._waiting[:1])[0])

        def rows() -> Records:
            return self.records(self._waiting[self.cut.orders.placed(self._waiting) == first])

        return Found(day_number(self.day.as_of) - first, rows)

    @fact("day", decimals=1)
    def median_wait(self) -> Found | Gap:
        """Median of the days from the day it was placed to the as-of date, over the waiting orders."""
        if not self._waiting.size:
            return NOBODY_WAITS
        placed = self.cut.orders.placed(middle_two(self._waiting))
        return Found(day_number(self.day.as_of) - Fraction(int(placed.sum()), 2), lambda: self.records(self._waiting))

    @fact("order")
    def past_promise(self) -> Found | Gap:
        """Waiting orders whose date of leaving, as it was told last, lies before the as-of date.

        That is the newest date in told.csv; for an order without one there, `promised` in orders.csv.
        """
        if not self.day.has("told") and not self.day.table("orders").has("promised"):
            return Gap(f"needs {self.day.tables.file('told')} or the column promised, which the data folder lacks")
        rows = self._waiting[self.day.once(told_late)[self._waiting]]
        return Found(len(rows), lambda: self._with_told(rows))

    @fact("order", tables=("told",))
    def retold(self) -> Found | Gap:
        """Waiting orders that told.csv has more than one row of: their date was told anew."""
        rows = self._waiting[self.day.once(telling_of).anew(self._waiting)]
        return Found(len(rows), lambda: self._with_all_told(rows))

    @door("call", choices="models")
    def of(self, model: str) -> Orders | None:
        """The same facts for the orders of one model."""
        return self._within(self.day.once(by_model), model)

    @door("call", choices="markets")
    def in_market(self, market: str) -> Orders | None:
        """The same facts for the orders from one market."""
        return self._within(self.day.once(by_market), market)

    @door("item", choices="batches")
    def batch(self, batch: str) -> Orders | None:
        """The same facts for the orders of one batch."""
        return self._within(self.day.once(by_batch), batch)

    def models(self) -> tuple[str, ...]:
        """The models to count: of all orders alone, since parts of parts are told only where they are asked for."""
        return self.day.once(by_model).names if self.whole else ()

    def markets(self) -> tuple[str, ...]:
        """The markets to count."""
        return self.day.once(by_market).names if self.whole else ()

    def batches(self) -> tuple[str, ...]:
        """The batches to count."""
        return self.day.once(by_batch).names if self.whole else ()

    def _within(self, cut: Cut, name: str) -> Orders | None:
        """Those of a part of a cut that are among these; None where it has no such part."""
        part = cut.number(name)
        if part == APART:
            return None
        if self.whole:
            return Orders(self.day, cut, part)
        both = self.cut.rows(self.part) & cut.rows(part)
        return Orders(self.day, Cut(cut.orders, (name,), np.where(both, np.int8(0), np.int8(APART))))

    @cached_property
    def _waiting(self) -> Integers:
        """Rows of the waiting ones, by the day they were placed."""
        return self.cut.waiting(self.part)

    def _count(self, *statuses: str) -> Found:
        def rows() -> Records:
            return self.records(np.flatnonzero(self.cut.rows(self.part) & self.cut.orders.having(*statuses)))

        return Found(self.cut.count(self.part, *statuses), rows)

    def _with_told(self, rows: Integers) -> Records:
        told = self.day.once(telling_of).latest_row[rows]
        return self._told(rows, np.unique(told[told >= 0]))

    def _with_all_told(self, rows: Integers) -> Records:
        keys = self.day.once(order_keys)
        return self._told(rows, np.flatnonzero(among(keys["told"], keys["orders"][rows])))

    def _told(self, rows: Integers, told: Integers) -> Records:
        records = self.records(rows)
        if not self.day.has("told"):
            return records
        return {**records, "told": self.day.table("told").frame.index.to_numpy()[told]}
