"""The rows behind a fact are what a doubter would count or add up in a spreadsheet to get it."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from bulletin.draft.expressions import parse_key
from bulletin.facts.book import Book, facts_of
from bulletin.facts.families import FAMILIES
from bulletin.facts.scopes.day import Day
from bulletin.model import Fact
from bulletin.settings import read_settings
from bulletin.tables.as_of import as_of
from bulletin.tables.reading import read_tables

DEMO = Path(__file__).parents[2] / "data" / "demo"
PERIOD = "(today|yesterday|week|last_week|month|last_month)"
ITEM = r"(\.[^.\[]+|\[.+\])"
COUNTED = {
    "boxing.csv": (
        rf"boxed(\.of{ITEM})?\.({PERIOD}|total|for_orders|reboxed_week|best_day|best_week|best_month)",
        rf"changes{ITEM}\.boxed_with",
    ),
    "orders.csv": (
        rf"orders(\.(of|in_market|batch){ITEM})?\.(waiting|boxed|shipped|delivered|cancelled|out|past_promise|retold)",
        rf"orders(\.(of|in_market|batch){ITEM})?\.(placed|left|gone)_{PERIOD}",
        rf"coverage\.part{ITEM}\.held_up",
    ),
    "defects.csv": (r"defects\.(open|open_safety|closed_week)",),
    "affected.csv": (rf"defects{ITEM}?\.(affected|remedied|unremedied|address_confirmed)",),
    "promises.csv": (r"promises\.(open|kept|late)",),
    "refunds.csv": (r"refunds\.(open|late)",),
}  # fmt: skip
"""Facts that count rows, by the file whose rows they count."""
ADDED = {
    ("plan.csv", "units"): (rf"plan(\.of{ITEM})?\.(week|next_week|month|next_month)",),
    ("stock.csv", "quantity"): (rf"coverage\.part{ITEM}\.(usable|held)", rf"defects{ITEM}\.kits"),
    ("reserved.csv", "quantity"): (rf"coverage\.part{ITEM}\.reserved",),
    ("supply.csv", "quantity"): (rf"coverage\.part{ITEM}\.overdue",),
}
"""Facts that add up a column of rows."""


@pytest.fixture(scope="module")
def book() -> Book:
    """The facts of the demo."""
    settings, _ = read_settings(DEMO)
    assert settings is not None
    tables, _ = read_tables(DEMO, settings)
    day = date(2026, 3, 27)
    return facts_of(Day(day, as_of(tables, day), settings), {name: kind for name, kind in FAMILIES.items() if name != "forecast"})


def told(book: Book, patterns: tuple[str, ...]) -> list[Fact]:
    """Facts whose keys are of these forms; each form must have one above zero."""
    facts = [fact for path in book.countable() if isinstance(fact := book.find(path), Fact)]
    for pattern in patterns:
        assert any(re.fullmatch(pattern, fact.key) and fact.value for fact in facts), pattern
    return [fact for fact in facts if any(re.fullmatch(pattern, fact.key) for pattern in patterns)]


@pytest.mark.parametrize("file", COUNTED)
def test_a_count_of_rows_names_as_many_rows(book: Book, file: str) -> None:
    """Each counts exactly the rows that it names of its file."""
    facts = told(book, COUNTED[file])
    expected = {fact.key: fact.value for fact in facts}

    actual = {fact.key: fact.rows.counts().get(file, 0) for fact in facts}

    assert expected == actual


@pytest.mark.parametrize(("file", "column"), ADDED)
def test_a_sum_of_rows_is_what_their_cells_add_up_to(book: Book, file: str, column: str) -> None:
    """The cells of its rows, as the file has them, add up to it."""
    facts = told(book, ADDED[file, column])
    expected = {fact.key: fact.value for fact in facts}

    cells = {fact.key: fact.rows.cells().get(file, []) for fact in facts}
    actual = {key: sum((Fraction(Decimal(row[column])) for row in rows), Fraction()) for key, rows in cells.items()}

    assert expected == actual


def test_credit_counts_orders_by_their_rows(book: Book) -> None:
    """Orders that earned anything are the distinct orders among its rows."""
    fact = book.find(parse_key("credits.orders"))
    assert isinstance(fact, Fact)

    actual = len({row["order"] for row in fact.rows.cells()["orders.csv"]})

    assert fact.value == actual > 0


@pytest.mark.parametrize("family", [name for name in FAMILIES if name != "forecast"])
def test_every_family_names_rows_of_declared_columns_alone(book: Book, family: str) -> None:
    """Rows have lines of their file, and only columns that the layout knows; contacts stand behind no fact."""
    facts = [fact for path in book.countable() if path[0].text == family and isinstance(fact := book.find(path), Fact)]
    rows = [fact.rows for fact in facts[:40]]

    files = {file for one in rows for file in one.counts()}
    columns = {
        (file, column) for one in rows for file, cells in one.cells().items() for row in cells for column in row
    }
    declared = {
        (book.day.tables.file(name), column.name) for name, table in book.day.tables.items() for column in table.layout.columns
    }

    assert facts
    assert columns <= declared
    assert "contacts.csv" not in files
