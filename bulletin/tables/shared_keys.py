"""Columns of ids as integers, worked out once for all checks that compare the same ones."""

from __future__ import annotations

from bulletin.tables.integer_keys import Integers, id_keys
from bulletin.tables.table import Table


class SharedKeys:
    """The keys of columns as one check after another asks for them."""

    def __init__(self) -> None:
        """Nothing is worked out before it is asked for."""
        self._found: dict[tuple[tuple[str, str], ...], list[Integers]] = {}

    def of(self, *columns: tuple[Table, str]) -> list[Integers]:
        """The keys of these columns: equal in all of them where the cells are, -1 for an empty one."""
        names = tuple((table.name, column) for table, column in columns)
        if names not in self._found:
            self._found[names] = id_keys([table.frame[column].astype("str") for table, column in columns])
        return self._found[names]
