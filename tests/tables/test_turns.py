"""Which line of an order comes first."""

from __future__ import annotations

import numpy as np
import pandas as pd
from hypothesis import given
from hypothesis import strategies as st

from bulletin.tables.turns import count_before, line_turns


def orders(*lines: tuple[str, str]) -> pd.DataFrame:
    return pd.DataFrame(lines, columns=["line", "status"], dtype="str").astype({"status": "category"})


def in_turn(*lines: tuple[str, str]) -> list[str]:
    """Lines, each with its status, as they come in turn."""
    frame = orders(*lines)
    return frame.iloc[line_turns(frame).argsort(kind="stable")]["line"].tolist()


def test_lines_come_in_natural_order() -> None:
    """Line 2 before line 10."""
    assert ["2", "10"] == in_turn(("10", "waiting"), ("2", "waiting"))


def test_lines_that_have_their_unit_come_first() -> None:
    """Boxed, shipped and delivered ones, in natural order; waiting and cancelled ones behind them."""
    actual = in_turn(("1", "waiting"), ("10", "boxed"), ("3", "cancelled"), ("9", "shipped"), ("4", "delivered"))

    assert ["4", "9", "10", "1", "3"] == actual


def test_without_lines_there_is_no_turn() -> None:
    """One line an order, and no row at all."""
    actual = [line_turns(orders(*[("", "waiting")] * number)).tolist() for number in (2, 0)]

    assert [[0, 0], []] == actual


@given(st.lists(st.integers(0, 3), max_size=12))
def test_rows_of_one_code_are_counted_as_they_come(codes: list[int]) -> None:
    """So many of the same code stand before each."""
    actual = count_before(np.array(codes, np.int64)).tolist()

    assert [codes[:at].count(code) for at, code in enumerate(codes)] == actual
