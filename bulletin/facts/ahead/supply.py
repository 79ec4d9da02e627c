"""What each part allows of a model's output: shelves, deliveries on their way, and what can be ordered after that.

A part's stock and deliveries are shared among the models as the needs of their queues are. What stands made on a shelf spares
what would go into it. What is ordered, confirmed or in transit arrives as late as past deliveries did; what is not on order at
all can be had after the part's lead time, from today on, where parts.csv tells it.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cached_property

import numpy as np
import pandas as pd

from bulletin.facts.materials.materials import Materials
from bulletin.facts.materials.needs import Needs
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
        """Begin with the day; without structure.csv and stock.csv no part limits anything."""
        self.day = day
        self.materials = day.once(Materials)
        self._a_unit_takes: dict[str, dict[str, Fraction]] = {}

    def of(self, model: str, queues: Mapping[str, int]) -> list[Supply]:
        """The supply of each bought part of a model, by id, in units of the model."""
        if not (self.day.has("structure") and self.day.has("stock")):
            return []
        return [self._supply(model, part, queues) for part in self.materials.bought([model])]

    def _supply(self, model: str, part: str, queues: Mapping[str, int]) -> Supply:
        needs = self._of_a_unit(part)
        wanted = {other: needs[other] * queues.get(other, 0) for other in needs if other in queues}
        total = sum(wanted.values(), Fraction(0))
        share = wanted[model] / total if total else Fraction(1, len(wanted))
        units = share / needs[model]
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

    def _of_a_unit(self, part: str) -> dict[str, Fraction]:
        """What a unit of each model, or of each made part, takes of a part, shelves apart; of those that take any."""
        if part not in self._a_unit_takes:
            above = self._bare.structure.above([part])
            found = {parent: self._bare.of({parent: 1}, [part])[part] for parent in above if parent != part}
            self._a_unit_takes[part] = {parent: need for parent, need in found.items() if need}
        return self._a_unit_takes[part]

    @cached_property
    def _bare(self) -> Needs:
        """The structure with nothing on its shelves."""
        return Needs(self.materials.structure, {})

    def _free(self, part: str) -> Fraction:
        """What stands free of a part, and of it inside what stands made."""
        shelves = self.materials.shelves
        inside = (max(shelves.free(made), Fraction(0)) * need for made, need in self._of_a_unit(part).items())
        return shelves.free(part) + sum(inside, Fraction(0))

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
