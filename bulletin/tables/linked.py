"""Rows of orders.csv and boxing.csv with the keys that link them: what both tables say of an order is compared by these."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.integer_keys import Integers
from bulletin.tables.shared_keys import SharedKeys
from bulletin.tables.table import Table


@dataclass(frozen=True, eq=False)
class Linked:
    """Some rows of a table. `order` and `serial` are the keys of theirs, the same in both tables; -1 where a row names none."""

    frame: pd.DataFrame
    order: Integers
    serial: Integers

    def at(self, rows: NDArray[np.bool_] | Integers | slice) -> Linked:
        """Some of the rows, by a mask or by their positions."""
        return Linked(self.frame.iloc[rows], self.order[rows], self.serial[rows])


def linked(table: Table, keys: SharedKeys) -> Linked:
    """All rows of a table as read."""
    (order,), (serial,) = keys.of((table.name, "order")), keys.of((table.name, "serial"))
    return Linked(table.frame, order, serial)
