"""Facts computed row by row in the plainest way, from the definitions alone: something to hold the real ones against.

It shares no line with the package it checks: the csv module, dicts, loops, Decimal, Fraction and dateutil. It reads folders
in the standard format only. Keys and values are those of `bulletin facts --json`: numbers, shares as floats of one, ISO
dates, names as text, money as `{"EUR": "12.50"}` with the currencies that are not zero. A fact that is absent has no key.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

from tests.naive import boxed, coverage, credit, defects, orders
from tests.naive.folder import Maker


def facts(folder: Path, as_of: date) -> dict[str, object]:
    """All facts of the families boxed, orders, coverage, credits and defects, as of a day."""
    maker = Maker(folder, as_of)
    return {
        **boxed.facts(maker),
        **orders.facts(maker),
        **coverage.facts(maker),
        **credit.facts(maker),
        **defects.facts(maker),
    }
