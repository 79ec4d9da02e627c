"""The ledger: whole or not at all, chained, and it tells when anything was altered."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from bulletin.record import ledger as ledger_module
from bulletin.record.history import last_before, read_facts, read_record, verify
from bulletin.record.ledger import add
from tests.record.builders import VALUES, Entry, entry


def issue(path: Path, *entries: Entry) -> list[int | None]:
    return [add(path, one)[0] for one in entries]


def test_a_bulletin_comes_back_as_it_went_in(tmp_path: Path) -> None:
    """Every type of value is read back exactly, with its unit, basis and number of rows."""
    path = tmp_path / "issued.db"
    issue(path, entry())

    facts, problems = read_facts(path, 1)

    assert problems == []
    assert dict(enumerate(VALUES)) == {int(key.split(".")[1]): one.value for key, one in facts.items()}
    assert {"boxing.csv": 4} == facts["fact.0"].rows.counts()


def test_numbers_count_up_and_everything_verifies(tmp_path: Path) -> None:
    """Bulletins are numbered from 1 and an untouched record has no fault."""
    path = tmp_path / "issued.db"

    numbers = issue(path, entry(), entry("2026-14", date(2026, 4, 3)))

    assert [1, 2] == numbers
    assert [] == verify(path)


def test_a_name_is_issued_once(tmp_path: Path) -> None:
    """A second bulletin of the same name is refused unless it says what it corrects."""
    path = tmp_path / "issued.db"
    issue(path, entry())

    refused, problems = add(path, entry())
    corrected, _ = add(path, replace(entry(), corrects=1))
    nothing, unknown = add(path, replace(entry(), corrects=9))

    assert (None, ["already-issued"]) == (refused, [problem.rule for problem in problems])
    assert 2 == corrected
    assert (None, ["nothing-to-correct"]) == (nothing, [problem.rule for problem in unknown])


def test_last_is_the_newest_of_an_earlier_day_or_its_correction(tmp_path: Path) -> None:
    """`last` skips bulletins of the same day and takes a correction instead of what it corrects."""
    path = tmp_path / "issued.db"
    issue(path, entry("2026-12", date(2026, 3, 20)), entry(), replace(entry("2026-12", date(2026, 3, 20)), corrects=1))

    issued, _ = read_record(path)
    last = last_before(issued, date(2026, 3, 27))

    assert last is not None
    assert (3, 1) == (last.number, last.corrects)
    assert last_before(issued, date(2026, 3, 20)) is None


ALTERATIONS = {
    "a fact's value": "UPDATE fact SET value = '[\"int\",42]' WHERE key = 'fact.1'",
    "a fact gone": "DELETE FROM fact WHERE key = 'fact.1'",
    "the day": "UPDATE bulletin SET as_of = '2026-03-28' WHERE number = 1",
    "a promise": "UPDATE promise SET due = '2026-12-31'",
    "a document": "UPDATE content SET bytes = x'00'",
    "a draft gone": "PRAGMA foreign_keys = OFF; DELETE FROM content",
    "the first bulletin": "PRAGMA foreign_keys = OFF; DELETE FROM bulletin WHERE number = 1",
}


@pytest.mark.parametrize("statement", ALTERATIONS.values(), ids=ALTERATIONS.keys())
def test_an_alteration_is_found(tmp_path: Path, statement: str) -> None:
    """Whatever is changed or removed later, verifying names the bulletin."""
    path = tmp_path / "issued.db"
    issue(path, entry(), entry("2026-14", date(2026, 4, 3)))
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.executescript(statement)

    assert {"record-altered"} == {problem.rule for problem in verify(path)}


@pytest.mark.parametrize(
    "statement", ["UPDATE state SET state = '{}'", "DELETE FROM state WHERE \"order\" = 'F-1'"], ids=["changed", "gone"]
)
def test_an_altered_orders_file_is_found(tmp_path: Path, statement: str) -> None:
    """A changed or missing state of an order breaks the digest that the ledger names the file by."""
    path = tmp_path / "issued.db"
    issue(path, entry())
    with closing(sqlite3.connect(tmp_path / "issued" / "1.db")) as connection, connection:
        connection.execute(statement)

    assert ["record-altered"] == [problem.rule for problem in verify(path)]


def test_a_person_can_be_erased(tmp_path: Path) -> None:
    """Emptying the state and salt of one order keeps the chain whole."""
    path = tmp_path / "issued.db"
    issue(path, entry())
    with closing(sqlite3.connect(tmp_path / "issued" / "1.db")) as connection, connection:
        connection.execute("UPDATE state SET state = NULL, salt = NULL WHERE \"order\" = 'F-1'")

    assert [] == verify(path)


class PowerCutError(Exception):
    """The power goes."""


@pytest.mark.parametrize("moment", ["write_orders", "insert", "bulletin_digest"])
def test_a_crash_leaves_all_or_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, moment: str) -> None:
    """After a crash at any step the earlier bulletin stands alone, and the next one takes the number and sweeps the files."""
    path = tmp_path / "issued.db"
    issue(path, entry())
    with monkeypatch.context() as patch:
        patch.setattr(ledger_module, moment, lambda *_: (_ for _ in ()).throw(PowerCutError()))
        with pytest.raises(PowerCutError):
            add(path, entry("2026-14", date(2026, 4, 3)))
    (tmp_path / "issued" / "7.db.part").write_bytes(b"half")

    assert [1] == [bulletin.number for bulletin in read_record(path)[0]]
    assert [2] == issue(path, entry("2026-15", date(2026, 4, 10)))
    assert ["1.db", "2.db"] == sorted(file.name for file in (tmp_path / "issued").iterdir())
    assert [] == verify(path)


def test_another_programs_file_is_left_alone(tmp_path: Path) -> None:
    """A database that is no ledger, or no database at all, is a problem and not written to."""
    path = tmp_path / "issued.db"
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("CREATE TABLE theirs (x)")
    text = tmp_path / "text.db"
    text.write_text("not a database, but a long enough text to look like one")

    assert ["record-unreadable"] == [problem.rule for problem in add(path, entry())[1]]
    assert ["record-unreadable"] == [problem.rule for problem in read_record(text)[1]]


def test_another_form_is_refused(tmp_path: Path) -> None:
    """A ledger that a later version wrote is not read as if it were of this one."""
    path = tmp_path / "issued.db"
    issue(path, entry())
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("PRAGMA user_version = 99")

    assert ["record-unreadable"] == [problem.rule for problem in read_record(path)[1]]


def test_altered_values_are_told_not_raised(tmp_path: Path) -> None:
    """A day or a value that can't be read any more is a problem of the record."""
    path = tmp_path / "issued.db"
    issue(path, entry())
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE fact SET value = '[\"date\",\"someday\"]'")

    assert ["record-unreadable"] == [problem.rule for problem in read_facts(path, 1)[1]]


def test_only_the_newest_of_a_name_is_corrected(tmp_path: Path) -> None:
    """A correction names the newest bulletin of its own name, no other one."""
    path = tmp_path / "issued.db"
    issue(path, entry("2026-12", date(2026, 3, 20)), entry())

    assert ["nothing-to-correct"] == [problem.rule for problem in add(path, replace(entry(), corrects=1))[1]]
    assert (3, []) == add(path, replace(entry(), corrects=2))
