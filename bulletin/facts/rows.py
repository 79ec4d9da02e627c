"""The rows behind a fact, found when asked for (`model.Rows`)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from bulletin.facts.family import Records
from bulletin.tables.table import Tables


@dataclass(frozen=True, eq=False)
class SourceRows:
    """Record numbers by table, turned into lines and cells of the maker's own files."""

    tables: Tables
    find: Callable[[], Records]

    @cached_property
    def records(self) -> Records:
        """The record numbers by table name."""
        return self.find()

    def counts(self) -> dict[str, int]:
        """How many rows of which file, files in alphabetical order."""
        return {self.tables.file(name): len(self.records[name]) for name in sorted(self.records)}

    def lines(self) -> dict[str, list[int]]:
        """The lines of each file on which these rows begin."""
        return {self.tables.file(name): sorted(self._table_lines(name)) for name in sorted(self.records)}

    def cells(self) -> dict[str, list[dict[str, str]]]:
        """The rows with their declared columns as the file has them, and their line."""
        return {self.tables.file(name): self._table_cells(name) for name in sorted(self.records)}

    def _table_lines(self, name: str) -> list[int]:
        table = self.tables.get(name)
        return table.lines(self.records[name]) if table is not None else []

    def _table_cells(self, name: str) -> list[dict[str, str]]:
        table = self.tables.get(name)
        return table.cells(self.records[name]) if table is not None else []
