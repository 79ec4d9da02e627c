"""Ids as integers that arrays can be indexed by: tables of a million rows are joined by counting instead of by comparing text."""

from __future__ import annotations

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.integer_keys import id_keys

Texts = NDArray[np.object_]
Integers = NDArray[np.int64]

ROOM = 1 << 22
"""Keys below this, or few times as many as there are rows, are used as they come."""


def codes(*columns: pd.Series[str]) -> list[Integers]:
    """Columns of ids as codes from 0: the same code for the same id in any of them, -1 for an empty one."""
    keys = id_keys(columns)
    largest = max((int(column.max(initial=-1)) for column in keys), default=-1)
    if largest < max(ROOM, 4 * sum(map(len, columns))):
        return keys
    joined = np.concatenate(keys)
    dense = np.where(joined < 0, -1, pd.factorize(joined)[0])
    return np.split(dense, np.cumsum([len(column) for column in columns])[:-1])


def texts(column: pd.Series[str]) -> Texts:
    """A column of ids as Python's strings."""
    return column.to_numpy(dtype=object)
