"""The facts against the same definitions computed row by row, on the demo and on random folders."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from pathlib import Path

import pytest

from bulletin.draft.expressions import parse_key
from bulletin.model import Fact
from bulletin.values import to_json
from bulletin.workshop import book_of, open_workshop
from tests import naive
from tests.naive.folders import random_folder
from tests.naive.ledgers import random_ledger

DEMO = Path(__file__).parents[2] / "data" / "demo"
FAMILIES = (
    "boxed", "orders", "plan", "coverage", "defects", "inspections", "changes", "credits", "promises", "refunds", "policies",
    "attested",
)  # fmt: skip

BEYOND = re.compile(
    r"boxed\.(of.*\.)?unusual"
    r"|credits\.(owed|balance|accrued_month)\.[A-Z]{3}"
    r"|coverage\.part(\..+|\[.+\])\.(part|name|lead_days|safety_stock)"
    r"|(defects|inspections|changes|promises|policies|attested)(\..+|\[.+\])\.(defect|inspection|change|promise|policy|statement)"
)
"""What the naive computation leaves out: charts, currencies with nothing in them, the columns of an item's row."""


ASKED = re.compile(r"\.(on|better_than)\b")
"""Facts with free arguments, which nobody lists."""


def real(folder: Path, day: date, asked: Iterable[str]) -> dict[str, object]:
    """All countable facts of these families, and those asked for that take arguments, as JSON has them."""
    workshop, problems = open_workshop(folder)
    assert workshop is not None, problems
    book, _ = book_of(workshop, day)
    paths = dict.fromkeys((*book.countable(), *(parse_key(key) for key in asked if ASKED.search(key))))
    facts = [book.find(path) for path in paths if path[0].text in FAMILIES]
    return {fact.key: to_json(fact.value) for fact in facts if isinstance(fact, Fact)}


def near(value: object) -> object:
    """A value as it compares: floats within rounding."""
    return pytest.approx(value, rel=1e-12) if isinstance(value, float) else value


def disagreements(folder: Path, day: date) -> dict[str, tuple[object, object]]:
    """Each fact on which the two disagree, with the real and the naive value."""
    counted = naive.facts(folder, day)
    told = real(folder, day, counted)
    keys = [key for key in sorted(told.keys() | counted.keys()) if key in counted or not BEYOND.fullmatch(key)]
    return {key: (told.get(key), counted.get(key)) for key in keys if told.get(key) != near(counted.get(key))}


@pytest.mark.parametrize("day", ["2026-03-27", "2026-03-25", "2026-02-28", "2025-12-31", "2025-10-26", "2025-09-03"])
def test_every_fact_of_the_demo_is_what_its_rows_say(day: str) -> None:
    """On its own day and on days before, each fact of the demo equals the row-by-row computation."""
    assert disagreements(DEMO, date.fromisoformat(day)) == {}


@pytest.mark.parametrize("seed", range(20))
def test_every_fact_of_a_random_maker_is_what_its_rows_say(seed: int, tmp_path: Path) -> None:
    """Each fact of a random folder equals the row-by-row computation, before and after most of it happened."""
    random_folder(seed, tmp_path)
    days = (date(2026, 2, 28), date(2025, 10, 26))

    assert [disagreements(tmp_path, day) for day in days] == [{}, {}]


@pytest.mark.parametrize("seed", range(30))
def test_what_bulletins_promised_is_what_came(seed: int, tmp_path: Path) -> None:
    """With a random record too each fact is as line by line, soon after promises were made and when all are due."""
    random_folder(seed, tmp_path)
    random_ledger(seed, tmp_path)
    days = (date(2025, 10, 26), date(2026, 1, 20), date(2026, 4, 29))

    assert [disagreements(tmp_path, day) for day in days] == [{}, {}, {}]


@pytest.mark.long
def test_every_fact_of_two_hundred_random_makers_is_what_its_rows_say(tmp_path: Path) -> None:
    """Two hundred folders, each as of a day of its own."""
    wrong: dict[int, object] = {}
    for seed in range(1000, 1200):
        random_folder(seed, tmp_path / str(seed))
        found = disagreements(tmp_path / str(seed), date.fromordinal(date(2025, 8, 1).toordinal() + seed % 290))
        wrong |= {seed: found} if found else {}

    assert wrong == {}


def test_a_day_before_the_first_order_is_told_too() -> None:
    """Before anything was ordered or boxed, each fact of the demo is still what its rows say."""
    assert disagreements(DEMO, date(2025, 1, 15)) == {}
