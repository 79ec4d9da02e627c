"""Tables as a stock or shop program exports them tell the same facts as tables in our own form, through bulletin.toml alone.

`tests/cases/exports/german` and `plain` are one maker twice. The exports are in cp1252 with semicolons, decimal commas and points
between thousands, German columns and words, two ways of dates, empty rows at the end, a row that is no order.
"""

from datetime import date
from fractions import Fraction
from pathlib import Path

from bulletin.facts.book import facts_of
from bulletin.facts.scopes.day import Day
from bulletin.model import Absent, Problem
from bulletin.settings import read_settings
from bulletin.tables.as_of import as_of
from bulletin.tables.reading import read_tables

EXPORTS = Path(__file__).parents[1] / "cases" / "exports"
DAY = date(2026, 3, 27)


def told(folder: str) -> tuple[dict[str, object], list[Problem]]:
    """Every countable fact of a folder, or why there is none, and the problems of its tables."""
    settings, problems = read_settings(EXPORTS / folder)
    assert settings is not None, problems
    tables, found = read_tables(EXPORTS / folder, settings)
    book = facts_of(Day(DAY, as_of(tables, DAY), settings))
    facts = [book.find(path) for path in book.countable()]
    return {fact.key: None if isinstance(fact, Absent) else fact.value for fact in facts}, [*problems, *found]


def test_exports_tell_what_our_own_tables_tell() -> None:
    """Not one fact differs, and nothing is called out but the one column that nobody asked for."""
    expected, nothing = told("plain")

    actual, problems = told("german")

    assert expected == actual
    assert ([], ["column-unknown"]) == (nothing, [problem.rule for problem in problems])


def test_a_quantity_between_points_and_commas_is_the_number_it_means() -> None:
    """1.250,000 is one thousand two hundred and fifty; 0,750 is three quarters."""
    facts, _ = told("german")
    expected = [1250, Fraction(801, 2), Fraction(3, 4), 4]

    actual = [facts[f"coverage.part.{key}"] for key in ("S-2.usable", "S-2.held", "G-3.usable", "S-2.usual_lateness")]

    assert expected == actual
