"""Every fact of the demo leads back to rows of the maker's own files."""

from datetime import date
from fractions import Fraction
from pathlib import Path

from bulletin.facts.book import facts_of
from bulletin.facts.scopes.day import Day
from bulletin.model import Fact
from bulletin.settings import read_settings
from bulletin.tables.as_of import as_of
from bulletin.tables.reading import read_tables

DEMO = Path(__file__).parents[3] / "data" / "demo"


def test_every_fact_of_the_demo_names_its_rows() -> None:
    """Each names files and as many lines as it counts; a number above zero rests on at least one row."""
    settings, _ = read_settings(DEMO)
    assert settings is not None
    tables, _ = read_tables(DEMO, settings)
    day = date(2026, 3, 27)
    book = facts_of(Day(day, as_of(tables, day), settings))

    facts = [fact for path in book.countable() if isinstance(fact := book.find(path), Fact)]
    unlike = [
        fact.key for fact in facts if fact.rows.counts() != {file: len(set(lines)) for file, lines in fact.rows.lines().items()}
    ]
    unfounded = [
        fact.key
        for fact in facts
        if isinstance(fact.value, int | Fraction) and fact.value > 0 and not any(fact.rows.counts().values())
    ]

    assert ([], []) == (unlike, unfounded)
