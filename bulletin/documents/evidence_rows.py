"""The rows that the facts of a bulletin rest on, listed once for the evidence, so that each fact can lead a doubter to its own.

A fact of very many rows is not listed row by row: its lines are told, and `bulletin facts KEY` shows them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from bulletin.documents.statements import Statement
    from bulletin.model import Fact

MOST = 100
"""Rows of a fact, in all files together, up to which they are listed."""
UNFIT = re.compile(r"[^\w.-]")


@dataclass(frozen=True, slots=True)
class ListedRow:
    """A row as its file has it: the line on which it begins, and its cells that are not empty, by the names of our columns."""

    file: str
    line: int
    cells: tuple[tuple[str, str], ...]

    @property
    def anchor(self) -> str:
        """Its name within the page."""
        return anchor_of(self.file, self.line)


def anchor_of(file: str, line: int) -> str:
    """The name of a file's row within the page."""
    return f"{UNFIT.sub('_', file)}-{line}"


def listed_rows(statements: Iterable[Statement]) -> dict[str, tuple[ListedRow, ...]]:
    """The rows of all facts of few rows by file, each once, by line; both sorted."""
    facts = {fact.key: fact for statement in statements for fact in statement.judged.facts}
    found: dict[str, dict[int, ListedRow]] = {}
    for fact in facts.values():
        if is_listed(fact):
            for row in _rows(fact):
                found.setdefault(row.file, {})[row.line] = row
    return {file: tuple(rows[line] for line in sorted(rows)) for file, rows in sorted(found.items())}


def is_listed(fact: Fact) -> bool:
    """Whether a fact rests on few enough rows for each of them to be listed."""
    return 0 < sum(fact.rows.counts().values()) <= MOST


def _rows(fact: Fact) -> list[ListedRow]:
    cells: Mapping[str, list[dict[str, str]]] = fact.rows.cells()
    return [
        ListedRow(file, line, tuple((column, text) for column, text in row.items() if text))
        for file, lines in fact.rows.lines().items()
        for line, row in zip(lines, cells.get(file, ()), strict=False)
    ]
