"""Columns as arrays, as they are counted with."""

from __future__ import annotations

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.integer_keys import Integers as Integers

Texts = NDArray[np.object_]


def texts(column: pd.Series[str]) -> Texts:
    """A column of ids as Python's strings."""
    return column.to_numpy(dtype=object)
