"""The `changes` family, from small makers' tables."""

from fractions import Fraction
from typing import Any

import pytest

from bulletin.model import Basis, Fact
from tests.facts.builders import Row, boxed, day_of, find, reopened, value, why

DAY = "2026-03-27"


def change(number: str = "C-1", **columns: Any) -> Row:
    return {"change": number, "title": "steel pawl", "model": "Heron 8", "state": "released", **columns}


def maker(changes: list[Row], units: int = 110, touched: tuple[int, ...] = (), **defect: Any) -> dict[str, list[Row]]:
    """Heron 8 H8-1 to H8-110, one a day from the first of a month on, and some of them affected by D-1."""
    scans = [boxed(f"H8-{number}", f"2026-0{1 + number // 60}-{1 + number % 25:02}") for number in range(1, units + 1)]
    known = {
        "defect": "D-1",
        "title": "pawl",
        "severity": "function",
        "opened": "2026-01-02",
        "state": "open",
        "traced": "complete",
    }
    affected = [{"defect": "D-1", "serial": f"H8-{number}"} for number in touched]
    return {"boxing": scans, "changes": changes, "defects": [known | defect], "affected": affected}


def test_serials_count_in_natural_order() -> None:
    """H8-100 comes after H8-99: H8-99 to H8-109 are built with the change, H8-110 stands open."""
    tables = maker([change(from_serial="H8-99")])
    tables["boxing"] += [boxed("H8-200", "2026-03-20", model="Heron 12"), reopened("H8-110", "2026-03-26")]

    actual = value(day_of(DAY, **tables), "changes.C-1.boxed_with")

    assert 11 == actual


@pytest.mark.parametrize(("from_serial", "expected"), [("H8-7", 3), ("H8-07", 3), ("H8-007", 3), ("H8-8", 1), ("H8-08", 1)])
def test_serials_that_differ_in_leading_zeros_are_the_same_number(from_serial: str, expected: int) -> None:
    """Who begins with 7 means 07 too, as people count: neither comes before the other."""
    scans = [boxed(serial, "2026-03-02") for serial in ("H8-6", "H8-7", "H8-07", "H8-09")]
    day = day_of(DAY, boxing=scans, changes=[change(from_serial=from_serial)])

    assert expected == value(day, "changes.C-1.boxed_with")


def test_without_a_serial_the_day_counts() -> None:
    """Units first boxed on or after the day are built with the change."""
    scans = [boxed("H8-1", "2026-03-01"), boxed("H8-2", "2026-03-02"), boxed("H8-3", "2026-03-03"), boxed("H8-1", "2026-03-09")]
    day = day_of(DAY, boxing=scans, changes=[change(from_date="2026-03-02"), change("C-2")])

    actual = value(day, "changes.C-1.boxed_with")

    assert 2 == actual
    assert "the row gives neither from_serial nor from_date" == why(day, "changes.C-2.boxed_with")


@pytest.mark.parametrize(("state", "basis"), [("planned", Basis.PLAN), ("released", Basis.RECORD)])
def test_a_planned_change_is_a_plan(state: str, basis: Basis) -> None:
    """What is told of a planned change is no record, its title neither."""
    day = day_of(DAY, **maker([change(state=state, from_serial="H8-99")]))

    actual = {fact.basis for key in ("state", "boxed_with", "title") if isinstance(fact := find(day, f"changes.C-1.{key}"), Fact)}

    assert {basis} == actual


def test_rates_are_affected_units_a_hundred() -> None:
    """12 of the 60 units before and 1 of the 50 with the change are affected: the rate fell beyond chance (p = 0.003)."""
    touched = (*range(1, 13), 70)
    day = day_of(DAY, **maker([change(from_serial="H8-61", defect="D-1")], touched=touched))
    expected = [Fraction(2), Fraction(20), True]

    actual = [value(day, f"changes.C-1.{key}") for key in ("rate", "rate_before", "rate_fell")]

    assert expected == actual


def test_a_smaller_rate_alone_is_no_fall() -> None:
    """2 of 60 before and 1 of 50 after may well be chance."""
    day = day_of(DAY, **maker([change(from_serial="H8-61", defect="D-1")], touched=(3, 4, 70)))

    actual = value(day, "changes.C-1.rate_fell")

    assert actual is False


def test_an_untraced_defect_shows_no_fall() -> None:
    """None found with the change is not none as long as tracing goes on."""
    day = day_of(DAY, **maker([change(from_serial="H8-61", defect="D-1")], touched=(3, 4), traced="partly"))

    actual = {why(day, f"changes.C-1.{key}") for key in ("rate", "rate_fell")}

    assert {"not known: tracing of the defect is not complete"} == actual
    assert Fraction(10, 3) == value(day, "changes.C-1.rate_before")


@pytest.mark.parametrize(
    ("columns", "reason"),
    [
        ({"from_serial": "H8-200", "defect": "D-1"}, "no unit with the change stands boxed"),
        ({"from_serial": "H8-50"}, "the row names no defect that is known on the day"),
        ({"defect": "D-1"}, "the row gives neither from_serial nor from_date"),
    ],
)
def test_a_rate_of_nothing_is_absent(columns: dict[str, str], reason: str) -> None:
    """Without units, a defect or a beginning there is no rate, and nothing is divided by zero."""
    actual = why(day_of(DAY, **maker([change(**columns)])), "changes.C-1.rate")

    assert reason == actual
