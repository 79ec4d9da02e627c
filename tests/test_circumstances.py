"""What a draft is judged with: what was told before and corrected since, out of a small folder with a record."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from bulletin import pipeline
from bulletin.workshop import Clock, open_workshop

ORDERS = "order,placed,model,market,locale,currency,amount,status\nF-1,2026-03-02,Heron 8,AT,en,EUR,890.00,waiting\n"
BOXED = "serial,model,event,at\n"
REFUND = "order,asked,paid,amount,currency\nF-1,2026-03-02,,890.00,EUR\n"
LETTER = "Title: News\nAs-of: {0}\n\nWe boxed {{{{ boxed.week }}}} looms this week.{1}\n"
EVENING, NEXT_DAY = datetime(2026, 3, 20, 18, tzinfo=UTC), datetime(2026, 3, 21, 9, tzinfo=UTC)


def boxing(folder: Path, *days: int) -> None:
    """One loom boxed on each of these days of March."""
    rows = [f"H{number},Heron 8,boxed,2026-03-{day}T09:00:00Z\n" for number, day in enumerate(days, 1)]
    (folder / "boxing.csv").write_text(BOXED + "".join(rows), encoding="utf-8")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A maker who boxed three looms in week 12."""
    (tmp_path / "bulletin.toml").write_text('[maker]\nname = "Fennmoor Looms"\ntime_zone = "UTC"\n', encoding="utf-8")
    (tmp_path / "orders.csv").write_text(ORDERS, encoding="utf-8")
    boxing(tmp_path, 18, 19, 20)
    (tmp_path / "drafts").mkdir()
    return tmp_path


def letter(folder: Path, name: str, day: date, more: str = "") -> None:
    (folder / "drafts" / f"{name}.en.md").write_text(LETTER.format(day, more), encoding="utf-8")


def issue(folder: Path, published: datetime, more: str = "") -> None:
    """Put week 12 on record, with more said in it."""
    letter(folder, "week-12", date(2026, 3, 20), more)
    workshop, _ = open_workshop(folder)
    assert workshop is not None
    built, receipt, problems = pipeline.issue(workshop, "week-12", Clock(published), out=folder / "out", corrects=None)

    assert receipt, (built.findings, problems)


def unmentioned(folder: Path, more: str = "", day: date = date(2026, 3, 27)) -> list[str]:
    """What the letter of a later day leaves unmentioned."""
    letter(folder, "later", day, more)
    workshop, _ = open_workshop(folder)
    assert workshop is not None
    built, _ = pipeline.check(workshop, "later", Clock(datetime(day.year, day.month, day.day, 18, tzinfo=UTC)))
    return [finding.words for finding in built.findings if finding.rule == "unmentioned"]


def test_a_figure_that_was_corrected_must_be_told(folder: Path) -> None:
    """A unit of a told week that the tables no longer hold is news, until the draft names the recorded figure."""
    issue(folder, EVENING)
    boxing(folder, 18, 20, 26)

    assert ["last.boxed.week"] == unmentioned(folder)
    assert [] == unmentioned(folder, "\n\nLast week we told you [3]{last.boxed.week}; it was {{ boxed.last_week }}.")


def test_scans_of_the_same_evening_correct_nothing(folder: Path) -> None:
    """What came in after the letter on the day it was told of makes a running count grow."""
    issue(folder, EVENING)
    boxing(folder, 18, 19, 20, 20, 26)

    assert [] == unmentioned(folder)


def test_a_count_of_days_that_were_over_may_not_even_grow(folder: Path) -> None:
    """A letter published on a later day than it tells of had all the rows of that day."""
    issue(folder, NEXT_DAY)
    boxing(folder, 18, 19, 20, 20, 26)

    assert ["last.boxed.week"] == unmentioned(folder)


def test_untouched_tables_leave_nothing_to_say(folder: Path) -> None:
    """New rows of later days change nothing that was told."""
    issue(folder, NEXT_DAY)
    boxing(folder, 18, 19, 20, 23, 26)

    assert [] == unmentioned(folder)


def test_what_a_bulletin_on_record_told_is_remembered(folder: Path) -> None:
    """A late refund told last week need not be told again until it changes or 28 days have passed."""
    (folder / "refunds.csv").write_text(REFUND, encoding="utf-8")
    issue(folder, EVENING, " [One refund]{refunds.late} is late.")

    assert [] == unmentioned(folder)
    assert ["refunds.late"] == unmentioned(folder, day=date(2026, 4, 18))

    (folder / "refunds.csv").write_text(REFUND + "F-1,2026-03-03,,5.00,EUR\n", encoding="utf-8")

    assert ["refunds.late"] == unmentioned(folder)
