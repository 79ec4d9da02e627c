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


def letters_by_length(texts: Any) -> Iterator[tuple[NDArray[np.intp] | slice, Letters]]:
    """For each length of the texts (pandas' `str`) the positions of those that have it, and their bytes in UTF-8."""
    data, starts = _arrow(texts) if getattr(texts.dtype, "storage", "") == "pyarrow" else _joined(texts)
    lengths = np.diff(starts)
    if not len(lengths):
        return
    first, last = int(lengths.min()), int(lengths.max())
    if first == last:
        yield slice(None), data[starts[0] : starts[-1]].reshape(-1, first)
        return
    for length in range(first, last + 1):
        positions = np.flatnonzero(lengths == length)
        if len(positions):
            yield positions, data[starts[positions][:, None] + np.arange(length)]


def _arrow(texts: Any) -> tuple[Letters, NDArray[np.int64]]:
    """The bytes of all texts and where each begins, as Arrow holds them."""
    arrow = importlib.import_module("pyarrow")
    column = arrow.array(texts, type=arrow.large_string())
    column = column.combine_chunks() if hasattr(column, "combine_chunks") else column
    _, offsets, data = column.buffers()
    starts = np.frombuffer(offsets, dtype=np.int64)[column.offset : column.offset + len(column) + 1]
    return np.frombuffer(data if data is not None else b"", dtype=np.uint8), starts


def _joined(texts: Any) -> tuple[Letters, NDArray[np.int64]]:
    encoded = [text.encode("utf-8", "replace") for text in texts]
    starts = np.cumsum([0, *map(len, encoded)], dtype=np.int64)
    return np.frombuffer(b"".join(encoded), dtype=np.uint8), starts
