"""Notices of delay: which orders are due one, and what silence means."""

from __future__ import annotations

from datetime import date
from typing import Any, Literal

import pytest

from bulletin.facts.notices import notice_of, notices_due, silence_under
from bulletin.model import NoticesDue
from tests.facts.builders import Row, day_of, order

SETTINGS = """
[[notice]]
markets = ["US"]
rule = "16 CFR Part 435"
days = 30

[[notice]]
markets = ["AT"]
rule = "Directive 2011/83/EU Art. 18"
days = 30
"""


def due(*orders: Row, as_of: str = "2026-03-27", **tables: list[Row]) -> list[tuple[str, tuple[str, ...]]]:
    """Rules and orders that are due a notice; with so few rows no window can be told."""
    day = day_of(as_of, settings=SETTINGS, orders=list(orders), **tables)
    return [(notice.rule, notice.orders) for notice in notices_due(day)]


def told(when: str, until: str = "", kind: str = "order") -> Row:
    return {"order": "A-1", "told": when, "due": until, "kind": kind}


def american(**columns: Any) -> Row:
    return order("A-1", market="US", locale="en", currency="USD", **columns)


CASES: dict[str, tuple[list[Row], bool]] = {
    "a date that has come": ([told("2026-02-01", "2026-03-27")], True),
    "a date to come": ([told("2026-02-01", "2026-03-28")], False),
    "a notice without a date since": ([told("2026-02-01", "2026-03-20"), told("2026-03-19", "", "notice")], False),
    "a new date": ([told("2026-02-01", "2026-03-20"), told("2026-03-19", "2026-04-17", "notice")], False),
    "a new date that has come too": ([told("2026-02-01", "2026-03-01"), told("2026-02-28", "2026-03-20", "notice")], True),
    "told at the order that no date is known": ([told("2026-01-05", "")], True),
    "noticed without any date": ([told("2026-01-05", ""), told("2026-02-03", "", "notice")], False),
}


@pytest.mark.parametrize(("rows", "expected"), CASES.values(), ids=CASES)
def test_a_date_that_is_not_kept_asks_for_a_notice(rows: list[Row], expected: bool) -> None:
    """The date told last has come, and no row of told.csv is newer."""
    assert expected == bool(due(american(), told=rows))


PLACED = {"30 days ago": ("2026-02-25", True), "29 days ago": ("2026-02-26", False)}


@pytest.mark.parametrize(("placed", "expected"), PLACED.values(), ids=PLACED)
def test_without_a_date_the_days_of_the_rule_count(placed: str, expected: bool) -> None:
    """Whoever was told no date is due a notice once the rule's days are over; 2026-02-25 + 30 days = 2026-03-27."""
    assert expected == bool(due(american(placed=placed)))


def test_the_thirty_days_of_the_directive() -> None:
    """Directive 2011/83/EU Art. 18(1): 2026-01-31 + 30 days = 2026-03-02."""
    placed = order("A-1", placed="2026-01-31")

    assert [] == due(placed, as_of="2026-03-01")
    assert [("Directive 2011/83/EU Art. 18", ("A-1",))] == due(placed, as_of="2026-03-02")


def test_who_does_not_wait_is_due_nothing() -> None:
    """Orders that are boxed, and those of markets without a rule, are left aside; the others come in natural order."""
    waiting = [order(number, market="US") for number in ("A-10", "A-9")]

    assert [("16 CFR Part 435", ("A-9", "A-10"))] == due(
        *waiting, order("A-1", market="US", status="cancelled", closed="2026-03-01"), order("A-2", market="JP")
    )


def test_no_rule_asks_for_nothing() -> None:
    """A folder without `[[notice]]` has no notices due."""
    day = day_of("2026-03-27", orders=[american()])

    assert () == notices_due(day)
    assert notice_of(day, 0) is None


def test_the_notice_of_one_order() -> None:
    """It names the rule and the date not kept; a second notice is a renewed one, and without a new date silence cancels."""
    rows = [told("2026-02-01", "2026-03-01"), told("2026-02-20", "2026-03-20", "notice")]
    first = notice_of(day_of("2026-03-27", settings=SETTINGS, orders=[american()], told=rows[:1]), 0)
    second = notice_of(day_of("2026-03-27", settings=SETTINGS, orders=[american()], told=rows), 0)

    assert first is not None
    assert second is not None
    assert ("16 CFR Part 435", date(2026, 3, 1), "notice", "cancellation") == (first.rule, first.by, first.kind, first.silence)
    assert (date(2026, 3, 20), "renewed", "cancellation") == (second.by, second.kind, second.silence)


SILENCE: dict[str, tuple[Literal["notice", "renewed"], date | None, str]] = {
    "30 days later, 435.2(b)(1)(ii)": ("notice", date(2026, 3, 31), "consent"),
    "31 days later, 435.2(b)(1)(iii)": ("notice", date(2026, 4, 1), "cancellation"),
    "no date, 435.2(b)(1)(iii)": ("notice", None, "cancellation"),
    "a second notice, 435.2(b)(2)": ("renewed", date(2026, 3, 31), "cancellation"),
}


@pytest.mark.parametrize(("kind", "new", "expected"), SILENCE.values(), ids=SILENCE)
def test_what_silence_means(kind: Literal["notice", "renewed"], new: date | None, expected: str) -> None:
    """16 CFR 435.2(b), of a date told as 2026-03-01."""
    assert expected == silence_under("16 CFR Part 435", kind, date(2026, 3, 1), new)


def test_other_rules_say_nothing_of_silence() -> None:
    """What is not known is not told."""
    assert "" == silence_under("Consumer Rights Act 2015 s. 28", "notice", date(2026, 3, 1), None)


def test_orders_are_told_by_rule() -> None:
    """Two sections of one rule are one entry."""
    twice = SETTINGS.replace("Directive 2011/83/EU Art. 18", "16 CFR Part 435")
    day = day_of("2026-03-27", settings=twice, orders=[american(), order("A-2")])

    assert (NoticesDue("16 CFR Part 435", ("A-1", "A-2")),) == notices_due(day)
