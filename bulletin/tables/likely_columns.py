"""Which column of a file is likely the one that is missing, by what its cells hold: an export seldom calls it as we do."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from bulletin.model import Problem
from bulletin.settings import TableSettings
from bulletin.tables.cells import Cells
from bulletin.tables.faults import Wrong
from bulletin.tables.kinds import read_cell
from bulletin.tables.layouts import Column, KindName, Layout
from bulletin.tables.ways import Ways

LOOKED_AT = 50
"""Rows by which a column is judged."""
ANY_TEXT: frozenset[KindName] = frozenset({"id", "text", "path", "model", "batch"})
"""Kinds that nearly every column fits: they choose from what no other kind has chosen."""


@dataclass(frozen=True, eq=False)
class Export:
    """A file by what is known of it before its cells are typed: its header, what it is to be, what the settings say."""

    header: tuple[str, ...]
    layout: Layout
    settings: TableSettings
    ways: Ways

    @property
    def columns(self) -> dict[str, Column]:
        """The columns of the layout by the names that the file should have for them."""
        return {self.settings.columns.get(column.name, column.name): column for column in self.layout.columns}


def with_likely_columns(problems: list[Problem], cells: Cells, export: Export) -> list[Problem]:
    """The problems of a header, those of missing columns with the column of the file that is likely meant.

    Each offers the whole setting for all of them, since it can stand but once.
    """
    columns = export.columns
    missing = [columns[problem.words] for problem in problems if problem.rule == "column-missing"]
    if not missing:
        return problems
    likely = {column: export.header[number] for column, number in _likely(missing, _unread(cells, export), export.ways).items()}
    named = {**export.settings.columns, **likely}
    offer = f"columns = {{ {', '.join(f'{column} = {json.dumps(name, ensure_ascii=False)}' for column, name in named.items())} }}"
    return [_told(problem, columns, likely, offer) for problem in problems]


def _told(problem: Problem, columns: Mapping[str, Column], likely: Mapping[str, str], offer: str) -> Problem:
    if problem.rule != "column-missing" or columns[problem.words].name not in likely:
        return problem
    return replace(problem, rule="column-elsewhere", words=likely[columns[problem.words].name], offer=offer)


def _unread(cells: Cells, export: Export) -> dict[int, list[str]]:
    """The first cells of each column that is not read, by its number in the file."""
    rows = [cells.source.cells(int(record)) for record in cells.records[:LOOKED_AT]]
    unread = [number for number, name in enumerate(export.header) if name not in export.columns]
    return {number: [row[number].strip() for row in rows] for number in unread}


def _likely(missing: Sequence[Column], texts: Mapping[int, list[str]], ways: Ways) -> dict[str, int]:
    """For each missing column the one column of the file that holds what it must hold, if no other column claims it."""
    claims: dict[str, int] = {}
    for chosen in ([c for c in missing if c.kind not in ANY_TEXT], [c for c in missing if c.kind in ANY_TEXT]):
        free = {number: held for number, held in texts.items() if number not in claims.values()}
        fitting = {column.name: [number for number, held in free.items() if _fits(column, held, ways)] for column in chosen}
        single = {name: numbers[0] for name, numbers in fitting.items() if len(numbers) == 1}
        taken = list(single.values())
        claims |= {name: number for name, number in single.items() if taken.count(number) == 1}
    return claims


def _fits(column: Column, texts: list[str], ways: Ways) -> bool:
    read = read_cell(column, ways)
    values = [read(text) if text else Wrong("cell-missing") for text in texts]
    wrong = {value.rule for value in values if isinstance(value, Wrong)}
    return bool(texts) and wrong <= {"date-written-otherwise"}
