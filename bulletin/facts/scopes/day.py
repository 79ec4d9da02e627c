"""What every fact is computed from: the tables as they stood on a day, the settings, the calendar."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from types import MappingProxyType
from typing import Any, TypeVar

from bulletin.facts.scopes.calendar import Calendar
from bulletin.model import Fact, Promised
from bulletin.settings import Settings
from bulletin.tables.table import Table, Tables

Built = TypeVar("Built")

UNTOLD: Mapping[str, str] = MappingProxyType(
    {"stock": "no stock was counted up to this day", "structure": "the structure tells of no part"}
)
"""Tables that tell nothing as long as they have no row, and why. Any other without rows tells that there was nothing."""


@dataclass(frozen=True, eq=False)
class Day:
    """One day of a maker. `tables` are already as of that day; `last` are the facts of the bulletin recorded before it,
    `promised` the promises that bulletins recorded before it made.
    """

    as_of: date
    tables: Tables
    settings: Settings
    last: Mapping[str, Fact] = field(default_factory=dict)
    promised: tuple[Promised, ...] = ()
    _built: dict[Callable[[Day], Any], Any] = field(default_factory=dict, repr=False)
    _lacking: dict[tuple[str, ...], str] = field(default_factory=dict, repr=False)

    @cached_property
    def calendar(self) -> Calendar:
        """Working days, weeks and months as the settings have them."""
        return Calendar.of(self.settings)

    def table(self, name: str) -> Table:
        """A table that is there; scopes and facts declare the tables they need, so a missing one never gets here."""
        table = self.tables.get(name)
        if table is None:
            raise LookupError(f"{name} is not in the data folder, and no fact declared that it needs it")
        return table

    def has(self, name: str) -> bool:
        """Whether the data folder holds the table."""
        return self.tables.get(name) is not None

    def lacks(self, names: tuple[str, ...]) -> str:
        """Why facts that need these tables can't be told; empty where they can."""
        if names not in self._lacking:
            self._lacking[names] = self._lack(names)
        return self._lacking[names]

    def _lack(self, names: tuple[str, ...]) -> str:
        missing = [self.tables.file(name) for name in names if not self.has(name)]
        if missing:
            return f"needs {' and '.join(missing)}, which the data folder lacks"
        return next((UNTOLD[name] for name in names if name in UNTOLD and self.table(name).frame.empty), "")

    def once(self, begin: Callable[[Day], Built]) -> Built:
        """Build something of this day once, for every family that asks: `day.once(Backlog)`."""
        if begin not in self._built:
            self._built[begin] = begin(self)
        built: Built = self._built[begin]
        return built
