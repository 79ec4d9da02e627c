"""Notices of delay from a maker's folder to the disk, as somebody at a terminal meets them."""

from __future__ import annotations

import csv
import email
import email.policy
import re
import shutil
import sqlite3
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from bulletin import cli
from bulletin.delivery import lay_out
from bulletin.model import Document
from tests.facts.builders import Row, boxed, folder_of, order, write_table

FRIDAY = ("--published", "2026-03-27T16:00:00+01:00")
SETTINGS = """
[[notice]]
markets = ["US"]
rule = "16 CFR Part 435"
texts = "counsel.toml"
"""
COUNSEL = """[sentences]
choice = { en = "Counsel says: wait or cancel." }
"""
PEOPLE = {"A-1": ("Ilvy Moorland", "ilvy@reader.example"), "A-2": ("Tam Fenwick", "tam@reader.example")}
NOTICES = Path("week") / "for-the-maker" / "notices"


def told(number: str, when: str, due: str, kind: str = "order", **answer: str) -> Row:
    return {"order": number, "told": when, "due": due, "kind": kind, "answer": "", "answered": "", **answer}


TOLD = [
    told("A-1", "2026-02-01", "2026-03-27"),
    told("A-2", "2026-02-01", "2026-03-28"),
    told("A-3", "2026-01-05", "2026-02-01"),
    told("A-3", "2026-02-01", "2026-04-01", "notice"),
]
"""Due on Friday; due a day later; told of 59 days in February, and never answered."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A maker with three orders from the United States, one of them due a notice and one to be paid back."""
    american: dict[str, Any] = {"market": "US", "locale": "en", "currency": "USD", "amount": "890.00"}
    made = folder_of(
        SETTINGS,
        orders=[order(number, **american) for number in ("A-1", "A-2", "A-3")],
        boxing=[boxed("H8-1", "2026-03-26"), boxed("H8-2", "2026-03-27")],
        told=TOLD,
        contacts=[{"order": number, "name": name, "email": mail, "bulletins": "yes"} for number, (name, mail) in PEOPLE.items()],
    )
    (made / "counsel.toml").write_text(COUNSEL, encoding="utf-8")
    (made / "drafts").mkdir()
    draft = "Title: A week\nAs-of: 2026-03-27\nReaders: all\n\nWe boxed {{ boxed.week | units }} this week.\n"
    (made / "drafts" / "week.en.md").write_text(draft, encoding="utf-8")
    shutil.move(made, tmp_path / "maker")
    return tmp_path / "maker"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cli.app, [str(argument) for argument in arguments])


def rows(file: Path) -> list[dict[str, str]]:
    with file.open(encoding="utf-8", newline="") as text:
        return list(csv.DictReader(text))


def test_building_writes_what_is_due(folder: Path) -> None:
    """The list, the rows to enter, one mail to the one customer whose date has come, in the words of the maker's counsel."""
    result = run("build", "week", "--data", folder, *FRIDAY)
    written = folder / "out" / NOTICES
    mail = email.message_from_bytes((written / "mails" / "A-1.eml").read_bytes(), policy=email.policy.default)

    assert result.exit_code == 0
    assert ["A-1.eml"] == [path.name for path in (written / "mails").iterdir()]
    assert "Ilvy Moorland <ilvy@reader.example>" == mail["To"]
    assert "Counsel says: wait or cancel." in mail.as_string()
    assert [told("A-1", "2026-03-27", "", "notice")] == rows(written / "told.csv")
    assert [{"order": "A-3", "asked": "2026-03-03", "paid": "", "amount": "890.00", "currency": "USD"}] == rows(
        written / "refunds.csv"
    )
    assert f"{written / 'mails'}\n" in result.stdout
    assert "told.csv:1:1: warn: under 16 CFR Part 435, 1 orders are to be paid back" in result.stderr


def test_what_is_written_can_be_entered(folder: Path) -> None:
    """With the written rows added to told.csv and refunds.csv nothing is due any more, and the older mail is taken away."""
    run("build", "week", "--data", folder, *FRIDAY)
    written = folder / "out" / NOTICES
    write_table(folder / "told.csv", [*TOLD, *rows(written / "told.csv")], [])
    write_table(folder / "refunds.csv", [{**row, "paid": "2026-03-27"} for row in rows(written / "refunds.csv")], [])

    again = run("build", "week", "--data", folder, *FRIDAY)

    assert again.exit_code == 0
    assert [] == list((written / "mails").iterdir())
    assert ([], []) == (rows(written / "told.csv"), rows(written / "refunds.csv"))
    assert "[refund-due]" not in again.stderr


def test_nobody_is_named_in_public(folder: Path) -> None:
    """Names, addresses and orders stand in the folder for the maker alone."""
    run("build", "week", "--data", folder, *FRIDAY)
    public = [path for path in (folder / "out").rglob("*") if path.is_file() and "for-the-maker" not in path.parts]
    private = re.compile(r"Moorland|Fenwick|@reader|A-1")

    assert public
    assert [] == [path for path in public if private.search(path.read_text(encoding="utf-8"))]


def test_notices_are_not_put_on_record(folder: Path) -> None:
    """They name customers and are soon out of date: issuing writes them, the record holds the bulletin's documents alone."""
    issued = run("issue", "week", "--data", folder, *FRIDAY)
    with sqlite3.connect(folder / "issued.db") as record:
        everything = "\n".join(record.iterdump())

    assert issued.exit_code == 0
    assert (folder / "out" / NOTICES / "mails" / "A-1.eml").is_file()
    assert "evidence.json" in everything
    assert "notices/" not in everything


def test_a_maker_without_such_a_rule_gets_no_list(folder: Path) -> None:
    """Where no market has a rule, nothing is written of notices."""
    settings = (folder / "bulletin.toml").read_text(encoding="utf-8")
    (folder / "bulletin.toml").write_text(settings.replace(SETTINGS, ""), encoding="utf-8")

    assert run("build", "week", "--data", folder, *FRIDAY).exit_code == 0
    assert not (folder / "out" / NOTICES).exists()


def test_support_is_told_what_to_enter(folder: Path) -> None:
    """The text of an order that is due a notice holds it, and the row for told.csv stands on standard error."""
    due = run("order", "A-1", "--data", folder, *FRIDAY)
    not_due = run("order", "A-2", "--data", folder, *FRIDAY)

    assert "Counsel says: wait or cancel." in due.stdout
    assert "add this row to told.csv: A-1,2026-03-27,,notice,,\n" in due.stderr
    assert "Counsel says" not in not_due.stdout
    assert "told.csv" not in not_due.stderr


def test_a_bad_text_stops_every_command(folder: Path) -> None:
    """A fault in the maker's texts is told at its place, and nothing is written."""
    (folder / "counsel.toml").write_text('[sentences]\nlate = { en = "By {dy}." }\n', encoding="utf-8")

    result = run("build", "week", "--data", folder, *FRIDAY)

    assert result.exit_code == 2
    assert "counsel.toml:2:10: error:" in result.stderr
    assert not (folder / "out").exists()


def test_a_delivery_that_fails_leaves_the_older_one(folder: Path, tmp_path: Path) -> None:
    """Where one document can't be written none is put, and no mail of an earlier delivery is taken away."""
    mails = tmp_path / "out" / "week" / "mails"
    mails.mkdir(parents=True)
    (mails / "old.eml").write_bytes(b"old")
    (tmp_path / "out" / "way").write_bytes(b"in the way")
    documents = [Document("week/mails/new.eml", "message/rfc822", b"new"), Document("way/list.html", "text/html", b"")]

    delivery, problems = lay_out(documents, tmp_path / "out", swept="week/mails")

    assert delivery is None
    assert ["out-unwritable"] == [problem.rule for problem in problems]
    assert ["old.eml"] == [path.name for path in mails.iterdir()]


def test_what_an_interrupted_delivery_left_is_swept(tmp_path: Path) -> None:
    """Mails that were laid out and never put are gone after the next delivery, as are those that are no longer due."""
    first = [Document(f"mails/{name}.eml", "message/rfc822", b"") for name in "ab"]
    put, _ = lay_out(first, tmp_path, swept="mails")
    assert put is not None
    put.put()
    lay_out([Document("mails/c.eml", "message/rfc822", b"")], tmp_path, swept="mails")

    last, _ = lay_out(first[:1], tmp_path, swept="mails")
    assert last is not None
    last.put()

    assert ["a.eml"] == sorted(path.name for path in (tmp_path / "mails").iterdir())


@pytest.mark.parametrize(("days", "expected"), [(29, 0), (30, 1)])
def test_thirty_days_without_a_date(folder: Path, days: int, expected: int) -> None:
    """16 CFR 435.2(a)(1): an order that was told no date is due a notice thirty days after it was placed."""
    placed = date(2026, 3, 27) - timedelta(days)
    orders = [order("A-1", placed=placed.isoformat(), market="US", locale="en", currency="USD")]
    write_table(folder / "orders.csv", orders, [])
    for name in ("told", "contacts"):
        (folder / f"{name}.csv").unlink()

    run("build", "week", "--data", folder, *FRIDAY)

    assert expected == len(rows(folder / "out" / NOTICES / "told.csv"))
