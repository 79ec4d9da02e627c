"""What customers were told: the first and the latest date of leaving, and how often.

told.csv is the history. A row without a date tells that none could be given, and leaves the date told before it standing. An
order of which told.csv has no row, of whatever day, was told what orders.csv has under `promised`, once: of any other order
`promised` is what is known today, and says nothing of the days before its first row.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.joins import order_count, order_keys
from bulletin.facts.counting.keys import Integers
from bulletin.tables.integer_keys import among

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

Dates = NDArray[np.datetime64]
NONE = -1
NOTHING = np.datetime64("NaT")


@dataclass(frozen=True, eq=False)
class Telling:
    """One entry a row of orders.csv: dates (NaT where none was told), rows of told.csv behind them (or -1), number of rows."""

    first: Dates
    latest: Dates
    first_row: Integers
    latest_row: Integers
    times: Integers


def telling_of(day: Day) -> Telling:
    """What each order was told up to the as-of date."""
    orders = day.table("orders").frame
    promised = orders["promised"].to_numpy().astype("datetime64[D]")
    if not day.has("told"):
        nothing = np.full(len(orders), NONE, np.int64)
        return Telling(promised, promised, nothing, nothing, nothing * 0)
    keys, told, count = day.once(order_keys), day.table("told").frame, day.once(order_count)
    due = told["due"].to_numpy().astype("datetime64[D]")
    in_time = np.argsort(told["told"].to_numpy().astype("datetime64[D]"), kind="stable")
    dated = in_time[~np.isnat(due[in_time])]
    first, latest = (np.full(count, NONE, np.int64) for _ in range(2))
    latest[keys["told"][dated]] = dated
    first[keys["told"][dated[::-1]]] = dated[::-1]
    first_row, latest_row = first[keys["orders"]], latest[keys["orders"]]
    (ever_told,) = day.tables.shared.of(("told", "order"))
    promised = np.where(among(keys["orders"], ever_told), NOTHING, promised)
    times = np.bincount(keys["told"], minlength=count)[keys["orders"]]
    return Telling(_dates(first_row, due, promised), _dates(latest_row, due, promised), first_row, latest_row, times)


def _dates(rows: Integers, due: Dates, promised: Dates) -> Dates:
    dates = promised.copy()
    told = rows != NONE
    dates[told] = due[rows[told]]
    return dates
