"""Months between dates, and what they earn."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import numpy as np
import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from bulletin.facts.credit.accrual import NEVER, anniversaries, earnings, minor_units, money, months_elapsed
from bulletin.model import Money
from bulletin.settings import Credit, Tier

DAYS = st.dates(date(1990, 1, 1), date(2090, 12, 31))


def days(*texts: str) -> np.ndarray:
    return np.array(texts, dtype="datetime64[D]")


def policy(*tiers: tuple[int, str], cap: str = "") -> Credit:
    return Credit(
        tiers=[Tier(from_month=month, amount={"EUR": amount}) for month, amount in tiers],
        cap={"EUR": cap} if cap else {},
    )


@pytest.mark.parametrize(
    ("first", "months", "expected"),
    [
        ("2003-01-31", 1, "2003-02-28"),
        ("2003-01-31", 2, "2003-03-31"),
        ("2026-01-31", 1, "2026-02-28"),
        ("2026-01-31", 2, "2026-03-31"),
    ],
)
def test_anniversaries_are_counted_from_the_first_date(first: str, months: int, expected: str) -> None:
    """The first two: python-dateutil's documentation of relativedelta; the others computed with it."""
    actual = anniversaries(days(first), np.array([months]))

    assert [np.datetime64(expected)] == actual.tolist()


@given(DAYS, st.integers(0, 600))
def test_anniversaries_are_those_of_dateutil(first: date, months: int) -> None:
    """For any date and number of months."""
    actual = anniversaries(days(str(first)), np.array([months]))[0].item()

    assert first + relativedelta(months=months) == actual


@given(DAYS, DAYS)
def test_months_elapsed_are_the_anniversaries_reached(first: date, last: date) -> None:
    """The n-th anniversary lies up to the last day, the one after does not (dateutil's dates)."""
    actual = int(months_elapsed(days(str(first)), days(str(last)))[0])

    assert actual == 0 or first + relativedelta(months=actual) <= last
    assert first + relativedelta(months=actual + 1) > last


def test_no_date_has_no_anniversary() -> None:
    """An order that was never told a date earns nothing."""
    actual = months_elapsed(days("NaT", "2026-01-31"), days("2026-03-31", "NaT")).tolist()

    assert [0, 0] == actual


def test_each_month_earns_by_the_greatest_tier_not_above_it() -> None:
    """Ten a month, fifteen from the fourth on, the last step cut to the cap of 70."""
    table = earnings(policy((1, "10.00"), (4, "15.00"), cap="70.00"), ("EUR",), 8)

    actual = table.earned[0, :9].tolist()

    assert [0, 1000, 2000, 3000, 4500, 6000, 7000, 7000, 7000] == actual


def test_a_policy_may_begin_later_and_have_no_cap() -> None:
    """Nothing before the first tier's month; without a cap it goes on."""
    table = earnings(policy((3, "5.00")), ("EUR",), 5)

    actual = table.earned[0, :6].tolist()

    assert [0, 0, 0, 500, 1000, 1500] == actual


def test_the_next_step_is_the_next_month_that_earns() -> None:
    """The first tier's month from the start, the next one later, none once the cap is reached."""
    table = earnings(policy((3, "5.00"), cap="12.00"), ("EUR",), 6)

    actual = table.next_step(np.zeros(6, np.int64), np.arange(6)).tolist()

    assert [3, 3, 3, 4, 5, NEVER] == actual


def test_a_currency_that_the_policy_does_not_name_earns_nothing() -> None:
    """No amount is made up for it."""
    table = earnings(policy((1, "10.00")), ("CHF", "EUR"), 2)

    actual = table.earned[:, 2].tolist()

    assert [0, 2000] == actual


@pytest.mark.parametrize(("amount", "currency", "units"), [("1500", "JPY", 1500), ("12.50", "EUR", 1250), ("3.250", "KWD", 3250)])
def test_amounts_are_whole_minor_units(amount: str, currency: str, units: int) -> None:
    """ISO 4217: JPY has no minor unit, EUR two digits, KWD three; and back again with all of them."""
    actual = minor_units(Decimal(amount), currency)

    assert units == actual
    assert str(money({currency: actual}).amounts[0][1]) == amount


def test_money_keeps_what_is_nothing() -> None:
    """Every currency with all its decimals, sorted by code."""
    actual = money({"USD": 100, "EUR": 0, "CHF": -5})

    assert Money((("CHF", Decimal("-0.05")), ("EUR", Decimal("0.00")), ("USD", Decimal("1.00")))) == actual
