"""Which line of an order comes first: the same answer for units, for states read back to a day and for queues."""

from __future__ import annotations

from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.categories import are_any_of
from bulletin.tables.natural import natural_ranks

SERVED = ("boxed", "shipped", "delivered")
"""Statuses that say that a line has its unit."""


def count_before(codes: NDArray[np.integer[Any]]) -> NDArray[np.int64]:
    """For each row how many rows before it have the same code; codes count from 0."""
    by_code, sizes = np.argsort(codes, kind="stable"), np.bincount(codes)
    before = np.empty(len(codes), np.int64)
    before[by_code] = np.arange(len(codes)) - np.repeat(np.cumsum(sizes) - sizes, sizes)
    return before


def line_turns(orders: pd.DataFrame) -> NDArray[np.int64]:
    """For each row of orders.csv a number by which the lines of one order come in turn.

    Those that have their unit by their status come first, the others behind them, each in natural order.
    """
    lines = orders["line"]
    # Most makers have one line an order, and no such column or the same in each of its cells.
    if not len(lines) or (lines == lines.iloc[0]).all():
        return np.zeros(len(lines), np.int64)
    ranks = natural_ranks(lines)
    unserved = ~are_any_of(orders["status"], SERVED)
    return np.asarray(ranks - ranks.min() + unserved * (ranks.max() - ranks.min() + 1))
