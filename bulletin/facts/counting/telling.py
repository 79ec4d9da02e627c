"""What customers were told: the first and the latest date of leaving, and how often.

told.csv is the history. A row without a date tells that none could be given, and leaves the date told before it standing. An
order of which told.csv has no row, of whatever day, was told what orders.csv has under `promised`, once: of any other order
`promised` is what is known today, and says nothing of the days before its first row.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.facts.counting.joins import order_count, order_keys
from bulletin.facts.counting.keys import Integers
from bulletin.tables.blocks import blocks
from bulletin.tables.integer_keys import NONE, Rows, among

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

Dates = NDArray[np.datetime64]
NOTHING = np.datetime64("NaT")


class Telling:
    """One entry a row of orders.csv, worked out when it is asked for.

    Dates are NaT where none was told, rows are those of told.csv, or -1.
    """

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self._day = day

    @cached_property
    def first(self) -> Dates:
        """The date told first."""
        return self._dates(self._by_order(self._dated[::-1]), slice(None))

    @cached_property
    def latest(self) -> Dates:
        """The date told last."""
        return self._dates(self._latest, slice(None))

    @cached_property
    def latest_row(self) -> Integers:
        """The row that told it."""
        return self._latest[self._day.once(order_keys)["orders"]]

    def late(self) -> NDArray[np.bool_]:
        """Which orders were last told a date before the as-of date."""
        today, late = np.datetime64(self._day.as_of), np.empty(len(self._promised), np.bool_)
        for block in blocks(len(late)):
            late[block] = self._dates(self._latest, block) < today
        return late

    def anew(self, orders: Integers) -> NDArray[np.bool_]:
        """Which of some orders, given by their rows in orders.csv, were told more than once."""
        return self._told_anew[self._day.once(order_keys)["orders"][orders]]

    @cached_property
    def _told_anew(self) -> NDArray[np.bool_]:
        """By key of an order."""
        told = self._day.once(order_keys)["told"]
        anew = np.zeros(self._day.once(order_count), np.bool_)
        anew[told[pd.Series(told).duplicated().to_numpy()]] = True
        return anew

    @cached_property
    def _due(self) -> Dates:
        return self._day.table("told").frame["due"].to_numpy().astype("datetime64[D]")

    @cached_property
    def _dated(self) -> Integers:
        """The rows that tell a date, in the order in which they were told."""
        if not self._day.has("told"):
            return np.empty(0, np.int64)
        in_time = np.argsort(self._day.table("told").frame["told"].to_numpy(), kind="stable")
        return in_time[~np.isnat(self._due[in_time])]

    @cached_property
    def _latest(self) -> Rows:
        return self._by_order(self._dated)

    def _by_order(self, rows: Integers) -> Rows:
        """By key of an order the last of these rows of told.csv that speaks of it."""
        found = np.full(self._day.once(order_count), NONE, np.int32)
        if len(rows):
            found[self._day.once(order_keys)["told"][rows]] = rows
        return found

    def _dates(self, by_order: Rows, orders: slice) -> Dates:
        """The dates that rows of told.csv tell of some orders; what orders.csv has where there is none."""
        rows = by_order[self._day.once(order_keys)["orders"][orders]]
        dates, told = self._promised[orders].copy(), np.flatnonzero(rows != NONE)
        if len(told):
            dates[told] = self._due[rows[told]]
        return dates

    @cached_property
    def _promised(self) -> Dates:
        """The date that orders.csv has of orders that told.csv never speaks of."""
        promised = self._day.table("orders").frame["promised"].to_numpy().astype("datetime64[D]")
        if self._day.has("told"):
            (ever_told,) = self._day.tables.shared.of(("told", "order"))
            promised[among(self._day.once(order_keys)["orders"], ever_told)] = NOTHING
        return promised


def telling_of(day: Day) -> Telling:
    """What each order was told up to the as-of date."""
    return Telling(day)


def told_late(day: Day) -> NDArray[np.bool_]:
    """Which orders were last told a date before the as-of date, one entry a row of orders.csv."""
    return day.once(telling_of).late()
