"""Several columns as one integer a row: equal integers, equal cells. What a million rows are compared by."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

Integers = NDArray[np.int64]


def integer_keys(columns: Sequence[pd.Series]) -> Integers:
    """One integer a row, the same in two rows just where all columns are."""
    keys, count = _numbered(columns[0])
    for column in columns[1:]:
        codes, more = _numbered(column)
        if count * more >= 2**62:
            keys, distinct = pd.factorize(keys)
            count = len(distinct)
        keys, count = keys * more + codes, count * more
    return keys


def _numbered(column: pd.Series) -> tuple[Integers, int]:
    """The cells of a column as integers from 0, and how many there may be."""
    if isinstance(column.dtype, pd.CategoricalDtype):
        return column.cat.codes.to_numpy(dtype=np.int64) + 1, len(column.cat.categories) + 1
    codes, distinct = pd.factorize(column, use_na_sentinel=False)
    return codes.astype(np.int64), len(distinct)
