"""What each part allows of a model's output: shelves, deliveries on their way, and what can be ordered after that.

A part's stock and deliveries are shared among the models as the needs of their queues are. What stands made on a shelf spares what
would go into it. What is ordered, confirmed or in transit arrives as late as past deliveries did; what is not on order at all can
be had after the part's lead time, from today on, where parts.csv tells it.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cached_property

import numpy as np
import pandas as pd

from bulletin.facts.counting.keys import Integers
from bulletin.facts.materials.materials import Materials
from bulletin.facts.materials.needs import Needs
from bulletin.facts.part_coverage import ON_THE_WAY
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.forecast.lateness import PastLateness
from bulletin.forecast.output import Reals
from bulletin.forecast.parts import Supply

WITHOUT_END = 1e9
"""Units that a part which can be ordered anew is good for."""


class SupplyAhead:
    """Built with `day.once(SupplyAhead)`."""

    def __init__(self, day: Day) -> None:
        """Begin with the day; without structure.csv and stock.csv no part limits anything."""
        self.day = day
        self.materials = day.once(Materials)

    def of(self, model: str, queues: Mapping[str, int]) -> list[Supply]:
        """The supply of each bought part of a model, by id, in units of the model."""
        if not (self.day.has("structure") and self.day.has("stock")):
            return []
        return [self._supply(model, part, queues) for part in self.materials.bought([model])]

    def _supply(self, model: str, part: str, queues: Mapping[str, int]) -> Supply:
        needs = self._a_unit(part)
        wanted = {other: need * queues.get(other, 0) for other, need in needs.items()}
        total = sum(wanted.values(), Fraction(0))
        share = wanted[model] / total if total else Fraction(1, len(needs))
        units = share / needs[model]
        due, quantity = self._on_the_way(part)
        due, quantity = due, quantity * float(units)
        lead = self._lead_days(part)
        if lead is not None:
            due = np.append(due, day_number(self.day.as_of) + lead)
            quantity = np.append(quantity, WITHOUT_END)
        return Supply(part, float(self._free(part) * units), due, quantity, self._lateness(part))

    def _a_unit(self, part: str) -> dict[str, Fraction]:
        """What a unit of each model takes of a part, shelves apart, of the models that take any."""
        needs = Needs(self.materials.structure, {})
        above = set(self.materials.structure.above([part]))
        models = [model for model in self.materials.structure.uses if model in above]
        found = {model: needs.of({model: 1}, [part])[part] for model in models}
        return {model: need for model, need in found.items() if need}

    def _free(self, part: str) -> Fraction:
        """What stands free of a part, and of it inside what stands made."""
        shelves = self.materials.shelves
        a_made = self._a_unit(part)
        inside = (max(shelves.free(made), Fraction(0)) * need for made, need in a_made.items())
        return shelves.free(part) + sum(inside, Fraction(0))

    def _on_the_way(self, part: str) -> tuple[Integers, Reals]:
        if not self.day.has("supply"):
            return np.zeros(0, np.int64), np.zeros(0)
        rows = self.materials.supply(part)
        rows = rows[rows["state"].isin(ON_THE_WAY)].sort_values(["due", "purchase"])
        return _numbers(rows["due"]), np.array([float(one) for one in rows["quantity"]])

    def _lead_days(self, part: str) -> int | None:
        record = self.materials.part_records.get(part)
        lead = None if record is None else self.day.table("parts").frame.at[record, "lead_days"]
        return None if lead is None or pd.isna(lead) else int(lead)

    def _lateness(self, part: str) -> PastLateness:
        parts, late = self._received
        return PastLateness(late[parts == part], late[parts != part])

    @cached_property
    def _received(self) -> tuple[np.ndarray[tuple[int], np.dtype[np.object_]], Reals]:
        if not self.day.has("supply"):
            return np.zeros(0, np.object_), np.zeros(0)
        frame = self.day.table("supply").frame
        rows = frame[(frame["state"] == "received") & frame["received"].notna()]
        return rows["part"].to_numpy(dtype=object), (_numbers(rows["received"]) - _numbers(rows["due"])).astype(np.float64)


def _numbers(days: pd.Series[pd.Timestamp]) -> Integers:
    """Days counted from 1970-01-01."""
    return days.to_numpy().astype("datetime64[D]").astype(np.int64)
