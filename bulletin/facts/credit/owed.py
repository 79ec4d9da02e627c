"""What is still owed, order by order and currency by currency: accrued less credited and corrected, at least 0."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.joins import order_count, order_keys
from bulletin.facts.counting.keys import Integers
from bulletin.tables.blocks import blocks
from bulletin.tables.categories import are_any_of, codes_among
from bulletin.tables.integer_keys import NONE, Rows

if TYPE_CHECKING:
    from bulletin.facts.credit.waiting import WaitingCredit
    from bulletin.facts.scopes.day import Day

REDUCES_OWED = ("credit", "correction")


class Given(NamedTuple):
    """Rows of credits.csv that lessen what is owed, their minor units, and the rows of orders.csv that stand for their orders."""

    rows: Integers
    amounts: Integers
    to: Integers


class Owed:
    """One row of orders.csv stands for all of an order in one currency that are not cancelled."""

    def __init__(self, day: Day, credit: WaitingCredit) -> None:
        """Nothing is added up before it is asked for."""
        self._day = day
        self._credit = credit
        self._names = credit.earnings.currencies

    @cached_property
    def amounts(self) -> Integers:
        """Minor units by row of orders.csv, all of them on the row that stands for the order."""
        owed = np.zeros(len(self._lives), np.int64)
        for rows in self._live_rows():
            np.add.at(owed, self._standing_for[self._pair("orders", rows)], self._credit.earned[rows])
        np.subtract.at(owed, self._given.to, self._given.amounts)
        return np.maximum(owed, 0, out=owed)

    def earning(self, chosen: NDArray[np.bool_]) -> Integers:
        """The rows of orders.csv whose waiting earned what is owed to the orders that some of the rows stand for."""
        rows = np.flatnonzero(self._lives & (self._credit.earned > 0))
        return rows[chosen[self._standing_for[self._pair("orders", rows)]]]

    def lessening(self, chosen: NDArray[np.bool_]) -> Integers:
        """The rows of credits.csv that lessen it."""
        return self._given.rows[chosen[self._given.to]]

    @cached_property
    def _lives(self) -> NDArray[np.bool_]:
        return ~are_any_of(self._day.table("orders").frame["status"], ["cancelled"])

    def _live_rows(self) -> Iterator[Integers]:
        return (np.flatnonzero(self._lives[block]) + block.start for block in blocks(len(self._lives)))

    @cached_property
    def _standing_for(self) -> Rows:
        """By pair of an order and a currency the row that stands for it."""
        standing = np.full(self._day.once(order_count) * len(self._names), NONE, np.int32)
        for rows in self._live_rows():
            standing[self._pair("orders", rows)] = rows
        return standing

    @cached_property
    def _given(self) -> Given:
        frame = self._day.table("credits").frame
        known = codes_among(frame["currency"], self._names) != NONE
        rows = np.flatnonzero(known & are_any_of(frame["kind"], REDUCES_OWED))
        to = self._standing_for[self._pair("credits", rows)]
        rows, to = rows[to != NONE], to[to != NONE]
        return Given(rows, frame["amount"].to_numpy()[rows], to)

    def _pair(self, table: str, rows: Integers) -> Integers:
        """One number for the order and the currency of each of some rows."""
        pair: Integers = self._day.once(order_keys)[table][rows] * len(self._names) + self._currency[table][rows]
        return pair

    @cached_property
    def _currency(self) -> dict[str, Integers]:
        given = codes_among(self._day.table("credits").frame["currency"], self._names)
        return {"orders": self._credit.currency, "credits": given}
