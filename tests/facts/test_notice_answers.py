"""What became of notices: whose order is to be paid back."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from bulletin.facts.notice_answers import refunds_due
from bulletin.facts.notices import notices_due
from bulletin.model import Money, RefundDue
from tests.facts.builders import Row, day_of, order

SETTINGS = """
[[notice]]
markets = ["US"]
rule = "16 CFR Part 435"

[[notice]]
markets = ["AT"]
rule = "Directive 2011/83/EU Art. 18"
"""


def told(when: str, due: str = "", kind: str = "notice", answer: str = "", answered: str = "") -> Row:
    return {"order": "A-1", "told": when, "due": due, "kind": kind, "answer": answer, "answered": answered}


def american(**columns: Any) -> Row:
    return order("A-1", **{"market": "US", "locale": "en", "currency": "USD", "amount": "890.00", **columns})


ORDERED = told("2026-01-05", "2026-03-01", "order")
"""The date that the notices of these cases are about."""


def ended(*rows: Row, as_of: str, **columns: Any) -> list[tuple[str, date, str]]:
    """Which orders are to be paid back, since when, why."""
    day = day_of(as_of, settings=SETTINGS, orders=[american(**columns)], told=[ORDERED, *rows])
    return [(refund.order, refund.since, refund.why) for refund in refunds_due(day)]


LONG, SOON = told("2026-03-01", "2026-04-01"), told("2026-03-01", "2026-03-31")
NEVER = ("A-1", date(2026, 3, 31), "no consent")
CASES: dict[str, tuple[list[Row], str, list[tuple[str, date, str]]]] = {
    "31 days later, on the cut-off": ([LONG], "2026-03-31", []),
    "31 days later, after the cut-off": ([LONG], "2026-04-01", [NEVER]),
    "no date, after the cut-off": ([told("2026-03-01")], "2026-04-01", [NEVER]),
    "30 days later: silence is consent": ([SOON], "2026-04-01", []),
    "consented": ([told("2026-03-01", "2026-04-15", answer="consent", answered="2026-03-30")], "2026-04-10", []),
    "consented later": ([told("2026-03-01", "2026-04-15", answer="consent", answered="2026-04-11")], "2026-04-10", [NEVER]),
    "cancelled": (
        [told("2026-03-01", "2026-03-20", answer="cancel", answered="2026-03-04")],
        "2026-03-05",
        [("A-1", date(2026, 3, 4), "cancelled")],
    ),
    "cancelled on a day that nobody wrote down": (
        [told("2026-03-01", "2026-03-20", answer="cancel")],
        "2026-03-05",
        [("A-1", date(2026, 3, 1), "cancelled")],
    ),
    "renewed, on the old new date": ([SOON, told("2026-03-29", "2026-04-20", "renewed")], "2026-03-31", []),
    "renewed, after the old new date": ([SOON, told("2026-03-29", "2026-04-20", "renewed")], "2026-04-01", [NEVER]),
    "renewed after one without a date": ([told("2026-03-01"), told("2026-03-10", "2026-04-20", "renewed")], "2026-03-31", []),
}


@pytest.mark.parametrize(("rows", "as_of", "expected"), CASES.values(), ids=CASES)
def test_who_is_to_be_paid_back(rows: list[Row], as_of: str, expected: list[tuple[str, date, str]]) -> None:
    """16 CFR 435.2(b)(1) and (2), of a date told as 2026-03-01: consent must come by 2026-03-31, or by the old new date."""
    assert expected == ended(*rows, as_of=as_of)


def test_without_any_date_the_days_of_the_rule_count() -> None:
    """Placed 2026-01-31 and never told a date: 30 days are 2026-03-02, 30 more are the cut-off, 2026-04-01."""
    orders, rows = [american(placed="2026-01-31")], [told("2026-03-01")]
    days = [day_of(as_of, settings=SETTINGS, orders=orders, told=rows) for as_of in ("2026-04-01", "2026-04-02")]

    assert [[], [date(2026, 4, 1)]] == [[refund.since for refund in refunds_due(day)] for day in days]


def test_what_has_left_is_not_paid_back() -> None:
    """Shipped in time or late, cancelled and closed: nothing is listed."""
    assert [] == ended(LONG, as_of="2026-04-10", status="shipped", closed="2026-03-30")
    assert [] == ended(LONG, as_of="2026-04-10", status="cancelled", closed="2026-03-30")


def test_what_is_paid_back_already_is_not_listed_again() -> None:
    """An order that refunds.csv knows is left to it."""
    refund = {"order": "A-1", "asked": "2026-04-01", "amount": "890", "currency": "USD"}
    day = day_of("2026-04-10", settings=SETTINGS, orders=[american()], told=[ORDERED, LONG], refunds=[refund])

    assert () == refunds_due(day)


def test_a_rule_that_says_nothing_of_silence_ends_nothing() -> None:
    """Under the directive an order waits on until its customer cancels."""
    assert [] == ended(LONG, as_of="2026-06-01", market="AT", currency="EUR")


def test_the_amount_is_that_of_all_lines() -> None:
    """What was paid for the lines that have not left; unknown where one of them has no amount."""
    rule, source = "16 CFR Part 435", "16 CFR 435.2(b)(1)(iii)"
    lines = [american(line="1"), american(line="2", amount="1420.50"), american(line="3", status="shipped", closed="2026-02-01")]
    known = day_of("2026-04-01", settings=SETTINGS, orders=lines, told=[ORDERED, LONG])
    unknown = day_of("2026-04-01", settings=SETTINGS, orders=[american(amount="")], told=[ORDERED, LONG])
    paid = Money((("USD", Decimal("2310.50")),))

    assert (RefundDue("A-1", rule, date(2026, 3, 31), "no consent", source, paid),) == refunds_due(known)
    assert [None] == [refund.amount for refund in refunds_due(unknown)]


def test_who_is_to_be_paid_back_is_due_no_other_notice() -> None:
    """The new date has come too, but consent to it never came."""
    day = day_of("2026-04-02", settings=SETTINGS, orders=[american()], told=[ORDERED, LONG])

    assert () == notices_due(day)


def test_without_any_notice_nothing_is_paid_back() -> None:
    """A date that was not kept and of which nobody spoke is a notice that is due."""
    day = day_of("2026-06-01", settings=SETTINGS, orders=[american()], told=[ORDERED])

    assert () == refunds_due(day)
    assert 1 == len(notices_due(day))
