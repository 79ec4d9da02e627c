"""Orders by status, wait, promise and period."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from bulletin.facts.scopes.day import Day
from bulletin.model import Fact
from tests.facts.builders import Row, boxed, day_of, find, order, value, why

FRIDAY = "2026-03-27"


def a_day(*orders: Row, **more: Any) -> Day:
    return day_of(FRIDAY, orders=list(orders), **more)


def told(number: str, when: str, due: str = "", kind: str = "order") -> Row:
    return {"order": number, "told": when, "due": due, "kind": kind}


def test_orders_are_counted_by_status() -> None:
    """Out is what has left: shipped and delivered together."""
    statuses = ["waiting", "waiting", "boxed", "shipped", "delivered", "delivered", "cancelled"]
    gone = ("shipped", "delivered", "cancelled")
    day = a_day(*(order(f"A-{at}", status=one, closed="2026-03-20" if one in gone else "") for at, one in enumerate(statuses)))

    actual = [value(day, f"orders.{key}") for key in ("waiting", "boxed", "shipped", "delivered", "out", "cancelled")]

    assert [2, 1, 1, 2, 3, 1] == actual


def test_a_row_is_a_unit_and_counts() -> None:
    """Two lines of an order are two units that wait."""
    day = a_day(order("A-1", line="1"), order("A-1", line="2"))

    actual = value(day, "orders.waiting")

    assert 2 == actual


@pytest.mark.parametrize(
    ("placed", "median"),
    [
        (["2026-03-26", "2026-03-20", "2026-03-01"], Fraction(7)),
        (["2026-03-26", "2026-03-23", "2026-03-20", "2026-03-01"], Fraction(11, 2)),
    ],
)
def test_the_median_of_an_even_number_is_the_mean_of_the_middle_two(placed: list[str], median: Fraction) -> None:
    """Days from placing to the as-of date, of waiting orders alone."""
    rows = [order(f"A-{at}", when) for at, when in enumerate(placed)]
    day = a_day(*rows, order("A-9", "2025-01-01", status="cancelled", closed="2025-02-01"))

    actual = [value(day, f"orders.{key}") for key in ("median_wait", "oldest_wait")]

    assert [median, 26] == actual


def test_where_nobody_waits_there_is_no_wait() -> None:
    """Absent with a reason, not zero days."""
    day = a_day(order("A-1", status="boxed"))

    actual = [why(day, f"orders.{key}") for key in ("median_wait", "oldest_wait")]

    assert ["no order is waiting"] * 2 == actual


def test_a_promise_is_past_when_its_date_lies_strictly_before_the_day() -> None:
    """The date told last counts: a newer one in told.csv, else what orders.csv says; a row without a date takes none back."""
    day = a_day(
        order("A-1", promised="2026-03-26"),
        order("A-2", promised=FRIDAY),
        order("A-3", promised="2026-03-01"),
        order("A-4", promised="2026-05-01"),
        order("A-5"),
        order("A-6", promised="2026-03-01", status="boxed"),
        order("A-7"),
        told=[
            told("A-3", "2026-01-05", "2026-03-01"),
            told("A-3", "2026-02-20", "2026-06-01", "notice"),
            told("A-4", "2026-01-05", "2026-03-01"),
            told("A-7", "2026-01-05", "2026-03-01"),
            told("A-7", "2026-02-20", "", "notice"),
        ],
    )

    found = find(day, "orders.past_promise")

    assert isinstance(found, Fact)
    assert 3 == found.value
    assert {"orders.csv": [2, 5, 8], "told.csv": [4, 5]} == found.rows.lines()


def test_before_the_first_row_of_told_nothing_was_told() -> None:
    """What orders.csv promises today was not known then; of an order that told.csv knows nothing of, it is all there is."""
    rows = [told("A-1", "2026-03-20", "2026-03-22")]
    orders = [order("A-1", promised="2026-03-02"), order("A-2", promised="2026-03-02")]

    actual = [value(day_of(when, orders=orders, told=rows), "orders.past_promise") for when in ("2026-03-19", FRIDAY)]

    assert [1, 2] == actual


def test_what_is_told_later_is_not_known_yet() -> None:
    """As of a day before the new date was told, the old one is past."""
    rows = [told("A-1", "2026-01-05", "2026-03-01"), told("A-1", "2026-03-20", "2026-06-01", "notice")]
    orders = [order("A-1", promised="2026-06-01")]

    actual = [value(day_of(when, orders=orders, told=rows), "orders.past_promise") for when in ("2026-03-19", FRIDAY)]

    assert [1, 0] == actual


def test_without_any_promise_on_file_none_is_past() -> None:
    """Neither told.csv nor a column promised: absent, not zero."""
    day = a_day(order("A-1"))

    actual = why(day, "orders.past_promise")

    assert "needs told.csv or the column promised, which the data folder lacks" == actual


def test_an_order_is_retold_when_it_was_told_more_than_once() -> None:
    """Waiting orders with two rows or more."""
    day = a_day(
        *(order(f"A-{at}") for at in (1, 2, 3)),
        told=[
            told("A-1", "2026-01-05", "2026-03-01"),
            told("A-2", "2026-01-05", "2026-03-01"),
            told("A-2", "2026-02-20", "2026-04-01", "notice"),
            told("A-3", "2026-01-05", "2026-03-01"),
            told("A-3", "2026-04-20", "2026-04-01", "notice"),
        ],
    )

    actual = value(day, "orders.retold")

    assert 1 == actual
    assert why(a_day(order("A-1")), "orders.retold") == "needs told.csv, which the data folder lacks"


def test_movements_are_counted_by_period() -> None:
    """Placed by its day whatever became of it; left and gone by the day shipped or cancelled."""
    day = a_day(
        order("A-1", FRIDAY),
        order("A-2", "2026-03-26", status="cancelled", closed=FRIDAY),
        order("A-3", "2026-03-16", status="shipped", closed="2026-03-23"),
        order("A-4", "2026-02-10", status="delivered", closed="2026-02-28", delivered="2026-03-04"),
        order("A-5", "2026-02-10", status="boxed"),
    )
    periods = ("today", "yesterday", "week", "last_week", "month", "last_month")

    actual = {kind: [value(day, f"orders.{kind}_{period}") for period in periods] for kind in ("placed", "left", "gone")}

    assert {"placed": [1, 1, 2, 1, 3, 2], "left": [0, 0, 1, 0, 1, 1], "gone": [1, 0, 1, 0, 1, 0]} == actual


def test_an_order_closed_later_has_not_left_yet() -> None:
    """As of a day before it was shipped, it stands boxed if its unit does, and counts nowhere as left."""
    orders = [
        order("A-1", status="shipped", closed="2026-03-30", serial="H-1"),
        order("A-2", status="shipped", closed="2026-03-30"),
    ]
    day = a_day(*orders, boxing=[boxed("H-1", "2026-03-24", order="A-1")])

    actual = [value(day, f"orders.{key}") for key in ("waiting", "boxed", "out", "left_month")]

    assert [1, 1, 0, 0] == actual


def test_models_markets_and_batches_may_be_combined() -> None:
    """Each of them has the whole family's names, in whatever order they are asked for."""
    day = a_day(
        order("A-1", market="DE", batch="2026/03"),
        order("A-2", model="Wren 4", market="DE", batch="2026/03"),
        order("A-3", market="FR", batch="2026/04"),
    )
    keys = (
        "of.Heron 8.waiting",
        "in_market.DE.waiting",
        'batch["2026/03"].waiting',
        "of.Heron 8.in_market.DE.waiting",
        "in_market.DE.of.Heron 8.waiting",
        'in_market.DE.of.Wren 4.batch["2026/03"].placed_month',
        'in_market.FR.batch["2026/03"].waiting',
    )

    actual = [value(day, f"orders.{key}") for key in keys]

    assert [2, 2, 2, 1, 1, 0, 0] == actual


@pytest.mark.parametrize("key", ["of.Heron 9.waiting", "in_market.GB.waiting", "batch.B-1.waiting"])
def test_what_no_row_names_has_no_facts(key: str) -> None:
    """A mistyped model, market or batch is unknown, not zero."""
    day = a_day(order("A-1"))

    actual = why(day, f"orders.{key}")

    assert "there is no such item" == actual


def test_models_add_up_to_the_whole() -> None:
    """Every order is of one model."""
    day = a_day(*(order(f"A-{at}", f"2026-03-{at + 1:02}", model=("Heron 8", "Wren 4", "Heron 12")[at % 3]) for at in range(20)))

    parts = [value(day, f"orders.of.{model}.placed_month") for model in ("Heron 8", "Wren 4", "Heron 12")]

    assert value(day, "orders.placed_month") == sum(parts)
