"""`boxed`: units off the bench. Each counts once, on the day it was first boxed, as long as it stands boxed."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.day_counts import day_counts
from bulletin.facts.counting.joins import order_keys
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.models import models_of
from bulletin.facts.counting.periods import LAST_MONTH, LAST_WEEK, MONTH, TODAY, WEEK, YESTERDAY, Period
from bulletin.facts.counting.units import Units, units_of
from bulletin.facts.counting.weeks import worked_weeks
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import FactMethod, Found, Gap, Records, Scope, door, fact
from bulletin.facts.scopes.spans import read_span
from bulletin.facts.statistics.individuals import limits_of
from bulletin.model import Window
from bulletin.tables.categories import are_any_of
from bulletin.tables.integer_keys import NONE

Chosen = NDArray[np.bool_]

RATE_DAYS = 20


def boxed_in(period: Period) -> FactMethod:
    """The fact that counts the units of a period."""

    def count(self: Boxed) -> Found | Gap:
        return self.within(period.days(self.day.calendar, self.day.as_of))

    count.__name__ = period.name
    count.__doc__ = f"Units that stand boxed and were first boxed {period.words}."
    return fact("unit")(count)


class Boxed(Scope):
    """Units that stand boxed: all of them, or one model's."""

    tables = ("boxing",)

    def __init__(self, day: Day, units: Units | None = None) -> None:
        """All units of the day, unless some are given."""
        super().__init__(day)
        self.whole = units is None
        self.units = day.once(units_of) if units is None else units
        self.days = day_counts(self.units.day)

    @classmethod
    def newest(cls, day: Day) -> date | None:
        """The day of the newest scan."""
        days = day.table("boxing").frame["day"]
        return None if days.empty else days.max().date()

    today = boxed_in(TODAY)
    yesterday = boxed_in(YESTERDAY)
    week = boxed_in(WEEK)
    last_week = boxed_in(LAST_WEEK)
    month = boxed_in(MONTH)
    last_month = boxed_in(LAST_MONTH)

    @fact("unit")
    def total(self) -> Found | Gap:
        """Units that stand boxed on the as-of date, samples apart; a unit counts once, however often it was boxed."""
        return Found(len(self.units.day), self._rows(lambda: slice(None)))

    @fact("unit")
    def on(self, day: str) -> Found | Gap:
        """Units that stand boxed and were first boxed on this day."""
        return self._between(day, day)

    @fact("unit")
    def between(self, first: str, last: str) -> Found | Gap:
        """Units that stand boxed and were first boxed from the first to the last of these days, both inclusive."""
        return self._between(first, last)

    @fact("unit")
    def best_day(self) -> Found | Gap:
        """The most units that were first boxed on any one day before the as-of date."""
        return self._best(lambda days: days, "day")

    @fact("unit")
    def best_week(self) -> Found | Gap:
        """The most units that were first boxed in any one week before that of the as-of date."""
        return self._best(self.day.calendar.week_numbers, "week")

    @fact("unit")
    def best_month(self) -> Found | Gap:
        """The most units that were first boxed in any one month before that of the as-of date."""
        return self._best(self.day.calendar.month_numbers, "month")

    @fact("unit a working day", decimals=1)
    def rate(self) -> Found | Gap:
        """Units first boxed from the first to the last of the 20 working days that ended before the as-of date, by 20."""
        working = self.day.calendar.working_days_before(self.day.as_of, RATE_DAYS)
        if len(working) < RATE_DAYS:
            return Gap(f"there are no {RATE_DAYS} working days before the as-of date")
        scans = self.day.table("boxing").frame["day"]
        if scans.empty or scans.min().date() > working[-1]:
            return Gap("nothing was boxed or opened before the as-of date")
        span = Window(working[0], working[-1])
        return Found(Fraction(self.days.within(span), RATE_DAYS), self._rows(lambda: self._in(span)))

    @fact("week")
    def unusual(self) -> Found | Gap:
        """Completed weeks whose units a working day lie outside the mean of them all by over 2.66 mean moving ranges.

        An individuals chart, from the week of the first unit on; weeks without a working day are passed over.
        """
        calendar = self.day.calendar
        weeks = worked_weeks(calendar, self.days, self.day.as_of)
        limits = limits_of([week.rate for week in weeks])
        if limits is None:
            return Gap("fewer than two weeks with a working day are complete")
        outside = [week for week in weeks if not limits.hold(week.rate)]
        numbers = [week.number for week in outside]
        names = tuple(calendar.week_name(week.days.first) for week in outside)
        return Found(names, self._rows(lambda: np.isin(calendar.week_numbers(self.units.day), numbers)))

    @fact("unit")
    def reboxed_week(self) -> Found | Gap:
        """Units that were opened and boxed again in the week of the as-of date and stand boxed since; none counts anew."""
        again = self.units.boxed_again(day_number(self.day.calendar.week(self.day.as_of).first))
        return Found(len(again), lambda: self._records(again))

    @fact("unit")
    def for_orders(self) -> Found | Gap:
        """Units that stand boxed for an order: their latest scan has the purpose order, or no purpose but an order."""
        chosen = self.day.once(scans_for_orders)[self.units.last]
        return Found(int(np.count_nonzero(chosen)), lambda: self._records(self.units.last[chosen]))

    @door("call", choices="models")
    def of(self, model: str) -> Boxed | None:
        """The same facts for one model."""
        if not self.whole or model not in self.day.once(models_of):
            return None
        chosen = are_any_of(self.day.table("boxing").frame["model"], [model])[self.units.last]
        return Boxed(self.day, self.units.where(chosen))

    def models(self) -> tuple[str, ...]:
        """The models to count, of all units alone."""
        return self.day.once(models_of) if self.whole else ()

    def _in(self, span: Window) -> Chosen:
        return (self.units.day >= day_number(span.first)) & (self.units.day <= day_number(span.last))

    def within(self, span: Window) -> Found:
        """The units of a span of days."""
        return Found(self.days.within(span), self._rows(lambda: self._in(span)))

    def _between(self, first: str, last: str) -> Found | Gap:
        span = read_span(first, last)
        if isinstance(span, Window) and span.last > self.day.as_of:
            return Gap(f"{span.last} lies after the as-of date")
        return self.within(span) if isinstance(span, Window) else span

    def _best(self, numbers_of: Callable[[Integers], Integers], period: str) -> Found | Gap:
        counts, first = self.days.by(numbers_of)
        now = int(numbers_of(np.array([day_number(self.day.as_of)]))[0])
        earlier = counts[: max(now - first, 0)]
        if not earlier.size:
            return Gap(f"no unit was boxed in a {period} before this one")
        best = first + int(earlier.argmax())
        return Found(int(earlier.max()), self._rows(lambda: numbers_of(self.units.day) == best))

    def _rows(self, chosen: Callable[[], Chosen | slice]) -> Callable[[], Records]:
        """The records of some units: of the scan by which each counts."""
        return lambda: self._records(self.units.first[chosen()])

    def _records(self, scans: Integers) -> Records:
        return {"boxing": self.day.table("boxing").frame.index.to_numpy()[scans]}


def scans_for_orders(day: Day) -> Chosen:
    """For each row of boxing.csv whether it is for an order: by its purpose, or by its order where it has none."""
    purpose = day.table("boxing").frame["purpose"]
    named: Chosen = are_any_of(purpose, [""]) & (day.once(order_keys)["boxing"] != NONE)
    return are_any_of(purpose, ["order"]) | named
