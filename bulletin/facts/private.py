"""What no public text may hold, by the tables: numbers of orders, serials of units, who people are and where they are reached.

A million of them must not slow a draft down: a column becomes a set when the first word is looked up, and that in a moment.
"""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass
from functools import cached_property

import pandas as pd

from bulletin.model import Private
from bulletin.tables.table import Tables


@dataclass(frozen=True, eq=False)
class Cells(Container[str]):
    """The cells of a column, to be asked whether a word is one of them."""

    column: pd.Series[str]
    lower: bool = False

    def __contains__(self, word: object) -> bool:
        """Whether the word is one of the cells, in lower case where they are kept so."""
        return word in self._set

    @cached_property
    def _set(self) -> frozenset[str]:
        cells = self.column.tolist()
        return frozenset(map(str.lower, cells) if self.lower else cells) - {""}


def private_of(tables: Tables) -> Private:
    """What the tables know; a missing one knows nothing."""
    return Private(
        orders=_cells(tables, "orders", "order"),
        serials=_cells(tables, "boxing", "serial"),
        people=_cells(tables, "contacts", "name", lower=True),
        emails=_cells(tables, "contacts", "email", lower=True),
    )


def _cells(tables: Tables, name: str, column: str, *, lower: bool = False) -> Container[str]:
    table = tables.get(name)
    return frozenset() if table is None else Cells(table.frame[column], lower)
