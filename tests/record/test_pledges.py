"""What a draft promises when it is issued, and the promises that come back from the record."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

from bulletin.draft.expressions import key, references, spell
from bulletin.draft.reading import read_draft
from bulletin.model import (
    Basis,
    Bulletin,
    Fact,
    Judged,
    Maker,
    Name,
    Names,
    Passed,
    Promised,
    Range,
    Step,
    Value,
    Verdict,
    Window,
)
from bulletin.record.entries import pledges
from bulletin.record.entry import Entry, Pledge, Told
from bulletin.record.history import RecordedRows, read_record, verify
from bulletin.record.ledger import add
from bulletin.record.promises import read_pledges, read_promises
from bulletin.values import freeze
from tests.record.builders import entry

AS_OF = date(2026, 3, 27)
APRIL = Window(date(2026, 4, 6), date(2026, 4, 17))
EAST = timezone(timedelta(hours=9))
KINDS = {"forecast": Basis.FORECAST, "promises": Basis.COMMITMENT, "last": Basis.FORECAST}


def issued_draft(tmp_path: Path, body: str, **values: Value) -> Bulletin:
    """A bulletin whose forms are all borne out: each by the facts of its condition, whose values are given by their order."""
    path = tmp_path / "week-13.en.md"
    path.write_text(f"Title: Week 13\nAs-of: {AS_OF}\n\n{body}\n", encoding="utf-8")
    draft, problems = read_draft(path)
    assert draft is not None, problems
    judged = []
    for claim in draft.claims:
        path, told = references(claim.expression)[0].path, values[f"v{len(judged) + 1}"]
        basis = KINDS.get(path[0].text, Basis.RECORD)
        fact = Fact(key(path), spell(path), told, "unit", basis, AS_OF, "Counted.", RecordedRows({}))
        judged.append(Judged(claim, "supported", (fact,)))
    verdict = Verdict(draft, AS_OF, tuple(judged), ())
    return Bulletin(Passed(verdict), datetime(2026, 3, 27, 16, tzinfo=UTC), Maker("Fennmoor Looms"), Names())


def test_what_a_draft_promises(tmp_path: Path) -> None:
    """Windows, months, good chances and commitments are promises in the order of the draft; what was told before is none."""
    body = """We boxed {{ boxed.week }} looms. We expect to box {{ forecast.month }} this month, and the queue to be gone
{{ forecast.cleared }}. We said {{ last.forecast.cleared }} before. Again: {{ forecast.cleared }}.

[Everybody is told a date by then]{promises["PR-2"].due}. [Likely by June]{forecast.chance_cleared_by("2026-06-30") > 0.8}.
"""
    due = date(2026, 4, 3)
    told: dict[str, Value] = {
        "v1": 41, "v2": Range(200, 230), "v3": APRIL, "v4": APRIL, "v5": APRIL, "v6": due, "v7": Fraction(9, 10),
    }  # fmt: skip
    expected = [
        ("week-13.1", date(2026, 3, 31), "forecast", "forecast.month"),
        ("week-13.2", date(2026, 4, 17), "forecast", "forecast.cleared"),
        ("week-13.3", due, "commitment", 'promises["PR-2"].due'),
        ("week-13.4", date(2026, 6, 30), "forecast", 'forecast.chance_cleared_by("2026-06-30") > 0.8'),
    ]
    found = list(pledges(issued_draft(tmp_path, body, **told), Decimal("0.8")))

    assert expected == [(one.promise, one.due, one.basis, one.condition) for one in found]


def test_a_promise_has_the_words_of_its_readers(tmp_path: Path) -> None:
    """The text of a promise is the sentence that it stands in, with its facts printed."""
    body = "Hello. We expect to box {{ forecast.month }} looms, [not fewer than last month]{forecast.next_month}. Thank you."
    (first, second) = pledges(issued_draft(tmp_path, body, v1=Range(200, 230), v2=Range(9, 12)), Decimal("0.8"))

    assert "We expect to box 200–230 looms, not fewer than last month." == first.text == second.text


def with_promise(name: str = "week-13", number: int = 1, condition: str = "forecast.cleared | date", day: date = AS_OF) -> Entry:
    """An entry of one promise, as it was said of a window."""
    pledge = Pledge(f"{name}.{number}", "We expect ...", APRIL.last, "forecast", condition)
    told = (Told("de", "forecast.cleared", freeze(APRIL)), Told("en", "forecast.cleared", freeze(APRIL)))
    published = datetime(day.year, day.month, day.day, 16, tzinfo=UTC)
    return replace(entry(name, day), pledges=(pledge,), told=told, published=published)


def promises(path: Path, day: date, zone: timezone = UTC) -> list[Promised]:
    found, problems = read_promises(path, read_record(path)[0], day, zone)
    assert problems == []
    return list(found)


def test_a_promise_comes_back_with_its_facts(tmp_path: Path) -> None:
    """A promise is read with the day it was made and the facts it was made of, whatever filters printed them."""
    path = tmp_path / "issued.db"
    add(path, with_promise())
    cleared = (Step("name", "forecast"), Step("name", "cleared"))
    expected = Promised("week-13.1", AS_OF, AS_OF, "We expect ...", APRIL.last, Basis.FORECAST, ((cleared, APRIL),))

    assert [expected] == promises(path, AS_OF)


def test_conditions_and_items_are_found_under_their_keys(tmp_path: Path) -> None:
    """A fact of a comparison and an item in brackets are known by the key that the record has of them."""
    path = tmp_path / "issued.db"
    condition = 'forecast.of("Heron 8").cleared == forecast.of("Heron 8").cleared and promises["week-12.1"].due > boxed.week'
    told = (
        Told("en", "forecast.of.Heron 8.cleared", freeze(APRIL)),
        Told("en", 'promises["week-12.1"].due', freeze(APRIL.first)),
        Told("en", "boxed.total", freeze(Name("part", "P-1", "warp beam"))),
    )
    add(path, replace(with_promise(condition=condition), told=told))
    ((said),) = [one.said for one in promises(path, AS_OF)]

    assert [APRIL, APRIL.first] == [value for _, value in said]


def test_a_promise_counts_from_the_day_it_went_out(tmp_path: Path) -> None:
    """Neither before the day of its facts nor before it was published, by the maker's own clock."""
    path = tmp_path / "issued.db"
    add(path, replace(with_promise(), published=datetime(2026, 3, 30, 16, tzinfo=UTC)))

    assert [0, 0, 1] == [len(promises(path, date(2026, 3, day))) for day in (27, 29, 30)]
    assert [date(2026, 3, 31)] == [one.made for one in promises(path, date(2026, 4, 1), EAST)]


def test_a_correction_promises_instead(tmp_path: Path) -> None:
    """What a corrected bulletin promised gives way to what its correction does, also where that is nothing."""
    path = tmp_path / "issued.db"
    add(path, with_promise())
    later = replace(with_promise(), corrects=1, pledges=(), published=datetime(2026, 4, 2, 16, tzinfo=UTC))
    add(path, later)

    assert [1, 0] == [len(promises(path, day)) for day in (date(2026, 4, 1), date(2026, 4, 2))]
    assert {1: 1} == {number: len(found) for number, found in read_pledges(path)[0].items()}


def test_ten_promises_come_in_their_order(tmp_path: Path) -> None:
    """The tenth promise of a draft follows the ninth."""
    path = tmp_path / "issued.db"
    one = with_promise()
    many = tuple(replace(one.pledges[0], promise=f"week-13.{number}") for number in range(1, 12))
    add(path, replace(one, pledges=many))
    expected = [f"week-13.{number}" for number in range(1, 12)]

    assert expected == [promise.promise for promise in promises(path, AS_OF)]
    assert expected == [pledge.promise for pledge in read_pledges(path)[0][1]]


def test_a_record_of_before_is_read(tmp_path: Path) -> None:
    """A promise written with the bare form as its words, as records had it, is read like any other, and the chain still holds."""
    path = tmp_path / "issued.db"
    one = with_promise(condition="forecast.cleared")
    add(path, replace(one, pledges=(replace(one.pledges[0], text="{{ forecast.cleared }}"),)))
    ((told),) = [promise.said for promise in promises(path, AS_OF)]

    assert [APRIL] == [value for _, value in told]
    assert [] == verify(path)


def test_what_cannot_be_read_is_told(tmp_path: Path) -> None:
    """A day that is none, in a record that somebody altered, is a problem of the record."""
    path = tmp_path / "issued.db"
    add(path, with_promise())
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE promise SET due = 'someday'")
    found, problems = read_promises(path, read_record(path)[0], AS_OF, UTC)

    assert ((), ["record-unreadable"]) == (found, [problem.rule for problem in problems])
    assert ["record-unreadable"] == [problem.rule for problem in read_pledges(path)[1]]


def test_nothing_on_record_promises_nothing(tmp_path: Path) -> None:
    """Without a ledger there is neither a promise nor a problem."""
    assert ((), []) == read_promises(tmp_path / "issued.db", (), AS_OF, UTC)
    assert ({}, []) == read_pledges(tmp_path / "issued.db")
