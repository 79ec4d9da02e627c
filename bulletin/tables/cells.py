"""From the text of a file to its columns as text, by two ways that give the same.

The swift way is pandas' own engine, for files whose quotes are all in place. Its cell counts are right when no row is too long
(the engine says so) and the file holds exactly as many delimiters as its rows need. Everything else goes the general way
through the csv module, whose fault in a record costs that record alone.
"""

from __future__ import annotations

import csv
import importlib
import io
from collections.abc import Collection
from dataclasses import dataclass, replace
from importlib.util import find_spec
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.model import Level, Place, Problem
from bulletin.tables.header import LONGEST_HEADER
from bulletin.tables.letters import count
from bulletin.tables.quotes import Quotes, read_quotes
from bulletin.tables.source import Source
from bulletin.tables.texts import Coded, Mask, Plain, Texts

LONGEST_CELL = csv.field_size_limit()
"""Characters that the csv module takes for a cell; a quote that is missing makes longer ones."""


@dataclass(frozen=True, eq=False)
class Cells:
    """The wanted columns of a file by their numbers; `records` are the numbers of the rows that could be read."""

    source: Source
    columns: dict[int, Texts]
    records: NDArray[np.int64]
    problems: list[Problem]

    def taken(self, rows: Mask) -> Cells:
        """Some of the rows."""
        columns = {number: texts.taken(rows) for number, texts in self.columns.items()}
        return replace(self, columns=columns, records=self.records[rows])


def read_cells(source: Source, width: int, coded: Collection[int], plain: Collection[int]) -> Cells:
    """The columns of a file with `width` columns: `coded` ones by their distinct texts, `plain` ones text by text."""
    read = _swift(source, width) if is_simple(source) else None
    if read is None:
        return _without_empty(_general(source, width, coded, plain))
    source, texts = read
    rows = len(texts[0])
    columns: dict[int, Texts] = {number: Coded.of(texts.pop(number)) for number in coded}
    columns |= {number: Plain.of(texts.pop(number)) for number in plain}
    return _without_empty(Cells(source, columns, np.arange(rows), []))


def is_simple(source: Source) -> bool:
    """Whether the engine sees the lines and delimiters of a file as the csv module does."""
    text = source.text
    if b"\0" in text or len(source.delimiter.encode()) != 1 or source.delimiter == " ":
        return False
    return b"\r" not in text or text.count(b"\r") == text.count(b"\r\n")


def _swift(source: Source, width: int) -> tuple[Source, dict[int, Any]] | None:
    """All columns by pandas' engine, or None where a quote is out of place or a row has too many or too few cells."""
    quoted = b'"' in source.text
    quotes = read_quotes(source.text, source.delimiter) if quoted else Quotes(count(source.text, source.delimiter))
    if quotes is None or _cells_in_first_row(source) not in (1, width) or (quoted and source.longest_line > LONGEST_CELL):
        return None
    try:
        frame = pd.read_csv(
            io.BytesIO(source.text),
            sep=source.delimiter,
            header=0,
            names=list(range(width)),
            dtype=_text_dtype(),
            keep_default_na=False,
            na_filter=False,
            quoting=csv.QUOTE_MINIMAL if quoted else csv.QUOTE_NONE,
        )
    except (pd.errors.ParserError, pd.errors.EmptyDataError):
        return None
    if quotes.delimiters != (len(frame) + 1) * (width - 1) or not isinstance(frame.index, pd.RangeIndex):
        return None
    return source.without(quotes.continued), {number: frame.iloc[:, number].array for number in range(width)}


def _text_dtype() -> Any:
    """What the engine makes of cells at the least cost: Arrow's strings where pyarrow is installed, else Python's."""
    if find_spec("pyarrow") is None:
        return "object"
    return pd.ArrowDtype(importlib.import_module("pyarrow").large_string())


def _cells_in_first_row(source: Source) -> int:
    """How many cells the first row after the header has, which the engine does not count: 1 without one, 0 if broken."""
    beginning = io.StringIO(source.text[:LONGEST_HEADER].decode("utf-8", "ignore"), newline="")
    rows = (row for row in csv.reader(beginning, delimiter=source.delimiter) if len(row) > 1 or any(cell.strip() for cell in row))
    try:
        next(rows, None)
        return len(next(rows, [""]))
    except csv.Error:
        return 0


def _lines(source: Source) -> io.StringIO:
    return io.StringIO(source.text.decode("utf-8"), newline="")


def _general(source: Source, width: int, coded: Collection[int], plain: Collection[int]) -> Cells:
    """The columns by the csv module. Rows that hold nothing are no rows; rows of another width are faults."""
    rows, lines = _rows(source)
    source = replace(source, record_lines=np.array(lines, dtype=np.int64))
    records, problems = [], []
    for record, row in enumerate(rows[1:]):
        if row is None or len(row) != width:
            problems += _row_faults(source, record, row, width)
        else:
            records.append(record)
    by_number = list(zip(*(rows[record + 1] or [] for record in records), strict=True)) or [()] * width
    texts = {number: np.array(by_number[number], dtype=object) for number in {*coded, *plain}}
    columns: dict[int, Texts] = {number: Coded.of(texts[number]) for number in coded}
    columns |= {number: Plain.of(pd.array(texts[number], dtype="str")) for number in plain}
    return Cells(source, columns, np.array(records, dtype=np.int64), problems)


def _rows(source: Source) -> tuple[list[list[str] | None], list[int]]:
    """The records that are not blank and the lines they begin on, the header first; None for a broken record."""
    rows: list[list[str] | None] = []
    lines: list[int] = []
    reader = csv.reader(_lines(source), delimiter=source.delimiter, strict=True)
    while True:
        line = reader.line_num + 1
        try:
            row = next(reader, None)
        except csv.Error:
            rows.append(None)
        else:
            if row is None:
                return rows, lines
            if not any(cell.strip() for cell in row) and len(row) < 2:
                continue
            rows.append(row)
        lines.append(line)


def _row_faults(source: Source, record: int, row: list[str] | None, width: int) -> list[Problem]:
    """What is wrong with a record that is broken, too short or too long; nothing, if it is empty."""
    if row is None:
        place, rule = source.broken_cell(record)
        return [_problem(rule, place)]
    if not any(cell.strip() for cell in row):
        return []
    number = min(len(row), width)
    details = {"cells": str(len(row)), "columns": str(width)}
    words = row[width] if len(row) > width else ""
    rule = "row-long" if len(row) > width else "row-short"
    return [Problem(rule, "error", source.place(record, number), words, details)]


def _problem(rule: str, place: Place, level: Level = "error") -> Problem:
    return Problem(rule, level, place)


def _without_empty(cells: Cells) -> Cells:
    """Without the rows of which every wanted cell is empty."""
    empty = np.ones(len(cells.records), dtype=bool)
    for texts in cells.columns.values():
        empty &= texts.among(("",))
        if not empty.any():
            return cells
    return cells.taken(~empty)
