"""Every column of an item's row as a fact of that item, under the column's own name."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property, partial
from types import MappingProxyType
from typing import Any

import numpy as np
import pandas as pd

from bulletin.facts.scopes.family import Found, Gap, Records
from bulletin.model import Basis, Money, Name, Value
from bulletin.settings import minor_digits
from bulletin.tables.layouts import Column
from bulletin.tables.table import Table

UNITS: Mapping[str, str] = MappingProxyType(
    {
        "day": "date",
        "moment": "date",
        "whole": "number",
        "decimal": "number",
        "money": "money",
        "yes or no": "yes/no",
    }
)
"""Units of columns by kind; all others are text."""
COLUMN_UNITS: Mapping[str, str] = MappingProxyType(
    {
        "state": "state",
        "lead_days": "day",
        "safety_stock": "part",
        "checked": "unit",
        "failed": "unit",
        "lot_size": "unit",
    }
)
NAMING = ("name", "title")
"""Columns that say what a thing is called, which names.csv may say in other languages."""


class Sheet:
    """A table whose first column names an item a row; `kind` is what names.csv calls such items."""

    def __init__(self, table: Table, kind: str) -> None:
        """Columns become lists when they are first read, since items are looked at one by one."""
        self.table = table
        self.kind = kind
        self.columns = {column.name: column for column in table.layout.columns}
        self.units = {column.name: unit_of(column) for column in table.layout.columns}
        self._lists: dict[str, list[Any]] = {}

    @cached_property
    def positions(self) -> dict[str, int]:
        """Where the row of each item stands, in the order of the ids."""
        ids = self.column(self.table.layout.columns[0].name)
        return dict(sorted(zip(ids, range(len(ids)), strict=True)))

    def column(self, name: str) -> list[Any]:
        """The cells of a column, as the frame has them."""
        if name not in self._lists:
            self._lists[name] = self.table.frame[name].tolist()
        return self._lists[name]

    def row(self, named: str) -> Row | None:
        """The row of an item; None where there is none of that id."""
        position = self.positions.get(named)
        return None if position is None else Row(self, position, named)


@dataclass(frozen=True, slots=True)
class Row:
    """The row of one item."""

    sheet: Sheet
    position: int
    id: str

    @property
    def name(self) -> Name:
        """What the item is called; its id where the row has no name for it."""
        column = next((name for name in NAMING if name in self.sheet.units), None)
        return Name(self.sheet.kind, self.id, (column and self[column]) or self.id)

    @property
    def record(self) -> int:
        """The number of its record in the file."""
        return int(self.sheet.table.frame.index[self.position])

    def __getitem__(self, column: str) -> Any:
        """The cell of a column as the frame has it."""
        return self.sheet.column(column)[self.position]

    def records(self) -> Records:
        """The row itself."""
        return {self.sheet.table.name: np.array([self.record], np.int64)}

    def columns(self, basis: Basis = Basis.RECORD) -> Mapping[str, Callable[[], Found | Gap]]:
        """A fact a column of the layout, each with this basis."""
        return RowColumns(self, basis)

    def tell(self, column: Column, basis: Basis) -> Found | Gap:
        """What a column says, resting on this basis; a gap where it is empty or missing."""
        table = self.sheet.table
        if not table.has(column.name) and column.empty is None:
            return Gap(f"{table.file} has no column {column.name}")
        cell = self["day" if column.kind == "moment" else column.name]
        if not cell if isinstance(cell, str) else cell is None or pd.isna(cell):
            return Gap(f"{table.file} leaves {column.name} empty")
        value = self._value(column, cell)
        places = -int(value.as_tuple().exponent) if isinstance(value, Decimal) else 0
        return Found(value, self.records, basis, self.sheet.units[column.name], max(places, 0))

    def _value(self, column: Column, cell: Any) -> Value:
        if column.name in NAMING:
            return Name(self.sheet.kind, self.id, str(cell))
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


@dataclass(frozen=True, slots=True, eq=False)
class RowColumns(Mapping[str, Callable[[], "Found | Gap"]]):
    """The facts of a row's columns by name, made when they are asked for: thousands of rows are listed, few looked at."""

    row: Row
    basis: Basis

    def __getitem__(self, name: str) -> Callable[[], Found | Gap]:
        """The fact of one column."""
        return partial(self.row.tell, self.row.sheet.columns[name], self.basis)

    def __contains__(self, name: object) -> bool:
        """Whether the layout has such a column."""
        return name in self.row.sheet.columns

    def __iter__(self) -> Iterator[str]:
        """The columns in the order of the layout."""
        return iter(self.row.sheet.columns)

    def __len__(self) -> int:
        """How many there are."""
        return len(self.row.sheet.columns)


def unit_of(column: Column) -> str:
    """The unit that the facts of a column have."""
    return "name" if column.name in NAMING else COLUMN_UNITS.get(column.name, UNITS.get(column.kind, "text"))
