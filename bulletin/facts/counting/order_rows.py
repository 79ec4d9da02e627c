"""The rows of orders.csv as arrays: their status, who waits, which moved lately."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.periods import PERIODS
from bulletin.facts.scopes.calendar import day_number
from bulletin.tables.categories import Numbers, codes_among

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

STATUSES = ("waiting", "boxed", "shipped", "delivered", "cancelled")


class OrderRows:
    """All rows, built with `day.once(OrderRows)`. Rows are positions; days are counted from 1970-01-01."""

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self._day = day
        self._frame = day.table("orders").frame
        self._moved: dict[tuple[str, tuple[str, ...]], tuple[Integers, Integers]] = {}

    @cached_property
    def status(self) -> Numbers:
        """The status of each row, as its number among `STATUSES`."""
        return codes_among(self._frame["status"], STATUSES)

    def having(self, *statuses: str) -> NDArray[np.bool_]:
        """Which rows have one of these statuses."""
        wanted = np.array([*(status in statuses for status in STATUSES), False])
        return wanted[self.status]

    @cached_property
    def waiting(self) -> Integers:
        """Rows of the waiting ones, by the day they were placed."""
        rows = np.flatnonzero(self.having("waiting"))
        return rows[np.argsort(self._frame["placed"].to_numpy()[rows], kind="stable")]

    def placed(self, rows: Integers) -> Integers:
        """The days on which some rows were placed."""
        return self._days("placed", rows)

    @cached_property
    def moving_since(self) -> int:
        """The first day of all periods for which movements are told."""
        return min(day_number(period.days(self._day.calendar, self._day.as_of).first) for period in PERIODS)

    def moved(self, column: str, statuses: tuple[str, ...]) -> tuple[Integers, Integers]:
        """Rows with one of these statuses whose day in a column is not before `moving_since`, and how long after it that is."""
        if (column, statuses) not in self._moved:
            lately = self._frame[column].to_numpy() >= np.datetime64(self.moving_since, "D")
            rows = np.flatnonzero(lately & self.having(*statuses))
            self._moved[column, statuses] = rows, self._days(column, rows) - self.moving_since
        return self._moved[column, statuses]

    def records(self, rows: Integers) -> Integers:
        """The numbers of their records."""
        return self._frame.index.to_numpy(np.int64)[rows]

    def _days(self, column: str, rows: Integers) -> Integers:
        return self._frame[column].to_numpy()[rows].astype("datetime64[D]").view(np.int64)
