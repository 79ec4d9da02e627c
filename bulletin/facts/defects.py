"""The `defects` family: what is wrong with units out there, whom it touches, what has been put right.

Counts of affected units are counts of rows of affected.csv. As long as a defect is not traced completely, those found are at
least so many, and finding none tells nothing: then there is no count, not a zero.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cached_property
from typing import NamedTuple

import numpy as np
import pandas as pd

from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.positions import positions_by
from bulletin.facts.materials.materials import Materials
from bulletin.facts.part_coverage import UNCOUNTED, quantity
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, fact
from bulletin.facts.scopes.items import Item, Items

OPEN = ("open", "contained")
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
        return self._dated("remedied")

    @fact("unit", tables=("affected",))
    def unremedied(self) -> Found | Gap:
        """Units found to be affected so far that were not put right yet."""
        return self._found(self._affected[self._affected["remedied"].isna()])

    @fact("unit", tables=("affected",))
    def address_confirmed(self) -> Found | Gap:
        """Affected units whose owner has confirmed where a remedy can be sent."""
        return self._dated("address_confirmed")

    @fact("part", tables=("stock",))
    def kits(self) -> Found | Gap:
        """Usable stock of the part that remedies the defect."""
        part = str(self.row["remedy_part"])
        if not part:
            return Gap("the defect names no part that remedies it")
        shelves = self.day.once(Materials).shelves
        return quantity(shelves.usable(part), lambda: self._kit_rows(part)) if shelves.counts(part) else UNCOUNTED

    @cached_property
    def _affected(self) -> pd.DataFrame:
        found = self.day.once(affected_rows)
        return found.frame.iloc[found.of.get(self.row.id, [])]

    def _found(self, rows: pd.DataFrame) -> Found | Gap:
        return found_so_far(rows, traced=self.row["traced"] == "complete")

    def _dated(self, column: str) -> Found:
        return count(self._affected[self._affected[column].notna()])

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
        return count(self._affected[self._affected["remedied"].notna()])

    @fact("unit", tables=("affected",))
    def unremedied(self) -> Found | Gap:
        """Units found to be affected that were not put right yet, each once for every defect it has."""
        return self._found(self._affected[self._affected["remedied"].isna()])

    @cached_property
    def _affected(self) -> pd.DataFrame:
        found = self.day.once(affected_rows)
        chosen = [found.of[defect] for defect in self.sheet.positions if defect in found.of]
        return found.frame.iloc[np.sort(np.concatenate(chosen))] if chosen else found.frame.iloc[:0]

    def _found(self, rows: pd.DataFrame) -> Found | Gap:
        return found_so_far(rows, traced=bool((self.table.frame["traced"] == "complete").all()))

    def _count(self, chosen: pd.Series[bool]) -> Found:
        return Found(int(chosen.sum()), lambda: {"defects": self.table.frame.index[chosen].to_numpy(np.int64)})


class AffectedRows(NamedTuple):
    """The frame of affected.csv and the positions in it of each defect's rows."""

    frame: pd.DataFrame
    of: Mapping[str, Integers]


def affected_rows(day: Day) -> AffectedRows:
    """Rows of affected.csv by defect, those of defects that are not known yet among them."""
    frame = day.table("affected").frame
    return AffectedRows(frame, positions_by(frame["defect"]))


def found_so_far(rows: pd.DataFrame, *, traced: bool) -> Found | Gap:
    """How many rows of affected.csv: at least so many while tracing goes on, and then none is no count."""
    if traced:
        return count(rows)
    return replace(count(rows), at_least=True) if len(rows) else Gap(UNTRACED)


def count(rows: pd.DataFrame) -> Found:
    """How many rows of affected.csv."""
    return Found(len(rows), lambda: {"affected": rows.index.to_numpy(np.int64)})
