"""Columns of ids as integers, worked out once for all who compare them: the checks, states read back to a day, the facts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from bulletin.tables.integer_keys import Integers, dense_keys

if TYPE_CHECKING:
    from bulletin.tables.table import Table

Reference = tuple[str, str]
"""A table and its column."""


class SharedKeys:
    """All columns that refer to the same one have their keys together with it; so do the columns asked for together."""

    def __init__(self, tables: Mapping[str, Table]) -> None:
        """Nothing is worked out before it is asked for."""
        self._tables = tables
        self._found: dict[tuple[Reference, ...], dict[Reference, Integers]] = {}

    def of(self, *columns: Reference) -> list[Integers]:
        """The keys of these columns, a row of the table as read: equal where the cells are, from 0; -1 for an empty one."""
        targets = {target for table, column in columns for target in self._targets(table, column)}
        together = self._referring(targets.pop()) if len(targets) == 1 else columns
        if together not in self._found:
            self._found[together] = self._joined(together)
        return [self._found[together][column] for column in columns]

    def _targets(self, table: str, column: str) -> tuple[Reference, ...]:
        return self._tables[table].layout.column(column).refers or ((table, column),)

    def _referring(self, target: Reference) -> tuple[Reference, ...]:
        """A column and all that refer to it alone."""
        return tuple(
            (name, column.name)
            for name, table in self._tables.items()
            for column in table.layout.columns
            if (name, column.name) == target or column.refers == (target,)
        )

    def _joined(self, columns: tuple[Reference, ...]) -> dict[Reference, Integers]:
        given = [column for column in columns if self._tables[column[0]].has(column[1])]
        keys = dict(zip(given, dense_keys([self._tables[name].frame[column] for name, column in given]), strict=True))
        return {column: keys[column] if column in keys else self._empty(column[0]) for column in columns}

    def _empty(self, table: str) -> Integers:
        return np.full(len(self._tables[table].frame), -1, np.int64)
