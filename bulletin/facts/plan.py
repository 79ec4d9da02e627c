"""The `plan` family: units the maker plans to build. A plan says nothing of days before its first or after its last one."""

from __future__ import annotations

import numpy as np

from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Scope, door, fact
from bulletin.facts.scopes.spans import read_day
from bulletin.model import Basis, Window
from bulletin.tables.natural import natural_key


class Plan(Scope):
    """The plan for all models, or for one of them."""

    tables = ("plan",)

    def __init__(self, day: Day, model: str = "") -> None:
        """All models unless one is named."""
        super().__init__(day)
        self.model = model
        frame = day.table("plan").frame
        self._planned = frame["date"]
        self._rows = frame[frame["model"] == model] if model else frame

    @fact("unit", Basis.PLAN)
    def week(self) -> Found | Gap:
        """Units planned for the whole week of the as-of date."""
        return self._within(self.day.calendar.week(self.day.as_of))

    @fact("unit", Basis.PLAN)
    def next_week(self) -> Found | Gap:
        """Units planned for the week after that of the as-of date."""
        return self._within(self.day.calendar.week(self.day.as_of, 1))

    @fact("unit", Basis.PLAN)
    def month(self) -> Found | Gap:
        """Units planned for the whole month of the as-of date."""
        return self._within(self.day.calendar.month(self.day.as_of))

    @fact("unit", Basis.PLAN)
    def next_month(self) -> Found | Gap:
        """Units planned for the month after that of the as-of date."""
        return self._within(self.day.calendar.month(self.day.as_of, 1))

    @fact("unit", Basis.PLAN)
    def on(self, date: str) -> Found | Gap:
        """Units planned for this day."""
        day = read_day(date)
        return day if isinstance(day, Gap) else self._within(Window(day, day))

    @door("call", choices="models")
    def of(self, model: str) -> Plan | None:
        """The same facts for one model."""
        return Plan(self.day, model) if model in self.models() else None

    def models(self) -> tuple[str, ...]:
        """The models that are planned, of the whole plan alone."""
        found = () if self.model else map(str, self._rows["model"].unique())
        return tuple(sorted(found, key=natural_key))

    def _within(self, span: Window) -> Found | Gap:
        if not self._speaks_of(span):
            return Gap(f"plan.csv says nothing of {_said(span)}")
        dates = self._rows["date"]
        rows = self._rows[(dates >= np.datetime64(span.first)) & (dates <= np.datetime64(span.last))]
        return Found(int(rows["units"].sum()), lambda: {"plan": rows.index.to_numpy(np.int64)})

    def _speaks_of(self, span: Window) -> bool:
        if self._planned.empty:
            return False
        first, last = self._planned.min().date(), self._planned.max().date()
        return bool(first <= span.last and span.first <= last)


def _said(span: Window) -> str:
    return f"{span.first}" if span.first == span.last else f"{span.first} to {span.last}"
