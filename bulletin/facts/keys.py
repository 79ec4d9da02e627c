"""Integer keys for ids, so that tables of a million rows are joined and ordered by counting instead of by comparing text.

Programs number orders and serials: one beginning, then a number. Such ids are their number. Others in ASCII are compared eight
letters at a time, as integers too; the rest as text.
"""

from __future__ import annotations

import numpy as np
import pandas as pd
from numpy.typing import NDArray

Texts = NDArray[np.object_]
Integers = NDArray[np.int64]

LONGEST_NUMBER = 17
"""Digits that fit an int64 with room for differences."""
LETTERS = np.dtype(np.uint64).itemsize
ZERO, NINE = ord("0"), ord("9")


def numbered(texts: Texts) -> Integers | None:
    """The numbers of ids that differ only in a number at their end (H12-99, H12-100): as different and as ordered as they are.

    None where the ids are of any other form, or some have leading zeros that tell them apart.
    """
    padded = _ascii(texts)
    return None if padded is None else _numbers(padded.view(np.uint8).reshape(padded.size, -1))


def _ascii(texts: Texts) -> NDArray[np.bytes_] | None:
    """Texts as bytes of one length, filled up with zeros; None where there is none, or one that is not ASCII."""
    try:
        padded = texts.astype("S")
    except UnicodeEncodeError:
        return None
    return padded if padded.size and padded.itemsize else None


def _numbers(signs: NDArray[np.uint8]) -> Integers | None:
    """`numbered` of a row of bytes for each text."""
    first = signs[0]
    last = int(np.flatnonzero(first)[-1]) if first.any() else -1
    begin = last + 1
    while begin > 0 and ZERO <= first[begin - 1] <= NINE:
        begin -= 1
    tail = signs[:, begin:]
    if not 0 < tail.shape[1] <= LONGEST_NUMBER or (signs[:, :begin] != first[:begin]).any():
        return None
    return _as_numbers(tail)


def _as_numbers(tail: NDArray[np.uint8]) -> Integers | None:
    """Rows of digits, filled up with zero bytes, as numbers; None where they are anything else."""
    values = np.zeros(len(tail), np.int64)
    for column in range(tail.shape[1]):
        signs = tail[:, column]
        there = signs != 0
        if (there & ((signs < ZERO) | (signs > NINE))).any() or (column == 0 and not there.all()):
            return None
        if column and (there & (tail[:, column - 1] == 0)).any():
            return None
        values = np.where(there, values * 10 + signs - ZERO, values)
    one_length = bool((tail[:, -1] != 0).all())
    leading_zero = tail.shape[1] > 1 and bool(((tail[:, 0] == ZERO) & (tail[:, 1] != 0)).any())
    return values if one_length or not leading_zero else None


def codes(*columns: Texts) -> tuple[Integers, ...]:
    """Columns of ids as codes from 0: the same code for the same id in any of them, -1 for an empty one."""
    filled = [column != "" for column in columns]
    joined = np.concatenate([column[there] for column, there in zip(columns, filled, strict=True)])
    found = _found(joined)
    coded, start = [], 0
    for column, there in zip(columns, filled, strict=True):
        code = np.full(len(column), -1, np.int64)
        count = int(there.sum())
        code[there] = found[start : start + count]
        start += count
        coded.append(code)
    return tuple(coded)


def _found(joined: Texts) -> Integers:
    padded = _ascii(joined)
    if padded is None:
        return pd.factorize(joined)[0].astype(np.int64)
    numbers = _numbers(padded.view(np.uint8).reshape(padded.size, -1))
    return _dense(numbers) if numbers is not None else _packed(padded)


def _packed(padded: NDArray[np.bytes_]) -> Integers:
    """Codes of texts, by what stands in their first eight bytes, their next eight, and so on."""
    words = padded.astype(f"S{-(-padded.itemsize // LETTERS) * LETTERS}").view(np.uint64).reshape(padded.size, -1)
    code = np.zeros(len(words), np.int64)
    for column in range(words.shape[1]):
        more, distinct = pd.factorize(words[:, column])
        code = pd.factorize(code * len(distinct) + more)[0].astype(np.int64)
    return code


def _dense(numbers: Integers) -> Integers:
    """Numbers as codes that an array can be indexed by."""
    lowest = int(numbers.min())
    if int(numbers.max()) - lowest < 4 * len(numbers) + 1000:
        return numbers - lowest
    return pd.factorize(numbers)[0].astype(np.int64)


def texts(column: pd.Series[str]) -> Texts:
    """A column of ids as Python's strings."""
    return column.to_numpy(dtype=object)
