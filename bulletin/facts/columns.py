"""Every column of an item's row as a fact of that item, under the column's own name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import partial
from typing import Any

import numpy as np
import pandas as pd

from bulletin.facts.family import Found, Gap, Records
from bulletin.model import Basis, Money, Name, Value
from bulletin.settings import minor_digits
from bulletin.tables.layouts import Column
from bulletin.tables.table import Table

UNITS = {
    "day": "date",
    "moment": "date",
    "whole": "number",
    "decimal": "number",
    "money": "money",
    "yes or no": "yes/no",
}
"""Units of columns by kind; all others are text."""
COLUMN_UNITS = {
    "state": "state",
    "lead_days": "day",
    "safety_stock": "part",
    "checked": "unit",
    "failed": "unit",
    "lot_size": "unit",
}
NAMING = ("name", "title")
"""Columns that say what a thing is called, which names.csv may say in other languages."""


@dataclass(frozen=True, eq=False)
class Row:
    """One row of a table: `kind` and `id` are those of the thing it describes, as names.csv has them."""

    table: Table
    record: int
    kind: str
    id: str

    @property
    def name(self) -> Name:
        """What the thing is called; its id where the row has no name for it."""
        text = next((str(self[column]) for column in NAMING if column in self.table.frame and self[column]), self.id)
        return Name(self.kind, self.id, text)

    def __getitem__(self, column: str) -> Any:
        """The cell of a column as the frame has it."""
        return self.table.frame.at[self.record, column]

    def records(self) -> Records:
        """The row itself."""
        return {self.table.name: np.array([self.record], np.int64)}

    def columns(self, basis: Basis = Basis.RECORD) -> Mapping[str, Callable[[], Found | Gap]]:
        """A fact a column of the layout, each with this basis."""
        return {column.name: partial(self._tell, column, basis) for column in self.table.layout.columns}

    def column_units(self) -> Mapping[str, str]:
        """The unit of each column."""
        return {column.name: self._unit(column) for column in self.table.layout.columns}

    def _unit(self, column: Column) -> str:
        return "name" if column.name in NAMING else COLUMN_UNITS.get(column.name, UNITS.get(column.kind, "text"))

    def _tell(self, column: Column, basis: Basis) -> Found | Gap:
        if not self.table.has(column.name) and column.empty is None:
            return Gap(f"{self.table.file} has no column {column.name}")
        cell = self["day" if column.kind == "moment" else column.name]
        if cell is None or pd.isna(cell) or cell == "":
            return Gap(f"{self.table.file} leaves {column.name} empty")
        value = self._value(column, cell)
        places = -int(value.as_tuple().exponent) if isinstance(value, Decimal) else 0
        return Found(value, self.records, basis, decimals=max(places, 0))

    def _value(self, column: Column, cell: Any) -> Value:
        if column.name in NAMING:
            return Name(self.kind, self.id, str(cell))
        match column.kind:
            case "day" | "moment":
                return pd.Timestamp(cell).date()
            case "whole":
                return int(cell)
            case "decimal":
                return Decimal(cell)
            case "yes or no":
                return bool(cell)
            case "money":
                currency = str(self["currency"])
                return Money(((currency, Decimal(int(cell)).scaleb(-minor_digits(currency))),))
            case _:
                return str(cell)


def rows_by_id(table: Table) -> dict[str, int]:
    """The record of each item of a table whose first column names it, in the order of the ids."""
    frame = table.frame
    return dict(sorted(zip(frame[table.layout.columns[0].name].tolist(), frame.index.tolist(), strict=True)))
