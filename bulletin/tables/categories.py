"""Columns of a few distinct values, asked by their codes: a million cells are compared with a word at once."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.blocks import blocks

Numbers = NDArray[np.signedinteger[Any]]
"""Numbers of categories, as narrow as they may be: a million of them take room."""


def are_any_of(column: pd.Series, values: Collection[str]) -> NDArray[np.bool_]:
    """Which cells of a column of categories are one of these values."""
    # The last one answers for cells without a category, whose code is -1.
    chosen = np.array([*(category in values for category in column.cat.categories), False])
    return chosen[column.cat.codes.to_numpy()]


def used(column: pd.Series) -> list[str]:
    """The values that cells of a column of categories have, in the order of the categories."""
    codes, categories = column.cat.codes.to_numpy(), column.cat.categories
    # The first one is for cells without a category.
    counts = np.zeros(len(categories) + 1, np.int64)
    for block in blocks(len(codes), least=len(counts)):
        counts += np.bincount(codes[block].astype(np.int64) + 1, minlength=len(counts))
    return [str(category) for category in categories[counts[1:] > 0]]


def codes_among(column: pd.Series, values: Collection[str]) -> Numbers:
    """For each cell of a column of categories the number of its value among these, -1 for any other."""
    numbers = {value: number for number, value in enumerate(values)}
    known = np.array([*(numbers.get(category, -1) for category in column.cat.categories), -1], narrowest(len(values)))
    return known[column.cat.codes.to_numpy()]


def narrowest(count: int) -> type[np.signedinteger[Any]]:
    """The narrowest integers that hold the numbers below a count, and -1."""
    return next((kind for kind in (np.int8, np.int16, np.int32) if count <= np.iinfo(kind).max), np.int64)
