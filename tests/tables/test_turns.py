"""Which line of an order comes first."""

from __future__ import annotations

import pandas as pd

from bulletin.tables.turns import line_turns


def in_turn(*lines: tuple[str, str]) -> list[str]:
    """Lines, each with its status, as they come in turn."""
    frame = pd.DataFrame(lines, columns=["line", "status"])
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
    assert [[0, 0], []] == [
        line_turns(pd.DataFrame({"line": [""] * number, "status": ["waiting"] * number})).tolist() for number in (2, 0)
    ]
