"""The letters of many texts as matrices of bytes, so that ids and moments can be read by arithmetic on whole columns.

Where pandas keeps text in Arrow's form, the bytes are there already; elsewhere numpy makes them.
"""

from __future__ import annotations

import importlib
from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

Letters = NDArray[np.uint8]
"""A row a text, a column a byte."""
FIRST_PRINTABLE, LAST_PRINTABLE, BLANK = 0x20, 0x7E, 0x20
ROWS_AT_ONCE = 1 << 14
"""Rows that are computed on while they lie in the processor's cache."""


def joined(texts: Any) -> tuple[Letters, NDArray[np.int64]]:
    """The bytes in UTF-8 of all texts (pandas' `str`), one after another, and where each begins; one more for the end."""
    if getattr(texts.dtype, "storage", "") == "pyarrow":
        return _arrow(texts)
    encoded = [text.encode("utf-8", "replace") for text in texts]
    starts = np.cumsum([0, *map(len, encoded)], dtype=np.int64)
    return np.frombuffer(b"".join(encoded), dtype=np.uint8), starts


def _arrow(texts: Any) -> tuple[Letters, NDArray[np.int64]]:
    """As Arrow holds them."""
    arrow = importlib.import_module("pyarrow")
    column = arrow.array(texts, type=arrow.large_string())
    column = column.combine_chunks() if hasattr(column, "combine_chunks") else column
    _, offsets, data = column.buffers()
    starts = np.frombuffer(offsets, dtype=np.int64)[column.offset : column.offset + len(column) + 1]
    return np.frombuffer(data if data is not None else b"", dtype=np.uint8), starts


def letters_by_length(texts: Any) -> Iterator[tuple[NDArray[np.intp] | slice, Letters]]:
    """For each length of the texts the positions of those that have it, and their bytes."""
    data, starts = joined(texts)
    lengths = np.diff(starts)
    for length in np.flatnonzero(np.bincount(lengths)).tolist() if len(lengths) else ():
        positions = np.flatnonzero(lengths == length)
        if len(positions) == len(lengths):
            yield slice(None), data[starts[0] : starts[-1]].reshape(len(lengths), length)
        else:
            yield positions, data[starts[positions][:, None] + np.arange(length)]


def is_printable(texts: Any) -> bool:
    """Whether all texts are printable ASCII."""
    data, starts = joined(texts)
    used = data[starts[0] : starts[-1]]
    return not len(used) or bool(used.min() >= FIRST_PRINTABLE and used.max() <= LAST_PRINTABLE)


def has_blank_ends(texts: Any) -> bool:
    """Whether a text, all being printable ASCII, begins or ends with a blank."""
    data, starts = joined(texts)
    if starts[0] == starts[-1]:
        return False
    filled = np.diff(starts) > 0
    firsts, lasts = starts[:-1][filled], starts[1:][filled] - 1
    return bool((data[firsts] == BLANK).any() or (data[lasts] == BLANK).any())


def numbers(letters: Letters, weights: NDArray[np.float64]) -> NDArray[np.float64]:
    """Digits times weights, a row a text, a column a column of the weights; exact below 2**53. All letters must be digits."""
    found = np.empty((len(letters), weights.shape[1]))
    for start in range(0, len(letters), ROWS_AT_ONCE):
        part = letters[start : start + ROWS_AT_ONCE]
        np.matmul(part.astype(np.float64), weights, out=found[start : start + ROWS_AT_ONCE])
    found -= ord("0") * weights.sum(axis=0)
    return found


def are_digits(letters: Letters) -> NDArray[np.bool_]:
    """Of each text, whether all its letters are digits."""
    if letters.size and letters.min() >= ord("0") and letters.max() <= ord("9"):
        return np.ones(len(letters), dtype=bool)
    return np.asarray(((letters - np.uint8(ord("0"))) <= 9).all(axis=1))
