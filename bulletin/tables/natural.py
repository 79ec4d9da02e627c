"""Natural order: H12-99 before H12-100, as people count, for orders and serials."""

from __future__ import annotations

import re

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.letters import are_digits, as_strings, letters_by_length, number

Integers = NDArray[np.int64]

DIGITS = re.compile(r"(\d+)")
LONGEST_NUMBER = 17
"""Digits that fit an int64 with room for differences."""
DIGITS_ALONE, ZERO = b"0123456789", ord("0")


def natural_key(text: str) -> tuple[tuple[str | int, ...], str]:
    """Sorts runs of digits by their value and all else as text; the text itself decides between 07 and 7."""
    pieces = DIGITS.split(text)
    return tuple(int(piece) if at % 2 else piece for at, piece in enumerate(pieces)), text


def natural_ranks(column: pd.Series) -> Integers:
    """For each text a number that sorts as it does in natural order; equal texts have equal ones.

    Ids as programs number them are their numbers; any others are sorted by `natural_key`.
    """
    numbers = numbered(column)
    if numbers is not None:
        return numbers
    codes, distinct = pd.factorize(column)
    texts = as_strings(distinct)
    rank = {text: at for at, text in enumerate(sorted(texts, key=natural_key))}
    return np.array([rank[text] for text in texts], np.int64)[codes]


def numbered(column: pd.Series) -> Integers | None:
    """The numbers of ids that differ only in a number at their end (H12-99, H12-100).

    None where the ids are of any other form, or some have leading zeros that tell them apart.
    """
    numbers = np.empty(len(column), np.int64)
    begins: set[bytes] = set()
    lengths: set[int] = set()
    leading_zero = False
    for positions, letters in letters_by_length(column.array):
        first = letters[:, 0].tobytes()
        begin = first.rstrip(DIGITS_ALONE)
        tail = letters[len(begin) :]
        begins.add(begin)
        lengths.add(len(first))
        if len(begins) > 1 or not begin.isascii() or not 0 < len(tail) <= LONGEST_NUMBER:
            return None
        if (letters[: len(begin)] != letters[: len(begin), :1]).any() or not are_digits(tail).all():
            return None
        leading_zero = leading_zero or (len(tail) > 1 and bool((tail[0] == ZERO).any()))
        numbers[positions] = number(tail)
    return None if not lengths or (leading_zero and len(lengths) > 1) else numbers
