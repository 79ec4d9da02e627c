"""orders.csv as arrays, and parted by model, market and batch: what the facts of `orders` count on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.facts.counting.keys import Integers

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

STATUSES = ("waiting", "boxed", "shipped", "delivered", "cancelled")
CUTS = ("model", "market", "batch")
"""The columns by which orders are parted."""


@dataclass(frozen=True, eq=False)
class OrderRows:
    """Some rows of orders.csv in file order. `row` are their positions, `status` numbers of `STATUSES`.

    Days are counted from 1970-01-01; a day that the row lacks lies before every other.
    """

    row: Integers
    status: NDArray[np.int8]
    placed: Integers
    closed: Integers

    def having(self, *statuses: str) -> NDArray[np.bool_]:
        """Which of them have one of these statuses."""
        if statuses == STATUSES:
            return np.ones(len(self.status), np.bool_)
        chosen: NDArray[np.bool_] = np.logical_or.reduce([self.status == STATUSES.index(status) for status in statuses])
        return chosen

    def at(self, positions: Integers) -> OrderRows:
        """Those at some positions among these rows."""
        return OrderRows(*(getattr(self, field.name)[positions] for field in fields(self)))


def order_rows(day: Day) -> OrderRows:
    """All rows of the day."""
    frame = day.table("orders").frame
    status = frame["status"].cat.set_categories(list(STATUSES)).cat.codes.to_numpy().astype(np.int8)
    placed, closed = (frame[name].to_numpy().astype("datetime64[D]").astype(np.int64) for name in ("placed", "closed"))
    return OrderRows(np.arange(len(frame)), status, placed, closed)


def order_cuts(day: Day) -> Mapping[str, Mapping[str, Integers]]:
    """By column of `CUTS` and value the positions of its rows, in file order; empty cells are no value."""
    frame = day.table("orders").frame
    return {column: _parted(frame[column]) for column in CUTS}


def _parted(column: pd.Series[str]) -> dict[str, Integers]:
    if column.empty:
        return {}
    codes, values = pd.factorize(column)
    by_value = np.split(np.argsort(codes, kind="stable"), np.cumsum(np.bincount(codes, minlength=len(values)))[:-1])
    return {str(value): positions for value, positions in zip(values, by_value, strict=True) if value}
