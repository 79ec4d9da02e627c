"""Which line of an order comes first: the same answer for units, for states read back to a day and for queues."""

from __future__ import annotations

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.natural import natural_ranks

SERVED = ("boxed", "shipped", "delivered")
"""Statuses that say that a line has its unit."""


def line_turns(orders: pd.DataFrame) -> NDArray[np.int64]:
    """For each row of orders.csv a number by which the lines of one order come in turn.

    Those that have their unit by their status come first, the others behind them, each in natural order.
    """
    lines = orders["line"].to_numpy(dtype=object)
    # Most makers have one line an order and no such column.
    if not (lines != "").any():
        return np.zeros(len(orders), np.int64)
    ranks = natural_ranks(lines)
    unserved = ~orders["status"].isin(SERVED).to_numpy()
    return np.asarray(ranks - ranks.min() + unserved * (ranks.max() - ranks.min() + 1))
