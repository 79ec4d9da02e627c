"""Families whose items are the rows of one table: a door to each row, and every column of it as a fact."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import ClassVar

from bulletin.facts.scopes.columns import Row, Sheet
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Scope, door
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
        return self._columns

    @cached_property
    def _columns(self) -> Mapping[str, Callable[[], Found | Gap]]:
        return self.row.columns(self.basis)


class Items(Scope):
    """All rows of the first of the family's tables; `kind` is that of names.csv."""

    kind: ClassVar[str]
    item_type: ClassVar[type[Item]] = Item

    @door("item", choices="ids", name="")
    def item(self, named: str) -> Item | None:
        """One of them."""
        row = self.sheet.row(named)
        return self.item_type(self.day, row) if row else None

    def ids(self) -> tuple[str, ...]:
        """Those that have facts of their own."""
        return tuple(self.sheet.positions)

    @cached_property
    def sheet(self) -> Sheet:
        """The family's table."""
        return Sheet(self.day.table(self.tables[0]), self.kind)
