"""Orders that came and went, by period: `placed_week`, `left_last_month`, `gone_today` and so on, made one like the other."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from bulletin.facts.counting.day_counts import DayCounts, day_counts
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.order_rows import STATUSES, OrderRows
from bulletin.facts.counting.periods import LAST_MONTH, LAST_WEEK, MONTH, TODAY, WEEK, YESTERDAY, Period
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import FactMethod, Found, Gap, Records, Scope, fact


@dataclass(frozen=True)
class Movement:
    """What is counted: by which day of the order, in which of today's statuses; `words` begin the explanation."""

    name: str
    words: str
    day: Callable[[OrderRows], Integers]
    statuses: tuple[str, ...] = STATUSES


PLACED = Movement("placed", "Orders, whatever became of them, that were placed", lambda orders: orders.placed)
LEFT = Movement("left", "Orders shipped or delivered that were shipped", lambda orders: orders.closed, ("shipped", "delivered"))
GONE = Movement("gone", "Cancelled orders that were cancelled", lambda orders: orders.closed, ("cancelled",))


def moved(movement: Movement, period: Period) -> FactMethod:
    """The fact that counts a movement in a period. An order without the day is counted in none."""

    def count(self: Movements) -> Found | Gap:
        span = period.days(self.day.calendar, self.day.as_of)

        def rows() -> Records:
            day = movement.day(self.orders)
            within = (day >= day_number(span.first)) & (day <= day_number(span.last))
            return self.records(np.flatnonzero(within & self.orders.having(*movement.statuses)))

        return Found(self.days_of(movement).within(span), rows)

    count.__name__ = f"{movement.name}_{period.name}"
    count.__doc__ = f"{movement.words} {period.words}."
    return fact("order")(count)


class Movements(Scope):
    """The facts of every movement in every period, for some orders."""

    placed_today = moved(PLACED, TODAY)
    placed_yesterday = moved(PLACED, YESTERDAY)
    placed_week = moved(PLACED, WEEK)
    placed_last_week = moved(PLACED, LAST_WEEK)
    placed_month = moved(PLACED, MONTH)
    placed_last_month = moved(PLACED, LAST_MONTH)
    left_today = moved(LEFT, TODAY)
    left_yesterday = moved(LEFT, YESTERDAY)
    left_week = moved(LEFT, WEEK)
    left_last_week = moved(LEFT, LAST_WEEK)
    left_month = moved(LEFT, MONTH)
    left_last_month = moved(LEFT, LAST_MONTH)
    gone_today = moved(GONE, TODAY)
    gone_yesterday = moved(GONE, YESTERDAY)
    gone_week = moved(GONE, WEEK)
    gone_last_week = moved(GONE, LAST_WEEK)
    gone_month = moved(GONE, MONTH)
    gone_last_month = moved(GONE, LAST_MONTH)

    def __init__(self, day: Day, orders: OrderRows) -> None:
        """The orders that are counted."""
        super().__init__(day)
        self.orders = orders
        self._days: dict[str, DayCounts] = {}

    def days_of(self, movement: Movement) -> DayCounts:
        """How many moved on each day."""
        if movement.name not in self._days:
            self._days[movement.name] = day_counts(movement.day(self.orders)[self.orders.having(*movement.statuses)])
        return self._days[movement.name]

    def records(self, positions: Integers) -> Records:
        """The records at some positions among these orders."""
        return {"orders": self.day.table("orders").frame.index.to_numpy()[self.orders.row[positions]]}
