"""Orders that came and went, by period: `placed_week`, `left_last_month`, `gone_today` and so on, made one like the other."""

from __future__ import annotations

from dataclasses import dataclass

from bulletin.facts.counting.cuts import Cut
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.order_rows import STATUSES
from bulletin.facts.counting.periods import LAST_MONTH, LAST_WEEK, MONTH, TODAY, WEEK, YESTERDAY, Period
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import FactMethod, Found, Gap, Records, Scope, fact


@dataclass(frozen=True)
class Movement:
    """What is counted: by which day of the order, in which of today's statuses; `words` begin the explanation."""

    name: str
    words: str
    column: str
    statuses: tuple[str, ...] = STATUSES


PLACED = Movement("placed", "Orders, whatever became of them, that were placed", "placed")
LEFT = Movement("left", "Orders shipped or delivered that were shipped", "closed", ("shipped", "delivered"))
GONE = Movement("gone", "Cancelled orders that were cancelled", "closed", ("cancelled",))


def moved(movement: Movement, period: Period) -> FactMethod:
    """The fact that counts a movement in a period. An order without the day is counted in none."""

    def count(self: Movements) -> Found | Gap:
        span = period.days(self.day.calendar, self.day.as_of)

        def rows() -> Records:
            lately, days = self.cut.orders.moved(movement.column, movement.statuses)
            first, last = (day_number(day) - self.cut.orders.moving_since for day in span)
            return self.records(lately[(days >= first) & (days <= last) & (self.cut.part[lately] == self.part)])

        return Found(self.cut.moved(self.part, movement.column, movement.statuses).within(span), rows)

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

    def __init__(self, day: Day, cut: Cut, part: int) -> None:
        """The orders that are counted: a part of a cut."""
        super().__init__(day)
        self.cut = cut
        self.part = part

    def records(self, rows: Integers) -> Records:
        """The records at some rows of orders.csv."""
        return {"orders": self.cut.orders.records(rows)}
