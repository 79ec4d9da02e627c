"""Columns of a few distinct values, asked by their codes: a million cells are compared with a word at once."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np
import pandas as pd
from numpy.typing import NDArray

Numbers = NDArray[np.int32]
"""Of categories, months and the like: small ones, since a million of them take room."""


def are_any_of(column: pd.Series, values: Collection[str]) -> NDArray[np.bool_]:
    """Which cells of a column of categories are one of these values."""
    # The last one answers for cells without a category, whose code is -1.
    chosen = np.array([*(category in values for category in column.cat.categories), False])
    return chosen[column.cat.codes.to_numpy()]


def used(column: pd.Series) -> list[str]:
    """The values that cells of a column of categories have, in the order of the categories."""
    codes = column.cat.codes.to_numpy()
    counts = np.bincount(codes[codes >= 0], minlength=len(column.cat.categories))
    return [str(category) for category, count in zip(column.cat.categories, counts.tolist(), strict=True) if count]


def codes_among(column: pd.Series, values: Collection[str]) -> Numbers:
    """For each cell of a column of categories the number of its value among these, -1 for any other."""
    numbers = {value: number for number, value in enumerate(values)}
    known = np.array([*(numbers.get(category, -1) for category in column.cat.categories), -1], np.int32)
    return known[column.cat.codes.to_numpy()]
