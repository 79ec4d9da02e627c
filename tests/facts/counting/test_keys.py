"""Ids as integers."""

from __future__ import annotations

import numpy as np
import pandas as pd
from hypothesis import given
from hypothesis import strategies as st

from bulletin.facts.counting.keys import codes

IDS = st.one_of(
    st.integers(0, 10**6).map(lambda number: f"A-{number}"),
    st.integers(10**12, 10**14).map(str),
    st.integers(0, 120).map(lambda number: f"{number:03}"),
    st.text("A1-0é", min_size=1, max_size=20),
)


@given(st.lists(st.one_of(IDS, st.just("")), max_size=30), st.lists(IDS, max_size=30))
def test_equal_ids_have_equal_codes(left: list[str], right: list[str]) -> None:
    """Codes are equal just where texts are, within and between columns; empty cells have none."""
    coded = np.concatenate(codes(pd.Series(left, dtype="str"), pd.Series(right, dtype="str")))

    texts = [*left, *right]
    by_code = {text: int(code) for text, code in zip(texts, coded, strict=True)}

    assert [by_code[text] for text in texts] == coded.tolist()
    assert len(set(by_code.values())) == len(by_code)
    assert by_code.get("", -1) == -1
