"""The `changes` family: changes to a model, the units built with them, and whether a defect became rarer with them."""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.joins import serial_count, serial_keys
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.serials import SerialsInTurn
from bulletin.facts.counting.units import units_of
from bulletin.facts.defects import affected_rows
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, fact
from bulletin.facts.scopes.items import Item, Items
from bulletin.facts.statistics.limits import chance_of_no_more
from bulletin.model import Basis

NO_BEGIN = Gap("the row gives neither from_serial nor from_date")
NO_DEFECT = Gap("the row names no defect that is known on the day")
UNTRACED = Gap("not known: tracing of the defect is not complete")
NOTHING = np.empty(0, np.int64)
TABLES = ("boxing", "defects", "affected")


class Built(NamedTuple):
    """Units of the model that stand boxed on one side of a change: rows of boxing.csv, and which of them are affected."""

    rows: Integers
    affected: NDArray[np.bool_]

    @property
    def failed(self) -> int:
        """How many are affected."""
        return int(self.affected.sum())


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
        rows = self._units[0][self._is_with]
        return Found(len(rows), lambda: {**self.row.records(), "boxing": self._records("boxing", rows)}, self.basis)

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
        if not len(new.rows) or not len(old.rows):
            return Gap("there are no units with the change, or none without it")
        chance = chance_of_no_more(new.failed, len(new.rows), old.failed, len(old.rows))
        confidence = Fraction(self.day.settings.checks.confidence)
        return Found(chance <= 1 - confidence, lambda: self._rows(new, old), self.basis)

    def _rate(self, *, with_it: bool) -> Found | Gap:
        if self._missing:
            return self._missing
        built = self._built(with_it=with_it)
        if not len(built.rows):
            return Gap(f"no unit {'with' if with_it else 'without'} the change stands boxed")
        if not built.failed and not self._traced:
            return UNTRACED
        return Found(Fraction(100 * built.failed, len(built.rows)), lambda: self._rows(built), self.basis)

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
    def _units(self) -> tuple[Integers, Integers]:
        """Rows of boxing.csv by which the model's units count, and the days."""
        return self.day.once(units_by_model).get(self.row["model"], (NOTHING, NOTHING))

    @cached_property
    def _is_with(self) -> NDArray[np.bool_]:
        rows, days = self._units
        if not self.row["from_serial"]:
            return days >= np.int64(day_number(self.row["from_date"].date()))
        return self.day.once(SerialsInTurn).at_or_after(self.row["from_serial"])[rows]

    def _built(self, *, with_it: bool) -> Built:
        return self._sides[with_it]

    @cached_property
    def _sides(self) -> tuple[Built, Built]:
        """The units without the change, and those with it."""
        rows = self._units[0]
        affected = self._is_affected[self.day.once(serial_keys)["boxing"][rows]]
        sides = (~self._is_with, self._is_with)
        without, with_it = (Built(rows[side], affected[side]) for side in sides)
        return without, with_it

    @cached_property
    def _is_affected(self) -> NDArray[np.bool_]:
        """By key of a serial, whether the unit has the defect."""
        serials = self.day.once(serial_keys)
        affected = np.zeros(self.day.once(serial_count), np.bool_)
        affected[serials["affected"][self._touched]] = True
        return affected

    @property
    def _touched(self) -> Integers:
        """Positions of the defect's rows in affected.csv."""
        return self.day.once(affected_rows).of.get(self.row["defect"], np.empty(0, np.int64))

    def _rows(self, *built: Built) -> Records:
        return {
            **self.row.records(),
            "defects": np.array([self._defect], np.int64),
            "affected": self._records("affected", self._touched),
            "boxing": self._records("boxing", np.concatenate([side.rows for side in built])),
        }

    def _records(self, table: str, rows: Integers) -> Integers:
        return self.day.table(table).frame.index.to_numpy(np.int64)[rows]


def units_by_model(day: Day) -> dict[str, tuple[Integers, Integers]]:
    """By model, the rows of boxing.csv by which its standing units count, and the days."""
    units, model = day.once(units_of), day.table("boxing").frame["model"].cat
    of = model.codes.to_numpy()[units.last]
    return {str(name): (units.first[of == code], units.day[of == code]) for code, name in enumerate(model.categories)}


class Changes(Items):
    """All changes."""

    tables = ("changes",)
    kind = "change"
    item_type = Change
