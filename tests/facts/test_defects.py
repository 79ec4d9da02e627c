"""The `defects` family, from small makers' tables."""

from datetime import date
from typing import Any

import pytest

from bulletin.model import Fact, Name
from tests.facts.builders import Row, boxed, day_of, find, value, why

DAY = "2026-03-27"


def defect(number: str, **columns: Any) -> Row:
    usual = {"title": f"Crack {number}", "severity": "function", "opened": "2026-03-02", "state": "open", "traced": "complete"}
    return {"defect": number, **usual, **columns}


def affected(number: str, serial: int, **columns: Any) -> Row:
    return {"defect": number, "serial": f"H8-{serial}", **columns}


def maker(defects: list[Row], touched: list[Row], **tables: list[Row]) -> dict[str, list[Row]]:
    """Twenty boxed units, so that affected ones can be named."""
    return {
        "boxing": [boxed(f"H8-{number}", "2026-03-01") for number in range(20)],
        "defects": defects,
        "affected": touched,
        **tables,
    }


def test_open_ones_are_open_or_contained() -> None:
    """Fixed and closed defects are not open; one that closes later still is."""
    states = ("open", "contained", "fixed", "closed")
    found = [
        defect(f"D-{number}", state=state, severity="safety" if number < 2 else "cosmetic") for number, state in enumerate(states)
    ]
    day = day_of(DAY, **maker([*found, defect("D-9", state="closed", closed="2026-03-28")], []))

    actual = [value(day, f"defects.{key}") for key in ("open", "open_safety", "D-9.state")]

    assert [3, 2, "open"] == actual


def test_a_defect_of_a_later_day_is_not_known_yet() -> None:
    """Neither the defect nor its units count before the day it was opened."""
    day = day_of(DAY, **maker([defect("D-1"), defect("D-2", opened="2026-03-28")], [affected("D-1", 1), affected("D-2", 2)]))

    actual = [value(day, f"defects.{key}") for key in ("open", "affected")]

    assert [1, 1] == actual
    assert "there is no such item" == why(day, "defects.D-2.affected")


@pytest.mark.parametrize(("closed", "count"), [("2026-03-22", 0), ("2026-03-23", 1), ("2026-03-27", 1), ("2026-03-28", 0)])
def test_closed_this_week_is_since_monday(closed: str, count: int) -> None:
    """27 March 2026 is a Friday; the week began on Monday the 23rd."""
    actual = value(day_of(DAY, **maker([defect("D-1", state="closed", closed=closed)], [])), "defects.closed_week")

    assert count == actual


def test_remedies_are_counted_by_their_day() -> None:
    """A remedy of a later day is none yet, a kit that was sent is no remedy."""
    touched = [
        affected("D-1", 1, remedied="2026-03-20", address_confirmed="2026-03-10"),
        affected("D-1", 2, remedied="2026-03-28", address_confirmed="2026-03-11"),
        affected("D-1", 3, kit_sent="2026-03-20"),
        affected("D-2", 1, remedied="2026-03-20"),
    ]
    day = day_of(DAY, **maker([defect("D-1"), defect("D-2")], touched))
    expected = [3, 1, 2, 2, 4, 2, 2]

    keys = ("D-1.affected", "D-1.remedied", "D-1.unremedied", "D-1.address_confirmed", "affected", "remedied", "unremedied")
    actual = [value(day, f"defects.{key}") for key in keys]

    assert expected == actual


@pytest.mark.parametrize("traced", ["no", "partly", ""])
def test_none_found_is_not_none_before_tracing_is_complete(traced: str) -> None:
    """Without complete tracing no affected unit, and none left to remedy, are not known."""
    found = [defect("D-1", traced=traced), defect("D-2", traced=traced)]
    day = day_of(DAY, **maker(found, [affected("D-2", 1, remedied="2026-03-20")]))

    actual = {why(day, f"defects.{key}") for key in ("D-1.affected", "D-1.unremedied", "D-2.unremedied", "unremedied")}

    assert {"not known: tracing is not complete"} == actual
    assert [0, 1, 1] == [value(day, f"defects.{key}") for key in ("D-1.remedied", "D-2.affected", "affected")]


def test_none_is_none_once_tracing_is_complete() -> None:
    """A completely traced defect without rows has affected nobody."""
    day = day_of(DAY, **maker([defect("D-1")], []))

    actual = [value(day, f"defects.{key}") for key in ("D-1.affected", "D-1.unremedied", "affected")]

    assert [0, 0, 0] == actual


def test_kits_are_usable_stock_of_the_remedy_part() -> None:
    """What stands in inspection is no kit; a defect without a remedy part has no such fact."""
    stock = [
        {"part": "kit", "quantity": count, "state": state, "counted": DAY}
        for count, state in ((12, "usable"), (30, "inspection"))
    ]
    day = day_of(DAY, **maker([defect("D-1", remedy_part="kit"), defect("D-2")], [], stock=stock))

    actual = value(day, "defects.D-1.kits")

    assert 12 == actual
    assert "the defect names no part that remedies it" == why(day, "defects.D-2.kits")


def test_kits_that_nobody_counted_are_not_none() -> None:
    """Other parts were counted, the kit never was: how many there are is not known."""
    stock = [{"part": "hook", "quantity": 3, "state": "usable", "counted": DAY}]
    day = day_of(DAY, **maker([defect("D-1", remedy_part="kit")], [], stock=stock))

    assert "no stock of it was counted up to this day" == why(day, "defects.D-1.kits")


def test_columns_of_a_defect_are_facts() -> None:
    """Title, severity, dates and texts of the row; an empty cell and a missing column say so."""
    day = day_of(DAY, **maker([defect("D-1", hazard="may pinch"), defect("D-2")], []))
    expected = [Name("defect", "D-1", "Crack D-1"), "function", date(2026, 3, 2), "may pinch", "complete"]

    actual = [value(day, f"defects.D-1.{key}") for key in ("title", "severity", "opened", "hazard", "traced")]

    assert expected == actual
    assert "defects.csv leaves hazard empty" == why(day, "defects.D-2.hazard")
    assert "defects.csv has no column do_now" == why(day, "defects.D-2.do_now")


def test_without_affected_units_on_record_they_cannot_be_counted() -> None:
    """A missing affected.csv is no zero."""
    actual = why(day_of(DAY, defects=[defect("D-1")]), "defects.D-1.affected")

    assert "needs affected.csv, which the data folder lacks" == actual


def test_rows_are_those_of_the_defect() -> None:
    """Counts name the lines of affected.csv that they count."""
    touched = [affected("D-1", 1), affected("D-2", 2), affected("D-1", 3, remedied="2026-03-20")]
    day = day_of(DAY, **maker([defect("D-1"), defect("D-2")], touched))
    expected = [{"affected.csv": [2, 4]}, {"affected.csv": [2]}, {"defects.csv": [2, 3]}]

    facts = [find(day, f"defects.{key}") for key in ("D-1.affected", "D-1.unremedied", "open")]
    actual = [fact.rows.lines() for fact in facts if isinstance(fact, Fact)]

    assert expected == actual
