"""Ids as integers that arrays can be indexed by: tables of a million rows are joined by counting instead of by comparing text."""

from __future__ import annotations

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.integer_keys import id_keys

Texts = NDArray[np.object_]
Integers = NDArray[np.int64]

NOTHING = np.iinfo(np.int64).max
ROOM = 1 << 16
"""Keys that span less than this, or less than a few times the number of rows, are used as they come."""


def codes(*columns: pd.Series[str]) -> list[Integers]:
    """Columns of ids as codes from 0: the same code for the same id in any of them, -1 for an empty one."""
    keys = np.concatenate(id_keys(columns))
    filled = keys >= 0
    least, largest = int(keys.min(initial=NOTHING, where=filled)), int(keys.max(initial=-1))
    if largest - least < max(ROOM, 4 * len(keys)):
        dense = np.where(filled, keys - least, -1)
    else:
        dense = np.where(filled, pd.factorize(keys)[0], -1)
    return np.split(dense, np.cumsum([len(column) for column in columns])[:-1])


def texts(column: pd.Series[str]) -> Texts:
    """A column of ids as Python's strings."""
    return column.to_numpy(dtype=object)
