"""Ids as integers."""

from __future__ import annotations

import numpy as np
import pandas as pd
from hypothesis import given
from hypothesis import strategies as st

from bulletin.tables.integer_keys import among, dense_keys, latest

IDS = st.one_of(
    st.integers(0, 10**6).map(lambda number: f"A-{number}"),
    st.integers(10**12, 10**14).map(str),
    st.integers(0, 120).map(lambda number: f"{number:03}"),
    st.text("A1-0é", min_size=1, max_size=20),
)


@given(st.lists(st.one_of(IDS, st.just("")), max_size=30), st.lists(IDS, max_size=30))
def test_equal_ids_have_equal_keys(left: list[str], right: list[str]) -> None:
    """Keys are equal just where texts are, within and between columns; empty cells have none, and few are left out."""
    keyed = np.concatenate(dense_keys([pd.Series(left, dtype="str"), pd.Series(right, dtype="str")]))

    texts = [*left, *right]
    by_text = {text: int(key) for text, key in zip(texts, keyed, strict=True)}

    assert [by_text[text] for text in texts] == keyed.tolist()
    assert len(set(by_text.values())) == len(by_text)
    assert by_text.get("", -1) == -1
    assert max(keyed.tolist(), default=-1) < 1 << 16


KEYS = st.lists(st.integers(-1, 6), max_size=12)


@given(KEYS, KEYS)
def test_keys_among_others(keys: list[int], known: list[int]) -> None:
    """The key of an empty cell is never among them."""
    actual = among(np.array(keys, np.int64), np.array(known, np.int64)).tolist()

    assert [key != -1 and key in known for key in keys] == actual


@given(KEYS)
def test_the_latest_row_of_each_key(keys: list[int]) -> None:
    """Rows are written in the order given; a key that no row has, has none."""
    rows = np.arange(len(keys))
    actual = latest(np.array(keys, np.int64), [rows[:5], rows[5:]]).tolist()

    last = {key: row for row, key in enumerate(keys)}
    assert [last.get(key, -1) for key in range(max(keys, default=-1) + 1)] == actual
