"""What stands on the shelves, part by part: usable, held back, and reserved by whom. Exact quantities."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TypeVar

import pandas as pd

Key = TypeVar("Key")

NONE = Fraction(0)
HELD = ("inspection", "quarantine")
OUTSIDE_SHOP = ("service", "retrofit")
"""Whose reservations the shop must leave alone; what is reserved for the shop itself it may sell."""

Quantities = Mapping[str, Fraction]
"""By part."""


@dataclass(frozen=True, eq=False)
class Shelves:
    """Sums by part and state of stock.csv, and by part and use of reserved.csv."""

    stock: Mapping[tuple[str, str], Fraction]
    reservations: Mapping[tuple[str, str], Fraction]

    def counts(self, part: str) -> bool:
        """Whether stock of the part was counted at all, be it none."""
        return part in self._counted

    def usable(self, part: str) -> Fraction:
        """What may be built with."""
        return self._usable.get(part, NONE)

    def held(self, part: str) -> Fraction:
        """What stands in inspection or quarantine."""
        return self._held.get(part, NONE)

    def reserved(self, part: str) -> Fraction:
        """What is reserved for any use."""
        return self._reserved.get(part, NONE)

    def kept_from_shop(self, part: str) -> Fraction:
        """What is reserved for any use but the shop's."""
        return self._kept_from_shop.get(part, NONE)

    def free(self, part: str) -> Fraction:
        """Usable less everything reserved; below 0 where more is reserved than there is."""
        return self.usable(part) - self._reserved[part] if part in self._reserved else self.usable(part)

    def parts(self) -> set[str]:
        """Every part that stands there or is reserved."""
        return {part for part, _ in (*self.stock, *self.reservations)}

    @cached_property
    def _counted(self) -> frozenset[str]:
        return frozenset(part for part, _ in self.stock)

    @cached_property
    def _usable(self) -> Quantities:
        return _together(self.stock, ("usable",))

    @cached_property
    def _held(self) -> Quantities:
        return _together(self.stock, HELD)

    @cached_property
    def _reserved(self) -> Quantities:
        return _together(self.reservations, ("shop", *OUTSIDE_SHOP))

    @cached_property
    def _kept_from_shop(self) -> Quantities:
        return _together(self.reservations, OUTSIDE_SHOP)


def _together(quantities: Mapping[tuple[str, str], Fraction], kinds: Collection[str]) -> Quantities:
    """What there is of each part in some states or for some uses."""
    return added((part, quantity) for (part, kind), quantity in quantities.items() if kind in kinds)


def sums(frame: pd.DataFrame | None, by: str) -> Mapping[tuple[str, str], Fraction]:
    """Exact quantities by part and another column; nothing where there is no table."""
    if frame is None:
        return {}
    quantities = frame["quantity"].tolist()
    exact = {quantity: Fraction(quantity) for quantity in set(quantities)}
    keys = zip(frame["part"].tolist(), frame[by].tolist(), strict=True)
    return added(zip(keys, map(exact.__getitem__, quantities), strict=True))


def added(quantities: Iterable[tuple[Key, Fraction]]) -> dict[Key, Fraction]:
    """Quantities of the same key added up; most keys have one, which is taken as it is."""
    totals: dict[Key, Fraction] = {}
    for key, quantity in quantities:
        totals[key] = totals[key] + quantity if key in totals else quantity
    return totals
