"""Facts computed row by row in the plainest way, from the definitions alone: something to hold the real ones against.

It shares no line with the package it checks: the csv module, dicts, loops, Decimal, Fraction and dateutil. It reads folders
in the standard format only. Keys and values are those of `bulletin facts --json`: numbers, shares as floats of one, ISO
dates, names as text, money as `{"EUR": "12.50"}` with the currencies that are not zero (one that is alone is
shown all the same). A fact that is absent has no key.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

from tests.naive import boxed, changes, coverage, credit, defects, inspections, orders, plan, promises, refunds, statements
from tests.naive.folder import Maker


def facts(folder: Path, as_of: date) -> dict[str, object]:
    """All facts of all families but the forecast, as of a day; None where a fact that was asked for must be absent."""
    maker = Maker(folder, as_of)
    found: dict[str, object] = {}
    for family in (
        boxed, orders, plan, coverage, defects, inspections, changes, credit, promises, refunds, statements,
    ):  # fmt: skip
        found |= family.facts(maker)
    return found
