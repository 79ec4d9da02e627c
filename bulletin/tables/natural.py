"""Natural order: H12-99 before H12-100, as people count, for orders and serials."""

from __future__ import annotations

import re

import numpy as np
from numpy.typing import NDArray

Texts = NDArray[np.object_]
Integers = NDArray[np.int64]

DIGITS = re.compile(r"(\d+)")
LONGEST_NUMBER = 17
"""Digits that fit an int64 with room for differences."""
ZERO, NINE = ord("0"), ord("9")


def natural_key(text: str) -> tuple[tuple[str | int, ...], str]:
    """Sorts runs of digits by their value and all else as text; the text itself decides between 07 and 7."""
    pieces = DIGITS.split(text)
    return tuple(int(piece) if at % 2 else piece for at, piece in enumerate(pieces)), text


def natural_ranks(texts: Texts) -> Integers:
    """For each text a number that sorts as it does in natural order; equal texts have equal ones.

    Ids as programs number them are their numbers; any others are sorted by `natural_key`.
    """
    numbers = numbered(texts)
    if numbers is not None:
        return numbers
    rank = {text: at for at, text in enumerate(sorted(set(texts), key=natural_key))}
    return np.fromiter((rank[text] for text in texts), np.int64, len(texts))


def numbered(texts: Texts) -> Integers | None:
    """The numbers of ids that differ only in a number at their end (H12-99, H12-100).

    None where the ids are of any other form, or some have leading zeros that tell them apart.
    """
    try:
        padded = texts.astype("S")
    except UnicodeEncodeError:
        return None
    if not padded.size or not padded.itemsize:
        return None
    signs = padded.view(np.uint8).reshape(padded.size, -1)
    begin = len(padded[0].rstrip(b"0123456789"))
    tail = signs[:, begin:]
    if not 0 < tail.shape[1] <= LONGEST_NUMBER or (signs[:, :begin] != signs[0, :begin]).any():
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
        values = np.where(there, values * 10 + signs - ZERO, values)
    one_length = bool((tail[:, -1] != 0).all())
    leading_zero = tail.shape[1] > 1 and bool(((tail[:, 0] == ZERO) & (tail[:, 1] != 0)).any())
    return values if one_length or not leading_zero else None
