"""What the settings say about a table's texts: the file's words for ours, columns to fill, rows to leave out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from bulletin.model import Problem
from bulletin.settings import TableSettings
from bulletin.settings.toml_places import TomlPlaces
from bulletin.tables.cells import Cells
from bulletin.tables.faults import UNMASKED
from bulletin.tables.layouts import Layout
from bulletin.tables.table import LeftOut
from bulletin.tables.texts import Coded, Texts


def leave_out(
    cells: Cells, numbers: Mapping[str, int], layout: Layout, said: tuple[TableSettings, TomlPlaces]
) -> tuple[Cells, list[LeftOut], list[Problem]]:
    """Take away the rows that `leave_out` names: where it names several columns, those that fit all of them.

    What is private of a row is not kept for the evidence.
    """
    settings, places = said
    named = {column: texts for column, texts in settings.leave_out.items() if numbers.get(column, -1) >= 0}
    if not named:
        return cells, [], []
    taken = np.ones(len(cells.records), dtype=bool)
    problems: list[Problem] = []
    for column, texts in named.items():
        given = cells.columns[numbers[column]]
        problems += _unused(layout, column, [text for text in texts if not given.among((text,)).any()], places)
        taken &= given.among(texts)
    shown = {column: number for column, number in numbers.items() if not layout.personal or column in UNMASKED}
    rows = [_left_out(cells, shown, int(record)) for record in cells.records[taken]]
    return cells.taken(~taken), rows, problems


def _unused(layout: Layout, column: str, texts: list[str], places: TomlPlaces) -> Iterator[Problem]:
    for text in texts:
        place = places.find(("tables", layout.name, "leave_out", column))
        yield Problem("leave-out-unused", "warn", place, text, {"column": column})


def _left_out(cells: Cells, numbers: Mapping[str, int], record: int) -> LeftOut:
    texts = cells.source.cells(record)
    shown = {column: texts[number] for column, number in numbers.items() if 0 <= number < len(texts)}
    return LeftOut(cells.source.file, cells.source.line(record), shown)


def our_texts(cells: Cells, numbers: Mapping[str, int], settings: TableSettings) -> dict[str, Texts]:
    """The texts of each column by our name, with `values` and `fill` applied."""
    texts: dict[str, Texts] = {}
    for column, number in numbers.items():
        if number < 0:
            texts[column] = Coded.same(settings.fill[column], len(cells.records))
        else:
            texts[column] = cells.columns[number].renamed(settings.values.get(column, {}))
    return texts
