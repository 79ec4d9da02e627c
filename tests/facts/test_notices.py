"""Notices of delay: which orders are due one, and what silence means."""

from __future__ import annotations

from datetime import date
from typing import Any, Literal

import pandas as pd
import pytest

from bulletin.facts.ahead.leaving import days_to_leave
from bulletin.facts.ahead.windows import order_windows
from bulletin.facts.notices import delays, notice_of, notice_under, notices_due
from bulletin.facts.scopes.family import Gap
from bulletin.model import Hold, Notice, NoticesDue
from tests.facts.builders import Row, boxed, day_of, order

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


def first(day: str, new: str | None, kind: Literal["notice", "renewed"] = "notice") -> Notice:
    """A notice under 16 CFR Part 435 about a date told as `day`."""
    section = day_of(day, settings=SETTINGS).settings.notice[0]
    return notice_under(section, kind, date.fromisoformat(day), date.fromisoformat(new) if new else None, None)


SILENCE: dict[str, tuple[Literal["notice", "renewed"], str | None, str, str]] = {
    "30 days later, 435.2(b)(1)(ii)": ("notice", "2026-03-31", "consent", "2026-03-31"),
    "31 days later, 435.2(b)(1)(iii)": ("notice", "2026-04-01", "cancellation", "2026-03-31"),
    "no date, 435.2(b)(1)(iii)": ("notice", None, "cancellation", "2026-03-31"),
    "a second notice, 435.2(b)(2)": ("renewed", "2026-03-31", "cancellation", "2026-03-01"),
}


@pytest.mark.parametrize(("kind", "new", "silence", "until"), SILENCE.values(), ids=SILENCE)
def test_what_silence_means(kind: Literal["notice", "renewed"], new: str | None, silence: str, until: str) -> None:
    """16 CFR 435.2(b), of a date told as 2026-03-01."""
    notice = first("2026-03-01", new, kind)

    assert (silence, date.fromisoformat(until)) == (notice.silence, notice.until)


def test_other_rules_say_nothing_of_silence() -> None:
    """What is not known is not told, and nothing ends on any day."""
    section = day_of("2026-03-01", settings=SETTINGS).settings.notice[1]
    notice = notice_under(section, "notice", date(2026, 3, 1), None, date(2026, 1, 30))

    assert ("", None, date(2026, 1, 30)) == (notice.silence, notice.until, notice.placed)


def test_orders_are_told_by_rule() -> None:
    """Two sections of one rule are one entry."""
    twice = SETTINGS.replace("Directive 2011/83/EU Art. 18", "16 CFR Part 435")
    day = day_of("2026-03-27", settings=twice, orders=[american(), order("A-2")])

    assert (NoticesDue("16 CFR Part 435", ("A-1", "A-2")),) == notices_due(day)


def line_at_work(**columns: Any) -> dict[str, list[Row]]:
    """A maker who has boxed one unit each working day since the year began, each of which left two working days later."""
    days = list(pd.bdate_range("2026-01-02", "2026-03-25"))
    left = [(day + pd.offsets.BDay(2)).date().isoformat() for day in days]
    gone = [
        order(f"G-{number}", market="US", status="shipped", serial=f"H8-{number}", placed="2026-01-01", closed=closed)
        for number, closed in enumerate(left)
    ]
    scans = [boxed(f"H8-{number}", day.date().isoformat(), order=f"G-{number}") for number, day in enumerate(days)]
    return {"orders": [*gone, american(placed="2026-01-02", **columns)], "boxing": scans}


def test_the_new_date_is_the_end_of_the_window_carried_to_leaving() -> None:
    """Two working days after the last day on which the unit is expected to be boxed, since that is what units take."""
    day = day_of("2026-03-27", settings=SETTINGS, told=[told("2026-02-01", "2026-03-27")], **line_at_work())
    (delay,) = delays(day)
    windows = day.once(order_windows)
    assert not isinstance(windows, Gap)
    last = windows.last[-1].astype(date)

    assert 2 == days_to_leave(day)
    assert day.calendar.add_working_days(last, 2) == delay.notice.new
    assert "consent" == delay.notice.silence


def test_without_a_forecast_there_is_no_date() -> None:
    """16 CFR 435.2(a)(1): a date needs a reasonable basis; the reason that the records have stands beside."""
    hold = {"order": "A-1", "reason": "moving house", "from": "2026-03-01"}
    day = day_of("2026-03-27", settings=SETTINGS, orders=[american()], told=[told("2026-02-01", "2026-03-27")], holds=[hold])
    (delay,) = delays(day)

    assert (None, "cancellation", date(2026, 4, 26)) == (delay.notice.new, delay.notice.silence, delay.notice.until)
    assert Hold("moving house") == delay.hold


def test_an_order_of_several_units_is_told_once() -> None:
    """Its units have one notice in common, with the date by which the last of them leaves."""
    tables = line_at_work()
    tables["orders"] += [order("A-1", line="2", market="US", locale="de", placed="2026-01-02", model="Heron 12")]
    day = day_of("2026-03-27", settings=SETTINGS, told=[told("2026-02-01", "2026-03-27")], **tables)
    (delay,) = delays(day)
    windows = day.once(order_windows)
    assert not isinstance(windows, Gap)
    first, second = (last.astype(date) for last in windows.last[-2:])
    assert first < second

    assert ("en", ("Heron 8", "Heron 12")) == (delay.locale, delay.models)
    assert day.calendar.add_working_days(second, 2) == delay.notice.new
    assert notice_of(day, len(tables["orders"]) - 1) == notice_of(day, len(tables["orders"]) - 2)


def test_who_asked_for_the_money_back_is_asked_nothing() -> None:
    """An order that refunds.csv knows is due no notice."""
    refund = {"order": "A-1", "asked": "2026-03-20", "amount": "10", "currency": "USD"}

    assert [] == due(american(), told=[told("2026-02-01", "2026-03-27")], refunds=[refund])
