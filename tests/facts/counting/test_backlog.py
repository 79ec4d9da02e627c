"""The queue."""

from __future__ import annotations

from typing import Any

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from bulletin.facts.counting.backlog import backlog_of, in_turn
from tests.facts.builders import Row, day_of, order

FRIDAY = "2026-03-27"


def queue(*orders: Row, **more: Any) -> dict[str, int]:
    """The place of every order, by order and line."""
    day = day_of(FRIDAY, orders=list(orders), **more)
    rows = day.table("orders").frame
    names = [f"{number}/{line}" if line else number for number, line in zip(rows["order"], rows["line"], strict=True)]
    return dict(zip(names, day.once(backlog_of).place.tolist(), strict=True))


def test_priority_comes_first_then_the_day_then_the_number() -> None:
    """Orders of one day stand in natural order: A-99 before A-100."""
    actual = queue(
        order("A-100", "2026-03-02"),
        order("A-99", "2026-03-02"),
        order("A-7", "2026-03-01"),
        order("A-500", "2026-03-20", priority=2),
    )

    assert {"A-500": 1, "A-7": 2, "A-99": 3, "A-100": 4} == actual


def test_numbers_of_another_form_stand_in_natural_order_too() -> None:
    """Two beginnings: the letters decide, then the numbers."""
    actual = queue(*(order(number) for number in ("B-10", "A-10", "A-9", "B-9")))

    assert {"A-9": 1, "A-10": 2, "B-9": 3, "B-10": 4} == actual


def test_each_model_has_a_queue_of_its_own() -> None:
    """Who waits for another model stands before nobody here."""
    actual = queue(order("A-1"), order("A-2", model="Wren 4"), order("A-3"), order("A-4", model="Wren 4"))

    assert {"A-1": 1, "A-2": 1, "A-3": 2, "A-4": 2} == actual


def test_lines_of_an_order_follow_each_other() -> None:
    """Line 2 before line 10."""
    actual = queue(order("A-1", line="10"), order("A-1", line="2"))

    assert {"A-1/2": 1, "A-1/10": 2} == actual


def test_held_orders_and_refunds_stand_outside() -> None:
    """A hold lasts to its last day, inclusive; a refund that was asked for takes the order out, paid or not."""
    actual = queue(
        *(order(f"A-{at}") for at in range(1, 7)),
        order("A-7", status="boxed"),
        holds=[
            {"order": "A-1", "reason": "moving house", "from": "2026-03-01", "until": FRIDAY},
            {"order": "A-2", "reason": "moving house", "from": "2026-03-01", "until": "2026-03-26"},
            {"order": "A-3", "reason": "moving house", "from": "2026-03-01", "until": ""},
            {"order": "A-4", "reason": "moving house", "from": "2026-03-28", "until": ""},
        ],
        refunds=[{"order": "A-5", "asked": FRIDAY, "amount": "10.00", "currency": "EUR"}],
    )

    assert {"A-1": 0, "A-2": 1, "A-3": 0, "A-4": 2, "A-5": 0, "A-6": 3, "A-7": 0} == actual


@given(st.lists(st.tuples(st.integers(-(2**40), 2**40), st.integers(0, 3)), max_size=20))
def test_one_key_sorts_as_several_columns_do(rows: list[tuple[int, int]]) -> None:
    """Also where the columns do not fit into one key."""
    columns = [np.array([row[at] for row in rows], dtype=np.int64) for at in (0, 1, 0)]

    actual = in_turn(*columns).tolist()

    assert sorted(range(len(rows)), key=lambda at: (rows[at][0], rows[at][1], rows[at][0])) == actual
