"""The letters of many texts as matrices of bytes, so that ids and moments can be read by arithmetic on whole columns.

Where pandas keeps text in Arrow's form, the bytes are there already; elsewhere numpy makes them. Matrices are given out in
blocks that fit the processor's cache.
"""

from __future__ import annotations

import importlib
from collections.abc import Iterator
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.blocks import blocks

Letters = NDArray[np.uint8]
"""A row a place in the text, a column a text."""
FIRST_PRINTABLE, LAST_PRINTABLE, BLANK = 0x20, 0x7E, 0x20


def in_one_piece(texts: Any) -> Any:
    """The same texts as pandas' `str`, their bytes side by side if Arrow holds them."""
    plain = texts.astype("str")
    if not _is_arrow(plain):
        return plain
    column = importlib.import_module("pyarrow").array(plain)
    return pd.array(column.combine_chunks(), dtype="str") if hasattr(column, "combine_chunks") else plain


def _is_arrow(texts: Any) -> bool:
    return getattr(texts.dtype, "storage", "") == "pyarrow"


def _joined(texts: Any) -> tuple[Letters, NDArray[np.int64]]:
    """The bytes in UTF-8 of all texts (pandas' `str`), one after another, and where each begins; one more for the end."""
    if _is_arrow(texts):
        return _arrow(texts)
    strings = as_strings(texts)
    joined = "".join(strings)
    whole = joined.encode("utf-8", "replace")
    lengths = map(len, strings if len(whole) == len(joined) else [text.encode("utf-8", "replace") for text in strings])
    starts = np.zeros(len(strings) + 1, dtype=np.int64)
    np.cumsum(np.fromiter(lengths, dtype=np.int64, count=len(strings)), out=starts[1:])
    return np.frombuffer(whole, dtype=np.uint8), starts


def as_strings(texts: Any) -> list[str]:
    """The texts (pandas' `str`) one by one, faster than by iterating over them."""
    strings: list[str] = texts.to_numpy(dtype=object).tolist()
    return strings


def _arrow(texts: Any) -> tuple[Letters, NDArray[np.int64]]:
    """As Arrow holds them."""
    arrow = importlib.import_module("pyarrow")
    column = arrow.array(texts, type=arrow.large_string())
    column = column.combine_chunks() if hasattr(column, "combine_chunks") else column
    _, offsets, data = column.buffers()
    starts = np.frombuffer(offsets, dtype=np.int64)[column.offset : column.offset + len(column) + 1]
    return np.frombuffer(data if data is not None else b"", dtype=np.uint8), starts


def letters_by_length(texts: Any) -> Iterator[tuple[NDArray[np.intp] | slice, Letters]]:
    """Blocks of texts (pandas' `str`) that have one length: their positions, and their bytes in UTF-8."""
    data, starts = _joined(texts)
    lengths = np.diff(starts)
    found = np.flatnonzero(np.bincount(lengths)).tolist() if len(lengths) else []
    for length in found:
        if len(found) == 1:
            matrix = data[starts[0] : starts[-1]].reshape(len(lengths), length)
            for block in blocks(len(lengths)):
                yield block, np.ascontiguousarray(matrix[block].T)
        else:
            positions = np.flatnonzero(lengths == length)
            for block in blocks(len(positions)):
                yield positions[block], data[np.arange(length)[:, None] + starts[positions[block]]]


def looked_over(texts: Any) -> tuple[bool, bool]:
    """Whether all texts (pandas' `str`) are printable ASCII, and whether one then begins or ends with a blank."""
    data, starts = _joined(texts)
    used = data[starts[0] : starts[-1]]
    printable = not len(used) or bool(used.min() >= FIRST_PRINTABLE and used.max() <= LAST_PRINTABLE)
    return printable, printable and _has_blank_ends(data, starts)


def _has_blank_ends(data: Letters, starts: NDArray[np.int64]) -> bool:
    if BLANK not in data[starts[0] : starts[-1]]:
        return False
    filled = np.diff(starts) > 0
    firsts, lasts = starts[:-1][filled], starts[1:][filled] - 1
    return bool((data[firsts] == BLANK).any() or (data[lasts] == BLANK).any())


def are_digits(letters: Letters) -> NDArray[np.bool_]:
    """Of each text, whether all its letters are digits."""
    good = np.ones(letters.shape[1], dtype=bool)
    for row in letters:
        good &= (row - np.uint8(ord("0"))) <= 9
    return good


def number(letters: Letters) -> NDArray[np.int64]:
    """The number that digits are, up to 18 of them; without sense where a letter is no digit."""
    found = np.zeros(letters.shape[1], dtype=np.int64)
    for row in letters:
        found *= 10
        found += row - np.uint8(ord("0"))
    return found


def count(text: bytes, sign: str) -> int:
    """How often a character of ASCII stands in a text."""
    letters, code = np.frombuffer(text, dtype=np.uint8), ord(sign)
    return sum(int(np.count_nonzero(letters[at : at + (1 << 20)] == code)) for at in range(0, len(letters), 1 << 20))
