"""The state of one order, and of all."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pandas as pd
import pytest

from bulletin.facts.order_lines import all_order_lines, order_lines
from bulletin.model import Hold, Money, Name, Refund, Shortage, Window
from tests.facts.builders import CREDIT, boxed, day_of, order, reopened

FRIDAY = "2026-03-27"


def test_a_waiting_order_has_a_place_and_credit() -> None:
    """Place in the queue, how many stand ahead, the date told last, credit so far and the next."""
    told = [{"order": "A-2", "told": "2026-02-01", "due": "2026-05-01", "kind": "notice"}]
    day = day_of(FRIDAY, CREDIT, orders=[order("A-1"), order("A-2", promised="2026-04-01")], told=told)

    (line,) = order_lines(day, "A-2")

    actual = (line.status, line.place, line.ahead_of, line.promised, line.credit, line.next_credit)
    ten = Decimal("10.00")
    expected = ("waiting", 2, 1, date(2026, 5, 1), Money((("EUR", 2 * ten),)), (date(2026, 4, 5), Money((("EUR", ten),))))
    assert expected == actual


@pytest.mark.parametrize(
    ("status", "closed", "delivered"),
    [
        ("boxed", "", ""),
        ("shipped", "2026-03-10", ""),
        ("delivered", "2026-03-10", "2026-03-14"),
        ("cancelled", "2026-03-10", ""),
    ],
)
def test_an_order_that_is_done_has_its_days(status: str, closed: str, delivered: str) -> None:
    """Every status but waiting: no place, the day boxed, closed and delivered where there is one."""
    scans = [] if status == "cancelled" else [boxed("H-1", "2026-03-09", order="A-1")]
    day = day_of(FRIDAY, orders=[order("A-1", status=status, closed=closed, delivered=delivered)], boxing=scans)

    (line,) = order_lines(day, "A-1")

    actual = tuple(str(found or "") for found in (line.status, line.place, line.boxed, line.closed, line.delivered))
    assert (status, "", "" if status == "cancelled" else "2026-03-09", closed, delivered) == actual


def test_orders_outside_the_queue_say_why() -> None:
    """Held, or a refund was asked for; where both, the refund."""
    holds = [{"order": number, "reason": "moving house", "from": "2026-03-01"} for number in ("A-1", "A-3")]
    refunds = [{"order": number, "asked": "2026-03-20", "amount": "10.00", "currency": "EUR"} for number in ("A-2", "A-3")]
    day = day_of(FRIDAY, orders=[order(f"A-{at}") for at in (1, 2, 3)], holds=holds, refunds=refunds)

    actual = [(line.status, line.place) for number in (1, 2, 3) for line in order_lines(day, f"A-{number}")]

    assert [("held", None), ("refund", None), ("refund", None)] == actual


def test_lines_come_in_natural_order() -> None:
    """Line 2 before line 10."""
    day = day_of(FRIDAY, orders=[order("A-1", line="10"), order("A-1", line="2"), order("A-2", line="1")])

    actual = [line.line for line in order_lines(day, "A-1")]

    assert ["2", "10"] == actual


def test_the_line_whose_status_says_so_has_the_unit() -> None:
    """One unit for two lines: it is that of the second one, which is boxed, and the first one waits."""
    orders = [order("A-1", line="2", status="boxed"), order("A-1", line="1")]
    day = day_of(FRIDAY, orders=orders, boxing=[boxed("H-1", "2026-03-09", order="A-1")])

    actual = [(line.line, line.status, line.boxed) for line in order_lines(day, "A-1")]

    assert [("1", "waiting", None), ("2", "boxed", date(2026, 3, 9))] == actual


def test_units_go_to_lines_in_natural_order() -> None:
    """Line 2 has the unit that was boxed first, line 10 the second one, in whatever order the file has them."""
    orders = [order("A-1", line="10", status="boxed"), order("A-1", line="2", status="boxed")]
    scans = [boxed("H-1", "2026-03-10", order="A-1"), boxed("H-2", "2026-03-09", order="A-1")]

    actual = [(line.line, line.boxed) for line in order_lines(day_of(FRIDAY, orders=orders, boxing=scans), "A-1")]

    assert [("2", date(2026, 3, 9)), ("10", date(2026, 3, 10))] == actual


def test_an_unknown_order_has_no_line() -> None:
    """Nothing is told, of it or of others."""
    actual = order_lines(day_of(FRIDAY, orders=[order("A-1")]), "A-2")

    assert () == actual


def test_parts_hold_up_those_whom_the_shelf_does_not_reach() -> None:
    """One beam serves the first order; the second waits for the next one, due in April."""
    day = day_of(
        FRIDAY,
        orders=[order("A-1"), order("A-2")],
        parts=[{"part": "P-1", "name": "warp beam"}],
        structure=[{"parent": "Heron 8", "component": "P-1", "quantity": "1"}],
        stock=[{"part": "P-1", "state": "usable", "quantity": "1", "counted": "2026-03-20"}],
        supply=[{"purchase": "S-1", "part": "P-1", "quantity": "5", "due": "2026-04-10", "state": "ordered"}],
    )

    actual = [line.held_up for number in ("A-1", "A-2") for line in order_lines(day, number)]

    assert [(), (Shortage(Name("part", "P-1", "warp beam"), date(2026, 4, 10)),)] == actual


@pytest.mark.parametrize(("received", "late"), [("2026-03-13", 12), ("2026-03-01", None), ("2026-02-27", None)])
def test_a_part_is_told_late_only_where_it_usually_is(received: str, late: int | None) -> None:
    """Twelve days after the due day is lateness; on the day or before it is none."""
    supply = [{"purchase": "S-1", "part": "P-1", "quantity": "5", "due": "2026-03-01", "state": "received", "received": received}]
    day = day_of(
        FRIDAY,
        orders=[order("A-1")],
        parts=[{"part": "P-1", "name": "beam"}],
        structure=[{"parent": "Heron 8", "component": "P-1", "quantity": "1"}],
        stock=[{"part": "P-1", "state": "usable", "quantity": "0", "counted": "2026-03-20"}],
        supply=supply,
    )

    (line,) = order_lines(day, "A-1")

    assert (Shortage(Name("part", "P-1", "beam"), None, late),) == line.held_up


def test_store_credit_is_what_is_earned_less_what_is_gone() -> None:
    """20.00 earned by two months; 15.00 redeemed, 2.00 expired: 3.00 left, whether or not all of it is credited yet."""
    rows = [("credit", "10.00"), ("redemption", "15.00"), ("expiry", "2.00")]
    booked = [{"order": "A-1", "date": "2026-03-10", "kind": kind, "amount": amount, "currency": "EUR"} for kind, amount in rows]
    (line,) = order_lines(day_of(FRIDAY, CREDIT, orders=[order("A-1")], credits=booked), "A-1")

    actual = [dict(money.amounts)["EUR"] for money in (line.credit, line.store_credit.earned, line.store_credit.left)]

    assert [Decimal("20.00"), Decimal("20.00"), Decimal("3.00")] == actual


def test_store_credit_counts_every_line_once_and_what_was_given_on_top() -> None:
    """Two lines earned 40.00; a correction of 50.00 is more, and is what there is."""
    orders = [order("A-1", line="1"), order("A-1", line="2")]
    rows = [{"order": "A-1", "date": "2026-03-10", "kind": "correction", "amount": "50", "currency": "EUR"}]

    plain, corrected = (order_lines(day_of(FRIDAY, CREDIT, orders=orders, credits=given), "A-1") for given in ([], rows))

    assert [Decimal("40.00")] * 2 == [dict(line.store_credit.left.amounts)["EUR"] for line in plain]
    assert [Decimal("50.00")] * 2 == [dict(line.store_credit.left.amounts)["EUR"] for line in corrected]


def test_the_hold_that_keeps_an_order_longest_is_told() -> None:
    """One that is over is not told; of those in force the open one, else the one that ends last."""
    held = [("2026-03-01", "2026-03-10"), ("2026-03-02", "2026-04-01"), ("2026-03-03", "2026-03-30")]
    holds = [{"order": "A-1", "reason": f"since {begun}", "from": begun, "until": until} for begun, until in held]
    moving = {"order": "A-1", "reason": "moving house", "from": "2026-03-04", "until": ""}

    actual = [order_lines(day_of(FRIDAY, orders=[order("A-1")], holds=rows), "A-1")[0].hold for rows in (holds, [*holds, moving])]

    assert [Hold("since 2026-03-02", date(2026, 4, 1)), Hold("moving house")] == actual


def test_an_unpaid_refund_is_told_before_a_paid_one() -> None:
    """Two refunds: the one not paid as of the day is what the customer asks about, though it was asked for first."""
    refunds = [
        {"order": "A-1", "asked": "2026-03-10", "paid": "", "amount": "10.00", "currency": "EUR"},
        {"order": "A-1", "asked": "2026-03-12", "paid": "2026-03-20", "amount": "5.00", "currency": "EUR"},
    ]

    days = [day_of(FRIDAY, orders=[order("A-1")], refunds=rows) for rows in (refunds, refunds[1:])]
    actual = [order_lines(day, "A-1")[0].refund for day in days]

    unpaid = Refund(date(2026, 3, 10), Money((("EUR", Decimal("10.00")),)))
    assert [unpaid, Refund(date(2026, 3, 12), Money((("EUR", Decimal("5.00")),)), date(2026, 3, 20))] == actual


def test_a_unit_that_was_opened_again_says_when() -> None:
    """Boxed on the 9th and opened on the 12th: its line waits again; a line of another model knows nothing of it."""
    orders = [order("A-1", line="1", model="Heron 12"), order("A-1", line="2"), order("A-1", line="3")]
    scans = [boxed("H-1", "2026-03-09", order="A-1"), reopened("H-1", "2026-03-12", order="A-1")]

    actual = [line.reopened for line in order_lines(day_of(FRIDAY, orders=orders, boxing=scans), "A-1")]

    assert [None, date(2026, 3, 12), None] == actual


def test_without_a_policy_there_is_no_credit() -> None:
    """Nothing so far, nothing next."""
    (line,) = order_lines(day_of(FRIDAY, orders=[order("A-1")]), "A-1")

    actual = (line.credit, line.next_credit)

    assert (Money(()), None) == actual


def test_all_lines_at_once_are_the_lines_one_by_one() -> None:
    """What is frozen of every order is what support would read of each."""
    orders = [
        order("A-1"),
        order("A-2", status="boxed", currency="KWD"),
        order("A-3", "2026-02-28", model="Wren 4", priority=1, promised="2026-04-01"),
        order("A-4", status="shipped", closed="2026-03-10"),
    ]
    day = day_of(FRIDAY, CREDIT, orders=orders, boxing=[boxed("H-1", "2026-03-09", order="A-2")])
    all_lines = all_order_lines(day)

    for row in all_lines.to_dict("records"):
        (line,) = order_lines(day, row["order"])
        assert (line.status, line.place or 0) == (row["status"], row["place"])
        assert (line.promised, line.boxed) == tuple(
            None if pd.isna(row[name]) else row[name].date() for name in ("promised", "boxed")
        )
    actual = list(zip(all_lines["place"], all_lines["credit"], all_lines["next_credit"], strict=True))
    assert [(1, 2000, 1000), (0, 6500, 0), (1, 0, 1000), (0, 2000, 0)] == actual


def test_what_is_on_its_way_is_not_expected_before_today() -> None:
    """Boxed on Monday 23 March, one to ten working days to the door: as of Friday, from Friday to 6 April."""
    day = day_of(
        FRIDAY,
        orders=[order("A-1", status="shipped", closed="2026-03-23")],
        boxing=[boxed("H-1", "2026-03-23", order="A-1")],
        lanes=[{"market": "AT", "days_low": "1", "days_high": "10"}],
    )

    (line,) = order_lines(day, "A-1")

    assert Window(date(2026, 3, 27), date(2026, 4, 6)) == line.arrival
