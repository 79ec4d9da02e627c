"""The `defects` family: what is wrong with units out there, whom it touches, what has been put right.

Counts of affected units are counts of rows of affected.csv. As long as a defect is not traced completely, those found are at
least so many, and finding none tells nothing: then there is no count, not a zero.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.positions import positions_by
from bulletin.facts.materials.materials import Materials
from bulletin.facts.part_coverage import UNCOUNTED, quantity
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, fact
from bulletin.facts.scopes.items import Item, Items

OPEN = ("open", "contained")
NOBODY = np.empty(0, np.int64)
UNTRACED = "not known: tracing is not complete"


class Defect(Item):
    """One defect."""

    @fact("state")
    def state(self) -> Found | Gap:
        """What has become of the defect: open, contained, fixed or closed."""
        return Found(str(self.row["state"]), self.row.records)

    @fact("unit", tables=("affected",))
    def affected(self) -> Found | Gap:
        """Units found to be affected so far."""
        return self._found(self._affected)

    @fact("unit", tables=("affected",))
    def remedied(self) -> Found | Gap:
        """Affected units that were put right."""
        return self._affected.having("remedied").count()

    @fact("unit", tables=("affected",))
    def unremedied(self) -> Found | Gap:
        """Units found to be affected so far that were not put right yet."""
        return self._found(self._affected.without("remedied"))

    @fact("unit", tables=("affected",))
    def address_confirmed(self) -> Found | Gap:
        """Affected units whose owner has confirmed where a remedy can be sent."""
        return self._affected.having("address_confirmed").count()

    @fact("part", tables=("stock",))
    def kits(self) -> Found | Gap:
        """Usable stock of the part that remedies the defect."""
        part = str(self.row["remedy_part"])
        if not part:
            return Gap("the defect names no part that remedies it")
        shelves = self.day.once(Materials).shelves
        return quantity(shelves.usable(part), lambda: self._kit_rows(part)) if shelves.counts(part) else UNCOUNTED

    @cached_property
    def _affected(self) -> Affected:
        return Affected(self.day, self.day.once(affected_by_defect).get(self.row.id, NOBODY))

    def _found(self, affected: Affected) -> Found | Gap:
        return affected.found_so_far(traced=self.row["traced"] == "complete")

    def _kit_rows(self, part: str) -> Records:
        stock = self.day.table("stock").frame
        chosen = (stock["part"] == part) & (stock["state"] == "usable")
        return {**self.row.records(), "stock": stock.index[chosen].to_numpy(np.int64)}


class Defects(Items):
    """All defects known on the day."""

    tables = ("defects",)
    kind = "defect"
    item_type = Defect

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        super().__init__(day)
        self.table = day.table("defects")

    @fact("defect")
    def open(self) -> Found | Gap:
        """Defects that are open or contained."""
        return self._count(self.table.frame["state"].isin(OPEN))

    @fact("defect")
    def open_safety(self) -> Found | Gap:
        """Safety defects that are open or contained."""
        frame = self.table.frame
        return self._count(frame["state"].isin(OPEN) & (frame["severity"] == "safety"))

    @fact("defect")
    def closed_week(self) -> Found | Gap:
        """Defects closed since the week of the as-of date began."""
        return self._count(self.table.frame["closed"] >= np.datetime64(self.day.calendar.week(self.day.as_of).first))

    @fact("unit", tables=("affected",))
    def affected(self) -> Found | Gap:
        """Units found to be affected, each once for every defect it has."""
        return self._found(self._affected)

    @fact("unit", tables=("affected",))
    def remedied(self) -> Found | Gap:
        """Affected units that were put right, each once for every defect it had."""
        return self._affected.having("remedied").count()

    @fact("unit", tables=("affected",))
    def unremedied(self) -> Found | Gap:
        """Units found to be affected that were not put right yet, each once for every defect it has."""
        return self._found(self._affected.without("remedied"))

    @cached_property
    def _affected(self) -> Affected:
        rows = self.day.once(affected_by_defect)
        return Affected(self.day, np.concatenate([NOBODY, *(rows[defect] for defect in self.sheet.positions if defect in rows)]))

    def _found(self, affected: Affected) -> Found | Gap:
        return affected.found_so_far(traced=bool((self.table.frame["traced"] == "complete").all()))

    def _count(self, chosen: pd.Series[bool]) -> Found:
        return Found(int(chosen.sum()), lambda: {"defects": self.table.frame.index[chosen].to_numpy(np.int64)})


@dataclass(frozen=True, eq=False)
class Affected:
    """Some rows of affected.csv, by their positions."""

    day: Day
    rows: Integers

    def having(self, column: str) -> Affected:
        """Those with a day in a column."""
        return Affected(self.day, self.rows[~np.isnat(self._days(column))])

    def without(self, column: str) -> Affected:
        """Those without one."""
        return Affected(self.day, self.rows[np.isnat(self._days(column))])

    def count(self) -> Found:
        """How many they are."""
        return Found(len(self.rows), self._records)

    def found_so_far(self, *, traced: bool) -> Found | Gap:
        """How many they are: at least so many while tracing goes on, and then none is no count."""
        if traced:
            return self.count()
        return self.count()._replace(at_least=True) if len(self.rows) else Gap(UNTRACED)

    def _days(self, column: str) -> NDArray[np.datetime64]:
        return self.day.table("affected").frame[column].to_numpy()[self.rows]

    def _records(self) -> Records:
        return {"affected": self.day.table("affected").frame.index.to_numpy(np.int64)[self.rows]}


def affected_by_defect(day: Day) -> Mapping[str, Integers]:
    """The positions of the rows of affected.csv by defect, those of defects that are not known yet among them."""
    return positions_by(day.table("affected").frame["defect"])
