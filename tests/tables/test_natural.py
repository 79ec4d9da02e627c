"""Natural order, as people count."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bulletin.tables.natural import natural_key, natural_ranks, numbered

IDS = st.one_of(
    st.integers(0, 10**6).map(lambda number: f"A-{number}"),
    st.integers(10**12, 10**14).map(str),
    st.integers(0, 120).map(lambda number: f"{number:03}"),
    st.text("A1-0é", min_size=1, max_size=20),
)


def column(*texts: str) -> pd.Series:
    return pd.Series(texts, dtype="str")


@given(st.lists(IDS, min_size=1, max_size=30))
def test_ranks_sort_as_natural_order_does(texts: list[str]) -> None:
    """Whatever way the ranks are found, sorting by them is sorting by the natural key."""
    ranks = natural_ranks(column(*texts))

    actual = [texts[position] for position in np.argsort(ranks, kind="stable")]

    assert sorted(texts, key=natural_key) == actual


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (["H12-99", "H12-100"], [99, 100]),
        (["7", "12"], [7, 12]),
        (["A-07", "A-12"], [7, 12]),
        (["A-07", "A-7"], None),
        (["A-1", "B-1"], None),
        (["A-1", "A-1b"], None),
        (["é-1"], None),
        (["9" * 18], None),
        ([], None),
    ],
)
def test_only_ids_that_differ_in_one_number_are_their_number(texts: list[str], expected: list[int] | None) -> None:
    """The short cut is taken only where numbers tell the ids apart and order them."""
    found = numbered(column(*texts))

    actual = None if found is None else found.tolist()

    assert expected == actual
