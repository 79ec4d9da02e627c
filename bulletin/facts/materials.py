"""The materials of one day, read once: structure in effect, shelves, needs of the waiting orders, and the rows behind them."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction
from functools import cached_property

import numpy as np
import pandas as pd

from bulletin.facts.columns import Row, rows_by_id
from bulletin.facts.day import Day
from bulletin.facts.keys import Integers
from bulletin.facts.needs import Demand, Needs
from bulletin.facts.positions import positions_by
from bulletin.facts.shelves import Shelves, sums
from bulletin.facts.structure import Structure, in_effect, structure_of
from bulletin.model import Name


class Materials:
    """Built with `day.once(Materials)`; each piece is computed when it is first asked for."""

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self.day = day
        self._needed: dict[tuple[str, ...], Mapping[str, Fraction]] = {}

    @cached_property
    def structure_rows(self) -> pd.DataFrame:
        """The rows of structure.csv in effect on the day."""
        return in_effect(self.day.table("structure").frame, self.day.as_of)

    @cached_property
    def structure(self) -> Structure:
        """What goes into what on the day; empty where the table is missing."""
        return structure_of(self.structure_rows) if self.day.has("structure") else Structure({})

    @cached_property
    def shelves(self) -> Shelves:
        """Stock as last counted and what is reserved of it."""
        return Shelves(sums(self._frame("stock"), "state"), sums(self._frame("reserved"), "use"))

    @cached_property
    def needs(self) -> Needs:
        """Structure and free shelves, ready for any demand."""
        return Needs(self.structure, {part: self.shelves.free(part) for part in self.shelves.parts()})

    @cached_property
    def waiting(self) -> Demand:
        """Waiting orders by model, in the order of the models' names."""
        frame = self.day.table("orders").frame
        counts = frame.loc[frame["status"] == "waiting", "model"].value_counts(sort=False)
        return {str(model): int(count) for model, count in sorted(counts.items()) if count}

    def needs_of(self, models: tuple[str, ...]) -> Mapping[str, Fraction]:
        """What the waiting orders of these models need of everything in the structure."""
        if models not in self._needed:
            demand = {model: count for model, count in self.waiting.items() if model in models}
            self._needed[models] = self.needs.of(demand, self.structure.order)
        return self._needed[models]

    @cached_property
    def part_records(self) -> Mapping[str, int]:
        """The record of each part in parts.csv."""
        return rows_by_id(self.day.table("parts")) if self.day.has("parts") else {}

    @cached_property
    def parts(self) -> list[str]:
        """Every part that parts.csv, structure, stock or reservations name, sorted."""
        return sorted({*self.part_records, *self.structure.users, *self.shelves.parts()})

    def name(self, part: str) -> Name:
        """What a part is called; its id where parts.csv has no name."""
        record = self.part_records.get(part)
        return Name("part", part, part) if record is None else Row(self.day.table("parts"), record, "part", part).name

    def supply(self, part: str) -> pd.DataFrame:
        """The rows of supply.csv for a part."""
        return self.day.table("supply").frame.iloc[self._supply_of.get(part, [])]

    @cached_property
    def _supply_of(self) -> Mapping[str, Integers]:
        return positions_by(self.day.table("supply").frame["part"])

    def bought(self, models: Collection[str]) -> list[str]:
        """The bought parts that go into these models at any level, sorted."""
        return sorted(part for part in self.structure.below(models) if not self.structure.is_made(part))

    def rows(self, models: Collection[str], parts: Collection[str]) -> dict[str, Integers]:
        """The rows behind what waiting orders of these models need of these parts: orders, structure, shelves."""
        orders = self.day.table("orders").frame
        using = [model for model in models if model in self.structure.above(parts)]
        waiting = (orders["status"] == "waiting") & orders["model"].isin(using)
        return {"orders": _records(orders, waiting), **self.stock_rows(models, parts)}

    def stock_rows(self, models: Collection[str], parts: Collection[str]) -> dict[str, Integers]:
        """The rows of the structure that lead from these models to these parts, and of the shelves on the way."""
        above = self.structure.above(parts)
        on_the_way = {*models, *self.structure.below(models)} & set(above)
        leads = self.structure_rows["parent"].isin(on_the_way) & self.structure_rows["component"].isin(on_the_way)
        records = {"structure": _records(self.structure_rows, leads)}
        shelves = [*on_the_way, *parts]
        stock, reserved = self._frame("stock"), self._frame("reserved")
        if stock is not None:
            records["stock"] = _records(stock, stock["part"].isin(shelves) & (stock["state"] == "usable"))
        if reserved is not None:
            records["reserved"] = _records(reserved, reserved["part"].isin(shelves))
        return records

    def _frame(self, name: str) -> pd.DataFrame | None:
        return self.day.table(name).frame if self.day.has(name) else None


def _records(frame: pd.DataFrame, mask: pd.Series[bool]) -> Integers:
    return frame.index[mask].to_numpy(np.int64)
