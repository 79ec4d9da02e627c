"""The materials of one day, read once: structure in effect, shelves, needs of the waiting orders, and the rows behind them."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction
from functools import cached_property

import pandas as pd

from bulletin.facts.materials.needs import Demand, Needs
from bulletin.facts.materials.rows import MaterialRows
from bulletin.facts.materials.shelves import Shelves, sums
from bulletin.facts.materials.structure import Structure, in_effect, structure_of
from bulletin.facts.scopes.columns import Row, Sheet
from bulletin.facts.scopes.day import Day
from bulletin.model import Name


class Materials:
    """Built with `day.once(Materials)`; each piece is computed when it is first asked for."""

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self.day = day
        self._needed: dict[tuple[str, ...], Mapping[str, Fraction]] = {}

    @cached_property
    def structure(self) -> Structure:
        """What goes into what on the day; empty where the table is missing."""
        return structure_of(self._structure_rows) if self.day.has("structure") else Structure({})

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
    def part_sheet(self) -> Sheet | None:
        """The rows of parts.csv; None where the table is missing."""
        return Sheet(self.day.table("parts"), "part") if self.day.has("parts") else None

    def part_row(self, part: str) -> Row | None:
        """The row of a part in parts.csv."""
        return self.part_sheet.row(part) if self.part_sheet else None

    @cached_property
    def parts(self) -> Mapping[str, None]:
        """Every part that parts.csv, structure, stock or reservations name, sorted."""
        listed = self.part_sheet.positions if self.part_sheet else {}
        return dict.fromkeys(sorted({*listed, *self.structure.users, *self.shelves.parts()}))

    def name(self, part: str) -> Name:
        """What a part is called; its id where parts.csv has no name."""
        row = self.part_row(part)
        return row.name if row else Name("part", part, part)

    def bought(self, models: Collection[str]) -> list[str]:
        """The bought parts that go into these models at any level, sorted."""
        return sorted(part for part in self.structure.below(models) if not self.structure.is_made(part))

    @cached_property
    def rows(self) -> MaterialRows:
        """The rows behind it all."""
        return MaterialRows(self.day, self.structure, self._structure_rows)

    @cached_property
    def _structure_rows(self) -> pd.DataFrame:
        return in_effect(self.day.table("structure").frame, self.day.as_of)

    def _frame(self, name: str) -> pd.DataFrame | None:
        return self.day.table(name).frame if self.day.has(name) else None
