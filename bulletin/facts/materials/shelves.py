"""What stands on the shelves, part by part: usable, held back, and reserved by whom. Exact quantities."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

import pandas as pd

NONE = Fraction(0)
OUTSIDE_SHOP = ("service", "retrofit")
"""Whose reservations the shop must leave alone; what is reserved for the shop itself it may sell."""


@dataclass(frozen=True)
class Shelves:
    """Sums by part and state of stock.csv, and by part and use of reserved.csv."""

    stock: Mapping[tuple[str, str], Fraction]
    reservations: Mapping[tuple[str, str], Fraction]

    def usable(self, part: str) -> Fraction:
        """What may be built with."""
        return self.stock.get((part, "usable"), NONE)

    def held(self, part: str) -> Fraction:
        """What stands in inspection or quarantine."""
        return self.stock.get((part, "inspection"), NONE) + self.stock.get((part, "quarantine"), NONE)

    def reserved(self, part: str, uses: Iterable[str] = ("shop", *OUTSIDE_SHOP)) -> Fraction:
        """What is reserved for any of these uses."""
        return sum((self.reservations[part, use] for use in uses if (part, use) in self.reservations), NONE)

    def free(self, part: str) -> Fraction:
        """Usable less everything reserved; below 0 where more is reserved than there is."""
        reserved = self.reserved(part)
        return self.usable(part) - reserved if reserved else self.usable(part)

    def parts(self) -> set[str]:
        """Every part that stands there or is reserved."""
        return {part for part, _ in (*self.stock, *self.reservations)}


def sums(frame: pd.DataFrame | None, by: str) -> dict[tuple[str, str], Fraction]:
    """Exact quantities by part and another column; nothing where there is no table."""
    totals: dict[tuple[str, str], Fraction] = {}
    if frame is None:
        return totals
    for part, value, quantity in zip(frame["part"].tolist(), frame[by].tolist(), frame["quantity"].tolist(), strict=True):
        totals[part, value] = totals.get((part, value), NONE) + Fraction(quantity)
    return totals
