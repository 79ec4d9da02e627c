"""The `promises` and `refunds` families, from small makers' tables."""

from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from bulletin.model import Basis, Fact
from tests.facts.builders import Row, day_of, find, order, value, why

DAY = "2026-03-27"


def promise(number: str, due: str, state: str = "open", **columns: Any) -> Row:
    return {"promise": number, "made": "2026-02-02", "text": f"do {number}", "due": due, "state": state, **columns}


@pytest.mark.parametrize(
    ("row", "state", "late_by"),
    [
        (promise("P", "2026-03-20", "kept", done="2026-03-20"), "kept", 0),
        (promise("P", "2026-03-20", "kept", done="2026-03-23"), "late", 3),
        (promise("P", "2026-03-20"), "late", 7),
        (promise("P", "2026-03-27"), "open", "it is not due yet"),
        (promise("P", "2026-03-20", "kept", done="2026-03-28"), "late", 7),
        (promise("P", "2026-03-30", "kept", done="2026-03-28"), "open", "it is not due yet"),
        (promise("P", "2026-03-20", "withdrawn", withdrawn="2026-03-10"), "withdrawn", "it was withdrawn"),
        (promise("P", "2026-03-20", "withdrawn", withdrawn="2026-03-28"), "late", 7),
    ],
)
def test_how_a_promise_stands(row: Row, state: str, late_by: int | str) -> None:
    """Done on its day is kept, done after it or open past it is late; what happens later has not happened."""
    day = day_of(DAY, promises=[row])

    actual = (value(day, "promises.P.state"), (why if isinstance(late_by, str) else value)(day, "promises.P.late_by"))

    assert (state, late_by) == actual


def several() -> list[Row]:
    """One kept, one done late, one late and open, one still due, one withdrawn."""
    return [
        promise("P-1", "2026-03-10", "kept", done="2026-03-09"),
        promise("P-2", "2026-03-10", "kept", done="2026-03-13"),
        promise("P-3", "2026-03-20"),
        promise("P-4", "2026-04-10"),
        promise("P-5", "2026-03-01", "withdrawn", withdrawn="2026-03-20"),
        promise("P-6", "2026-04-10", made="2026-03-28"),
    ]


def test_promises_are_counted() -> None:
    """Open ones include the late ones, withdrawn ones count neither way, later ones were not made yet."""
    expected = [2, 1, 2, Fraction(1, 3), Fraction(3)]

    actual = [value(day_of(DAY, promises=several()), f"promises.{key}") for key in ("open", "kept", "late", "kept_share", "slip")]

    assert expected == actual


def test_only_a_promise_still_due_commits() -> None:
    """Its day and words are a commitment until it is kept, late or withdrawn."""
    day = day_of(DAY, promises=several())
    expected = {"P-1": Basis.RECORD, "P-3": Basis.RECORD, "P-4": Basis.COMMITMENT, "P-5": Basis.RECORD}

    actual = {
        number: fact.basis
        for number in expected
        for key in ("due", "text")
        if isinstance(fact := find(day, f"promises.{number}.{key}"), Fact)
    }

    assert expected == actual
    assert date(2026, 4, 10) == value(day, "promises.P-4.due")


def test_nothing_due_has_no_share() -> None:
    """Where nothing was kept or late there is no share and no slip."""
    day = day_of(DAY, promises=[promise("P-4", "2026-04-10")])

    actual = {why(day, f"promises.{key}") for key in ("kept_share", "slip")}

    assert {"no promise was kept or late yet"} == actual


@pytest.mark.parametrize(("asked", "late"), [("2026-03-17", 1), ("2026-03-18", 0)])
def test_a_refund_is_late_after_seven_working_days(asked: str, late: int) -> None:
    """From Wednesday the 18th to Friday the 27th there are seven working days, from the 17th on more."""
    day = day_of(DAY, orders=[order("A-1")], refunds=[refund("A-1", asked)])

    actual = [value(day, f"refunds.{key}") for key in ("open", "late")]

    assert [1, late] == actual


def refund(number: str, asked: str, **columns: Any) -> Row:
    return {"order": number, "asked": asked, "amount": "10.00", "currency": "EUR", **columns}


def test_paid_refunds_are_closed() -> None:
    """A refund that is paid later is open, one that was asked for later does not exist."""
    rows = [
        refund("A-1", "2026-01-12", paid="2026-03-27"),
        refund("A-2", "2026-01-12", paid="2026-03-28"),
        refund("A-3", "2026-03-28"),
    ]
    day = day_of(DAY, orders=[order(f"A-{number}") for number in (1, 2, 3)], refunds=rows)

    actual = [value(day, f"refunds.{key}") for key in ("open", "late")]

    assert [1, 1] == actual
