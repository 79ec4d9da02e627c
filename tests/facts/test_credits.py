"""Waiting credit: from when, until when, how much, what is still owed."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bulletin.facts.scopes.day import Day
from bulletin.model import Basis, Fact, Money, Value
from tests.facts.builders import CREDIT, Row, boxed, day_of, find, order, reopened, value, why

SO_FAR = 'credits.so_far["A-1"]'
PROMISED = CREDIT.replace('"placed"', '"promised"')
SHIPPED = CREDIT.replace('"boxed"', '"shipped"')


def a_day(as_of: str, *orders: Row, settings: str = CREDIT, **more: Any) -> Day:
    return day_of(as_of, settings, orders=list(orders), **more)


def amount(day: Day, key: str = SO_FAR) -> dict[str, str]:
    found = value(day, key)
    if not isinstance(found, Money):
        raise TypeError(found)
    return {currency: str(sum_) for currency, sum_ in found.amounts}


def given_credit(number: str, amount: str, kind: str = "credit", currency: str = "EUR", day: str = "2026-02-01") -> Row:
    return {"order": number, "date": day, "kind": kind, "amount": amount, "currency": currency}


@pytest.mark.parametrize(
    ("as_of", "expected"),
    [("2026-02-27", "0.00"), ("2026-02-28", "10.00"), ("2026-03-30", "10.00"), ("2026-03-31", "20.00"), ("2026-04-30", "30.00")],
)
def test_months_end_where_months_are_short(as_of: str, expected: str) -> None:
    """From 31 January: 28 February, 31 March, 30 April."""
    actual = amount(a_day(as_of, order("A-1", "2026-01-31")))

    assert {"EUR": expected} == actual


@pytest.mark.parametrize(
    ("as_of", "expected"), [("2026-04-05", "30.00"), ("2026-05-05", "45.00"), ("2026-06-05", "60.00"), ("2027-01-05", "70.00")]
)
def test_tiers_and_the_cap(as_of: str, expected: str) -> None:
    """Ten a month, fifteen from the fourth on, never over seventy."""
    actual = amount(a_day(as_of, order("A-1", "2026-01-05")))

    assert {"EUR": expected} == actual


@pytest.mark.parametrize(("currency", "expected"), [("JPY", "3000"), ("KWD", "6.500"), ("EUR", "20.00")])
def test_amounts_have_the_decimals_of_their_currency(currency: str, expected: str) -> None:
    """Two months; ISO 4217: JPY 0, KWD 3, EUR 2 decimals."""
    actual = amount(a_day("2026-03-05", order("A-1", "2026-01-05", currency=currency)))

    assert {currency: expected} == actual


@pytest.mark.parametrize(("boxed_on", "expected"), [("2026-03-04", "10.00"), ("2026-03-05", "20.00")])
def test_the_day_of_boxing_still_counts(boxed_on: str, expected: str) -> None:
    """The second anniversary is 5 March."""
    scans = [boxed("H-1", boxed_on, order="A-1")]
    day = a_day("2026-06-01", order("A-1", "2026-01-05", status="boxed"), boxing=scans)

    actual = amount(day)

    assert {"EUR": expected} == actual


def test_a_unit_boxed_again_ends_it_when_it_was_boxed_last() -> None:
    """The customer went on waiting while the unit was open."""
    scans = [boxed("H-1", "2026-02-10", order="A-1"), reopened("H-1", "2026-02-12"), boxed("H-1", "2026-04-10", order="A-1")]
    orders = [order("A-1", "2026-01-05", status="boxed")]

    actual = [amount(a_day(when, *orders, boxing=scans))["EUR"] for when in ("2026-03-06", "2026-05-01")]

    assert ["20.00", "30.00"] == actual


def test_a_unit_is_found_by_serial_or_by_order() -> None:
    """A serial in orders.csv goes first; a replacement or another model's unit is not the order's."""
    orders = [
        order("A-1", serial="H-1", status="boxed"),
        order("A-2", status="boxed"),
        order("A-3"),
        order("A-4"),
    ]
    scans = [
        boxed("H-1", "2026-02-10", purpose="stock"),
        boxed("H-2", "2026-02-11", order="A-2"),
        boxed("H-3", "2026-02-12", order="A-3", purpose="replacement"),
        boxed("W-4", "2026-02-13", order="A-4", model="Wren 4"),
    ]
    day = a_day("2026-04-05", *orders, boxing=scans)

    actual = [amount(day, f'credits.so_far["A-{number}"]')["EUR"] for number in (1, 2, 3, 4)]

    assert ["10.00", "10.00", "30.00", "30.00"] == actual


def test_units_of_an_order_go_to_its_lines_in_turn() -> None:
    """Two lines, one unit boxed: the first line has it, the second goes on earning."""
    orders = [order("A-1", line="2"), order("A-1", line="1", status="boxed")]
    day = a_day("2026-04-05", *orders, boxing=[boxed("H-1", "2026-02-10", order="A-1")])

    actual = amount(day)

    assert {"EUR": "40.00"} == actual


@pytest.mark.parametrize(("closed", "expected"), [("2026-03-04", "10.00"), ("2026-03-05", "20.00")])
def test_the_day_of_cancelling_still_counts(closed: str, expected: str) -> None:
    """After it nothing is earned."""
    day = a_day("2026-06-01", order("A-1", "2026-01-05", status="cancelled", closed=closed))

    actual = amount(day)

    assert {"EUR": expected} == actual


@pytest.mark.parametrize("policy", [CREDIT, SHIPPED])
@pytest.mark.parametrize("status", ["cancelled", "shipped", "delivered"])
def test_what_ended_on_a_day_that_nobody_recorded_earns_nothing(status: str, policy: str) -> None:
    """Gone or cancelled without a day and without a scan: it does not go on earning."""
    day = a_day("2026-06-01", order("A-1", "2026-01-05", status=status), settings=policy)

    assert ({"EUR": "0.00"}, 0) == (amount(day), value(day, "credits.orders"))


def test_a_cancelled_order_without_a_day_earned_until_its_unit_was_boxed() -> None:
    """The scan of its unit is the last day that can be told."""
    scans = [boxed("H-1", "2026-03-05", order="A-1")]
    day = a_day("2026-06-01", order("A-1", "2026-01-05", status="cancelled"), boxing=scans)

    assert {"EUR": "20.00"} == amount(day)


def test_credit_may_run_until_the_day_of_shipping() -> None:
    """Under such a policy a boxed unit still earns."""
    scans = [boxed("H-1", "2026-02-10", order="A-1"), boxed("H-2", "2026-02-10", order="A-2")]
    orders = [order("A-1", status="boxed"), order("A-2", status="shipped", closed="2026-03-10")]
    day = a_day("2026-04-05", *orders, settings=SHIPPED, boxing=scans)

    actual = [amount(day, f'credits.so_far["A-{number}"]')["EUR"] for number in (1, 2)]

    assert ["30.00", "20.00"] == actual


def test_months_may_count_from_the_first_date_told() -> None:
    """The earliest row of told.csv with a date, else the column promised; an order that was told none earns nothing."""
    orders = [order("A-1", promised="2026-03-20"), order("A-2", promised="2026-03-01"), order("A-3")]
    told = [
        {"order": "A-1", "told": "2026-01-10", "due": "2026-02-01", "kind": "order"},
        {"order": "A-1", "told": "2026-01-05", "due": "", "kind": "order"},
        {"order": "A-1", "told": "2026-02-10", "due": "2026-03-20", "kind": "notice"},
    ]
    day = a_day("2026-04-05", *orders, settings=PROMISED, told=told)

    actual = [amount(day, f'credits.so_far["A-{number}"]')["EUR"] for number in (1, 2, 3)]

    assert ["20.00", "10.00", "0.00"] == actual
    assert value(day, "credits.orders") == 2


def test_the_month_so_far_is_the_calendar_month() -> None:
    """Anniversaries from the first of the month to the as-of date, also of orders that ended in between."""
    orders = [
        order("A-1", "2026-01-05"),
        order("A-2", "2026-01-28"),
        order("A-3", "2025-12-03", currency="JPY"),
        order("A-4", "2026-01-02", status="cancelled", closed="2026-03-02"),
    ]
    day = a_day("2026-03-27", *orders)

    actual = amount(day, "credits.accrued_month")

    assert {"EUR": "20.00", "JPY": "1500", "KWD": "0.000"} == actual


def test_the_balance_is_what_the_records_leave() -> None:
    """Redemptions and expiries are taken away, corrections carry their sign; zero where nothing is left or ever was."""
    rows = [
        given_credit("A-1", "30.00"),
        given_credit("A-1", "12.00", "redemption"),
        given_credit("A-1", "3.00", "expiry"),
        given_credit("A-1", "-5.00", "correction"),
        given_credit("A-1", "10.00", currency="USD"),
        given_credit("A-1", "10.00", "redemption", currency="USD"),
    ]
    day = a_day("2026-03-27", order("A-1"), credits=rows)

    actual = amount(day, "credits.balance")

    assert {"EUR": "10.00", "JPY": "0", "KWD": "0.000", "USD": "0.00"} == actual
    assert amount(day, "credits.balance.USD") == {"USD": "0.00"}


def test_owed_is_told_order_by_order() -> None:
    """Too much given to one order makes no other's less; cancelled orders are owed nothing; redemptions make none owed anew."""
    orders = [
        order("A-1"),
        order("A-2"),
        order("A-3", status="cancelled", closed="2026-03-20"),
        order("A-4", currency="JPY"),
    ]
    rows = [
        given_credit("A-1", "50.00"),
        given_credit("A-2", "15.00"),
        given_credit("A-2", "-5.00", "correction"),
        given_credit("A-2", "10.00", "redemption"),
        given_credit("A-3", "-5.00", "correction"),
    ]
    day = a_day("2026-03-27", *orders, credits=rows)

    found = find(day, "credits.owed")

    assert isinstance(found, Fact)
    assert Money((("EUR", Decimal("10.00")), ("JPY", Decimal("3000")), ("KWD", Decimal("0.000")))) == found.value
    assert (Basis.POLICY, {"orders.csv": [3, 5], "credits.csv": [3, 4]}) == (found.basis, found.rows.lines())


def test_money_has_a_zero_where_nothing_is_owed() -> None:
    """There is always an amount to compare and to print: in each currency that the policy or a table knows."""
    day = a_day("2026-03-27", order("A-1", "2026-03-20"), credits=[])

    actual = [amount(day, f"credits.{name}") for name in ("owed", "balance", "accrued_month")]

    assert [{"EUR": "0.00", "JPY": "0", "KWD": "0.000"}] * 3 == actual


def test_one_currency_is_zero_where_it_is_known_and_unknown_elsewhere() -> None:
    """The policy knows KWD; nobody knows CHF."""
    day = a_day("2026-03-27", order("A-1"), credits=[])

    actual = [amount(day, f'credits.owed["{currency}"]') for currency in ("EUR", "KWD")]

    assert [{"EUR": "20.00"}, {"KWD": "0.000"}] == actual
    assert why(day, 'credits.owed["CHF"]') == "there is no such item"


def test_the_next_credit_has_a_day_and_an_amount() -> None:
    """The anniversary after the as-of date, while the order waits and the cap leaves room."""
    day = a_day("2026-04-05", order("A-1", "2026-01-05"))

    actual: list[Value] = [value(day, f'credits.next["A-1"]{name}') for name in ("", ".amount")]

    assert [date(2026, 5, 5), Money((("EUR", Decimal("15.00")),))] == actual


@pytest.mark.parametrize(
    ("as_of", "ended"),
    [
        ("2027-06-01", {}),
        ("2026-04-05", {"status": "boxed"}),
        ("2026-04-05", {"status": "delivered"}),
        ("2026-04-05", {"status": "cancelled", "closed": "2026-03-01"}),
    ],
)
def test_an_order_that_is_done_earns_no_more(as_of: str, ended: dict[str, str]) -> None:
    """At the cap, boxed, cancelled: no next credit, not one of zero."""
    scans = [boxed("H-1", "2026-03-01", order="A-1")] if ended.get("status") == "boxed" else []
    day = a_day(as_of, order("A-1", **ended), boxing=scans)

    actual = why(day, 'credits.next["A-1"]')

    assert "this order earns no more credit" == actual


def test_an_order_that_nobody_placed_has_no_credit() -> None:
    """It is unknown, and nothing is said of others."""
    actual = why(a_day("2026-03-27", order("A-1")), 'credits.so_far["A-2"]')

    assert "there is no such item" == actual


@pytest.mark.parametrize("key", ["accrued_month", "orders", "owed", 'so_far["A-1"]', 'next["A-1"]', 'owed["EUR"]'])
def test_without_a_policy_nothing_is_accrued(key: str) -> None:
    """Absent with the reason; the balance of the records is there all the same."""
    day = a_day("2026-03-27", order("A-1"), settings="", credits=[given_credit("A-1", "10.00")])

    actual = why(day, f"credits.{key}")

    assert "bulletin.toml has no section [credit]" == actual
    assert amount(day, "credits.balance") == {"EUR": "10.00"}


def test_without_its_table_what_was_given_is_not_known() -> None:
    """Owed needs to know what was credited."""
    day = a_day("2026-03-27", order("A-1"))

    actual = [why(day, f"credits.{key}") for key in ("balance", "owed")]

    assert ["needs credits.csv, which the data folder lacks"] * 2 == actual


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.dates(date(2026, 1, 1), date(2027, 12, 31)), min_size=2, max_size=4),
    st.dates(date(2026, 1, 1), date(2026, 12, 31)),
)
def test_credit_never_falls_as_time_passes(days: list[date], placed: date) -> None:
    """Of an order that waits on, each later day has earned as much or more."""
    rows = [order("A-1", str(placed))]

    earned = [Decimal(amount(a_day(str(day), *rows))["EUR"]) for day in sorted(days) if day >= placed]

    assert sorted(earned) == earned
