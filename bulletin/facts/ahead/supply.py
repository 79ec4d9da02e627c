"""What each part allows of a model's output: shelves, deliveries on their way, and what can be ordered after that.

A part's stock and deliveries are shared among the models as the needs of their queues are. What stands made on a shelf spares
what would go into it. What is ordered, confirmed or in transit arrives as late as past deliveries did; what is not on order at
all can be had after the part's lead time, from today on, where parts.csv tells it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cached_property

import numpy as np
import pandas as pd

from bulletin.facts.materials.materials import Materials
from bulletin.facts.materials.shelves import NONE
from bulletin.facts.materials.supply import Supply as Rows
from bulletin.facts.materials.supply import supply_of
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.forecast.lateness import PastLateness
from bulletin.forecast.parts import Supply

WITHOUT_END = 1e9
"""Units that a part which can be ordered anew is good for."""


class SupplyAhead:
    """Built with `day.once(SupplyAhead)`."""

    def __init__(self, day: Day) -> None:
        """Begin with the day; as long as structure.csv or stock.csv tells nothing, no part limits anything."""
        self.day = day
        self.materials = day.once(Materials)
        self._takes: dict[str, Mapping[str, Fraction]] = {}

    def of(self, model: str, queues: Mapping[str, int], most: float) -> Iterator[Supply]:
        """The supply, in units of the model, of each bought part of it that stands free for fewer than `most` of them; by id."""
        if self.day.lacks(("structure", "stock")):
            return
        for part in self.materials.bought([model]):
            units = self._share(model, part, queues) / self._taken_by(model)[part]
            if self._free(part) * units < most:
                yield self._supply(part, units)

    def _share(self, model: str, part: str, queues: Mapping[str, int]) -> Fraction:
        """The share of a part that is there for one model: as the needs of the queues are, else equal ones."""
        wanted = {other: self._taken_by(other).get(part, NONE) * queues[other] for other in queues}
        total = sum(wanted.values(), NONE)
        return wanted[model] / total if total else Fraction(1, sum(part in self._taken_by(other) for other in queues))

    def _supply(self, part: str, units: Fraction) -> Supply:
        coming = sorted((purchase.due, purchase.quantity) for purchase in self._rows(part).coming)
        due = [day_number(day) for day, _ in coming]
        quantity = [float(Fraction(quantity) * units) for _, quantity in coming]
        lead = self._lead_days(part)
        if lead is not None:
            due.append(day_number(self.day.as_of) + lead)
            quantity.append(WITHOUT_END)
        others = [late for other, late in self._all_came if other != part]
        past = PastLateness(self._came(part), np.concatenate([np.zeros(0), *others]))
        return Supply(part, float(self._free(part) * units), np.array(due, np.int64), np.array(quantity), past)

    def _taken_by(self, parent: str) -> Mapping[str, Fraction]:
        """What one of a model, or of a made part, takes of each bought part at any level, shelves apart."""
        if parent not in self._takes:
            taken: dict[str, Fraction] = {}
            for component, quantity in self.materials.structure.uses.get(parent, ()):
                made = self.materials.structure.is_made(component)
                for part, each in self._taken_by(component).items() if made else ((component, Fraction(1)),):
                    taken[part] = taken.get(part, NONE) + quantity * each
            self._takes[parent] = taken
        return self._takes[parent]

    def _free(self, part: str) -> Fraction:
        """What stands free of a part, and of it inside what stands made."""
        return self.materials.shelves.free(part) + self._inside.get(part, NONE)

    @cached_property
    def _inside(self) -> Mapping[str, Fraction]:
        """What of each bought part stands inside what stands made and free."""
        inside: dict[str, Fraction] = {}
        for made in self.materials.structure.uses:
            free = self.materials.shelves.free(made)
            for part, each in self._taken_by(made).items() if free > 0 else ():
                inside[part] = inside.get(part, NONE) + free * each
        return inside

    def _rows(self, part: str) -> Rows:
        return self._supply_of.get(part, Rows())

    @cached_property
    def _supply_of(self) -> Mapping[str, Rows]:
        return self.day.once(supply_of) if self.day.has("supply") else {}

    def _came(self, part: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        return np.array([late.days for late in self._rows(part).came], np.float64)

    @cached_property
    def _all_came(self) -> list[tuple[str, np.ndarray[tuple[int], np.dtype[np.float64]]]]:
        return [(part, self._came(part)) for part in sorted(self._supply_of)]

    def _lead_days(self, part: str) -> int | None:
        row = self.materials.part_row(part)
        lead = row["lead_days"] if row else None
        return None if lead is None or pd.isna(lead) else int(lead)
