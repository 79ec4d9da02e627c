"""Cells as integers: equal integers, equal cells. A million rows are compared by these.

Ids that are a number behind the same letters (`1000001`, `H-0000001`) are read as numbers, column by column of their letters;
all others are numbered as they come. Both give the same answers.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.letters import Letters, are_digits, letters_by_length, number

Integers = NDArray[np.signedinteger[Any]]
Rows = NDArray[np.int32]
"""Rows of a table by their positions: half as wide as other integers, since a million of them take room."""
MOST_DIGITS, LARGEST_BASE = 18, 2**61
NONE = -1
"""The key of an empty cell."""
ROOM = 1 << 16
"""Keys that span less than this, or less than a few times the number of rows, are dense enough to index arrays by."""


def id_keys(columns: Sequence[pd.Series]) -> list[Integers]:
    """Each column of ids as integers that mean the same in all of them; -1 for an empty cell."""
    numbered = _numbered_ids(columns)
    if numbered is not None:
        return numbered
    codes, distinct = pd.factorize(pd.concat([column.astype("str") for column in columns], ignore_index=True))
    codes[(distinct == "")[codes]] = -1
    return np.split(codes.astype(np.int64), np.cumsum([len(column) for column in columns])[:-1])


def dense_keys(columns: Sequence[pd.Series]) -> list[Integers]:
    """As `id_keys`, from 0 and dense enough to index arrays by: at most a few times as many as there are rows."""
    keys = id_keys(columns)
    # Of unsigned numbers, -1 is the largest: it is no least key.
    least = min((int(column.view(np.uint64).min()) for column in keys if len(column)), default=0)
    largest = max((int(column.max()) for column in keys if len(column)), default=-1)
    if largest - least < max(ROOM, 4 * sum(map(len, keys))):
        return [np.maximum(column - least, -1) for column in keys] if 0 < least <= largest else keys
    every = np.concatenate(keys)
    return np.split(np.where(every >= 0, pd.factorize(every)[0], -1), np.cumsum([len(column) for column in keys])[:-1])


def _numbered_ids(columns: Sequence[pd.Series]) -> list[Integers] | None:
    """Ids by the number behind their letters; None where they are not all made so."""
    bases: dict[tuple[int, bytes], int] = {}
    found: list[Integers] = []
    for column in columns:
        keys = np.full(len(column), -1, dtype=np.int64)
        for positions, letters in letters_by_length(column.array):
            if letters.shape[0] == 0:
                continue
            read = _read(letters, bases)
            if read is None:
                return None
            keys[positions] = read
        found.append(keys)
    return found


def _read(letters: Letters, bases: dict[tuple[int, bytes], int]) -> Integers | None:
    """Ids of one length: what their letters are counted from, and their number."""
    first = letters[:, 0].tobytes()
    prefix = first[: len(first.rstrip(b"0123456789"))]
    digits = len(first) - len(prefix)
    if digits > MOST_DIGITS or not (letters[: len(prefix)] == letters[: len(prefix), :1]).all():
        return None
    tail = letters[len(prefix) :]
    if not are_digits(tail).all():
        return None
    base = bases.setdefault((len(first), prefix), sum(10 ** (length - len(known)) for length, known in bases))
    return number(tail) + base if base < LARGEST_BASE else None


def among(keys: Integers, known: Integers) -> NDArray[np.bool_]:
    """Which of some dense keys stand among the known ones; that of an empty cell never does."""
    flags = np.zeros(max(int(keys.max(initial=NONE)), int(known.max(initial=NONE))) + 2, np.bool_)
    flags[known] = True
    flags[NONE] = False
    return flags[keys]


def latest(keys: Integers, rows: Iterable[Integers]) -> Rows:
    """By dense key the last of some rows that has it, `NONE` for a key without one: the last write wins.

    Rows come in pieces, so that a million of them need no room twice.
    """
    found = np.full(int(keys.max(initial=NONE)) + 2, NONE, np.int32)
    for piece in rows:
        found[keys[piece]] = piece
    return found[:NONE]


def repeated_rows(columns: Sequence[pd.Series]) -> tuple[NDArray[np.intp], Integers]:
    """The positions of rows that are equal to another one in all columns, and a key that tells which are equal."""
    positions = np.arange(len(columns[0]))
    keys = np.zeros(len(positions), dtype=np.int64)
    for column in columns:
        codes = _codes(column if len(positions) == len(column) else column.iloc[positions])
        keys = codes if not keys.any() else _paired(keys, codes)
        repeated = _repeated(keys)
        if repeated is None:
            return np.empty(0, dtype=np.intp), np.empty(0, dtype=np.int64)
        positions, keys = positions[repeated], keys[repeated]
    return positions, keys


def _repeated(keys: Integers) -> NDArray[np.bool_] | None:
    """Which keys stand more than once; None where none does."""
    if (keys[1:] > keys[:-1]).all():
        return None
    ordered = np.sort(keys)
    if (ordered[1:] != ordered[:-1]).all():
        return None
    return pd.Series(keys).duplicated(keep=False).to_numpy()


def _paired(keys: Integers, codes: Integers) -> Integers:
    """One key for two."""
    first, _ = pd.factorize(keys)
    second, distinct = pd.factorize(codes)
    return np.asarray(first.astype(np.int64) * (len(distinct) + 1) + second)


def _codes(column: pd.Series) -> Integers:
    if isinstance(column.dtype, pd.CategoricalDtype):
        return np.asarray(column.cat.codes, dtype=np.int64)
    if column.dtype.kind == "M":
        return column.to_numpy().view(np.int64)
    return id_keys([column])[0]
