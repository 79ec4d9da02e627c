"""Faults of cells before they have a place, and how they become problems.

A check says only what is wrong with which cell of which record; the place in the file is looked up here, for wrong cells alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from bulletin.model import NOTHING, Level, Place, Problem
from bulletin.settings.toml_places import TomlPlaces
from bulletin.tables.layouts import Layout
from bulletin.tables.source import Source

UNMASKED = frozenset({"order", "bulletins"})
"""Columns of a personal table that are no private detail."""


class Wrong(NamedTuple):
    """What is wrong with a text: the rule's name, what the sentence names, what to write instead."""

    rule: str
    details: Mapping[str, str] = NOTHING
    offer: str = ""


class CellFault(NamedTuple):
    """What is wrong with the cell of a record, by our name of its column."""

    record: int
    column: str
    words: str
    wrong: Wrong
    level: Level = "error"


@dataclass(frozen=True, slots=True)
class Where:
    """What turns a table's faults into problems: its layout, its text, its columns' numbers and names in the file.

    `numbers` holds -1 for a column that `fill` gives: its faults stand in the settings.
    """

    layout: Layout
    source: Source
    numbers: Mapping[str, int]
    header: tuple[str, ...]
    settings: TomlPlaces

    def problems(self, faults: Iterable[CellFault]) -> list[Problem]:
        """Each fault with its place; what `fill` gives is told once, not for each row."""
        found = [self._problem(fault) for fault in faults]
        filled = {problem.words: problem for problem in found if problem.place.file == self.settings.file}
        return [problem for problem in found if problem.place.file != self.settings.file] + list(filled.values())

    def name(self, column: str) -> str:
        """A column's name as the file has it."""
        number = self.numbers.get(column, -1)
        return self.header[number] if number >= 0 else column

    def place(self, record: int, column: str) -> Place:
        """The place of a cell."""
        number = self.numbers.get(column, -1)
        if number < 0:
            return self.settings.find(("tables", self.layout.name, "fill", column))
        return self.source.place(record, number)

    def _named(self, details: Mapping[str, str]) -> dict[str, str]:
        """Details with columns (`..._column`, `..._columns`) by the names that the file has."""
        return {
            key: ", ".join(self.name(column) for column in text.split(",")) if key.endswith(("_column", "_columns")) else text
            for key, text in details.items()
        }

    def _problem(self, fault: CellFault) -> Problem:
        details = {"table": self.layout.name, "column": self.name(fault.column), **self._named(fault.wrong.details)}
        private = self.layout.personal and fault.column not in UNMASKED
        words, offer = (masked(fault.words), "") if private else (fault.words, fault.wrong.offer)
        return Problem(fault.wrong.rule, fault.level, self.place(fault.record, fault.column), words, details, offer)


def masked(words: str) -> str:
    """A private text as messages may show it: its first character."""
    return f"{words[0]}…" if words else ""
