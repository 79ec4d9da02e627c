"""Families whose items are the rows of one table: a door to each row, and every column of it as a fact."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import ClassVar

from bulletin.facts.columns import Row, rows_by_id
from bulletin.facts.day import Day
from bulletin.facts.family import Found, Gap, Scope, door
from bulletin.model import Basis


class Item(Scope):
    """A row that describes one thing."""

    def __init__(self, day: Day, row: Row) -> None:
        """A row of the family's table."""
        super().__init__(day)
        self.row = row

    @property
    def basis(self) -> Basis:
        """What the columns of the row rest on."""
        return Basis.RECORD

    def columns(self) -> Mapping[str, Callable[[], Found | Gap]]:
        """The columns of its row."""
        return self.row.columns(self.basis)

    def column_units(self) -> Mapping[str, str]:
        """Their units."""
        return self.row.column_units()


class Items(Scope):
    """All rows of the first of the family's tables; `kind` is that of names.csv."""

    kind: ClassVar[str]
    item_type: ClassVar[type[Item]] = Item

    @door("item", choices="ids", name="")
    def item(self, id: str) -> Item | None:  # noqa: A002
        """One of them."""
        row = self.row(id)
        return self.item_type(self.day, row) if row else None

    def row(self, id: str) -> Row | None:  # noqa: A002
        """Its row; None where there is none of that id."""
        record = self.records.get(id)
        return None if record is None else Row(self.day.table(self.tables[0]), record, self.kind, id)

    def ids(self) -> tuple[str, ...]:
        """Those that have facts of their own."""
        return tuple(self.records)

    @cached_property
    def records(self) -> dict[str, int]:
        """The record of each row by its id."""
        return rows_by_id(self.day.table(self.tables[0]))
