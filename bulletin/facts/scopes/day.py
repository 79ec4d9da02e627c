"""What every fact is computed from: the tables as they stood on a day, the settings, the calendar."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from typing import Any, TypeVar

from bulletin.facts.scopes.calendar import Calendar
from bulletin.model import Fact
from bulletin.settings import Settings
from bulletin.tables.table import Table, Tables

Built = TypeVar("Built")


@dataclass(frozen=True, eq=False)
class Day:
    """One day of a maker. `tables` are already as of that day; `last` are the facts of the bulletin recorded before it."""

    as_of: date
    tables: Tables
    settings: Settings
    last: Mapping[str, Fact] = field(default_factory=dict)
    _built: dict[Callable[[Day], Any], Any] = field(default_factory=dict, repr=False)

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

    def once(self, begin: Callable[[Day], Built]) -> Built:
        """Build something of this day once, for every family that asks: `day.once(Backlog)`."""
        if begin not in self._built:
            self._built[begin] = begin(self)
        built: Built = self._built[begin]
        return built
