"""The `changes` family: changes to a model, the units built with them, and whether a defect became rarer with them."""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.joins import serial_keys
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.serials import SerialsInTurn
from bulletin.facts.counting.units import units_of
from bulletin.facts.defects import affected_by_defect
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, fact
from bulletin.facts.scopes.items import Item, Items
from bulletin.facts.statistics.limits import chance_of_no_more
from bulletin.model import Basis
from bulletin.tables.categories import are_any_of
from bulletin.tables.integer_keys import among

NO_BEGIN = Gap("the row gives neither from_serial nor from_date")
NO_DEFECT = Gap("the row names no defect that is known on the day")
UNTRACED = Gap("not known: tracing of the defect is not complete")
TABLES = ("boxing", "defects", "affected")

Chosen = NDArray[np.bool_]


class Built(NamedTuple):
    """Units of the model that stand boxed on one side of a change: which they are among its units, how many are affected."""

    chosen: Chosen
    units: int
    failed: int


class Change(Item):
    """One change."""

    @property
    def basis(self) -> Basis:
        """A planned change is a plan."""
        return Basis.PLAN if self.row["state"] == "planned" else Basis.RECORD

    @fact("state")
    def state(self) -> Found | Gap:
        """Whether the change is planned or released."""
        return Found(str(self.row["state"]), self.row.records, self.basis)

    @fact("unit", tables=("boxing",))
    def boxed_with(self) -> Found | Gap:
        """Units of the model that stand boxed with a serial at or after from_serial, or, without one, counted since from_date."""
        if not self._has_begin:
            return NO_BEGIN
        count = int(np.count_nonzero(self._is_with))
        return Found(count, lambda: {**self.row.records(), "boxing": self._boxed(self._is_with)}, self.basis)

    @fact("unit a hundred units", decimals=1, tables=TABLES)
    def rate(self) -> Found | Gap:
        """Units with the change affected by its defect, a hundred of the units that stand boxed with it."""
        return self._rate(with_it=True)

    @fact("unit a hundred units", decimals=1, tables=TABLES)
    def rate_before(self) -> Found | Gap:
        """Units without the change affected by its defect, a hundred of the model's units that stand boxed without it."""
        return self._rate(with_it=False)

    @fact("yes/no", tables=TABLES)
    def rate_fell(self) -> Found | Gap:
        """Whether fewer are affected with the change beyond chance: Fisher's exact one-sided p at most 1 - confidence."""
        missing = self._missing
        if missing:
            return missing
        if not self._traced:
            return UNTRACED
        new, old = self._built(with_it=True), self._built(with_it=False)
        if not new.units or not old.units:
            return Gap("there are no units with the change, or none without it")
        chance = chance_of_no_more(new.failed, new.units, old.failed, old.units)
        confidence = Fraction(self.day.settings.checks.confidence)
        return Found(chance <= 1 - confidence, lambda: self._rows(new, old), self.basis)

    def _rate(self, *, with_it: bool) -> Found | Gap:
        if self._missing:
            return self._missing
        built = self._built(with_it=with_it)
        if not built.units:
            return Gap(f"no unit {'with' if with_it else 'without'} the change stands boxed")
        if not built.failed and not self._traced:
            return UNTRACED
        return Found(Fraction(100 * built.failed, built.units), lambda: self._rows(built), self.basis)

    @property
    def _has_begin(self) -> bool:
        return bool(self.row["from_serial"]) or self.row["from_date"] == self.row["from_date"]

    @property
    def _missing(self) -> Gap | None:
        return NO_BEGIN if not self._has_begin else NO_DEFECT if self._defect is None else None

    @cached_property
    def _defect(self) -> int | None:
        """The record of the defect in defects.csv."""
        frame = self.day.table("defects").frame
        found = frame.index[frame["defect"] == self.row["defect"]]
        return int(found[0]) if len(found) else None

    @property
    def _traced(self) -> bool:
        return bool(self.day.table("defects").frame.at[self._defect, "traced"] == "complete")

    @cached_property
    def _units(self) -> ModelUnits:
        return self.day.once(UnitsByModel).of(self.row["model"])

    @cached_property
    def _is_with(self) -> Chosen:
        """Which of the model's units have the change."""
        if not self.row["from_serial"]:
            return self._units.days >= day_number(self.row["from_date"].date())
        return self._units.ranks >= self.day.once(SerialsInTurn).rank_from(self.row["from_serial"])

    def _built(self, *, with_it: bool) -> Built:
        chosen = self._is_with if with_it else ~self._is_with
        return Built(chosen, int(np.count_nonzero(chosen)), int(np.count_nonzero(chosen & self._is_affected)))

    @cached_property
    def _is_affected(self) -> Chosen:
        """Which of the model's units have the defect."""
        return among(self._units.serials, self.day.once(serial_keys)["affected"][self._touched])

    @property
    def _touched(self) -> Integers:
        """Positions of the defect's rows in affected.csv."""
        return self.day.once(affected_by_defect).get(self.row["defect"], np.empty(0, np.int64))

    def _rows(self, *built: Built) -> Records:
        return {
            **self.row.records(),
            "defects": np.array([self._defect], np.int64),
            "affected": self._records("affected", self._touched),
            "boxing": self._boxed(np.logical_or.reduce([side.chosen for side in built])),
        }

    def _boxed(self, chosen: Chosen) -> Integers:
        """The records of the scans by which some of the model's units count."""
        return self._records("boxing", self._units.rows[chosen])

    def _records(self, table: str, rows: Integers) -> Integers:
        return self.day.table(table).frame.index.to_numpy(np.int64)[rows]


class ModelUnits:
    """The units of a model that stand boxed, what is not asked for not worked out."""

    def __init__(self, day: Day, model: str) -> None:
        """The model may be one that nobody built."""
        self._day = day
        self._chosen = are_any_of(day.table("boxing").frame["model"], [model])[day.once(units_of).last]

    @cached_property
    def rows(self) -> Integers:
        """The rows of boxing.csv by which they count."""
        return self._day.once(units_of).first[self._chosen]

    @cached_property
    def days(self) -> Integers:
        """The days on which they count."""
        return self._day.once(units_of).day[self._chosen]

    @cached_property
    def serials(self) -> Integers:
        """The keys of their serials."""
        return self._day.once(serial_keys)["boxing"][self.rows]

    @cached_property
    def ranks(self) -> Integers:
        """The turns of their serials."""
        return self._day.once(SerialsInTurn).ranks[self.rows]


class UnitsByModel:
    """Built with `day.once(UnitsByModel)`: changes of one model look at the same units."""

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self._day = day
        self._found: dict[str, ModelUnits] = {}

    def of(self, model: str) -> ModelUnits:
        """The units of a model."""
        if model not in self._found:
            self._found[model] = ModelUnits(self._day, model)
        return self._found[model]


class Changes(Items):
    """All changes."""

    tables = ("changes",)
    kind = "change"
    item_type = Change
