"""The rows behind a fact, found when asked for (`model.Rows`)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.scopes.family import Records
from bulletin.tables.table import Tables


@dataclass(frozen=True, slots=True, eq=False)
class SourceRows:
    """Record numbers by table, turned into lines and cells of the maker's own files."""

    tables: Tables
    find: Callable[[], Records]

    @property
    def records(self) -> Records:
        """The record numbers by table name, each once, in the order of the file. Not kept: all facts' would be too many."""
        return {name: _in_order(found) for name, found in sorted(self.find().items())}

    def counts(self) -> dict[str, int]:
        """How many rows of which file."""
        return {self.tables.file(name): len(found) for name, found in self.records.items()}

    def lines(self) -> dict[str, list[int]]:
        """The lines of each file on which these rows begin, in ascending order."""
        return {self.tables.file(name): self.tables[name].lines(found) for name, found in self.records.items()}

    def cells(self) -> dict[str, list[dict[str, str]]]:
        """The rows with their declared columns as the file has them, in the order of their lines."""
        return {self.tables.file(name): self.tables[name].cells(found) for name, found in self.records.items()}


def _in_order(records: NDArray[np.int64]) -> NDArray[np.int64]:
    """Each once and ascending, as most are found."""
    return records if (records[1:] > records[:-1]).all() else np.unique(records)
