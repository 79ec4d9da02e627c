"""A data folder in: every table read, typed and checked, every fault at once with its place.

bytes -> text (opening) -> columns of text (cells) -> our words (columns, rows) -> typed frame (frames) -> checks
"""

from __future__ import annotations

from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from bulletin.model import Place, Problem
from bulletin.settings import Settings, TableSettings, settings_places
from bulletin.settings.toml_places import TomlPlaces
from bulletin.tables.cells import read_cells, read_header
from bulletin.tables.columns import match_columns, settings_problems, unknown_table
from bulletin.tables.faults import Where
from bulletin.tables.frames import make_frame
from bulletin.tables.kinds import Ways
from bulletin.tables.layouts import LAYOUTS, Layout
from bulletin.tables.opening import open_source
from bulletin.tables.rows import leave_out, our_texts
from bulletin.tables.single import single_faults
from bulletin.tables.source import Source
from bulletin.tables.table import LeftOut, Table, Tables
from bulletin.tables.together import Checked, problems_between

TEXT_BY_TEXT = frozenset({"id", "text", "moment"})
"""Kinds whose columns have about as many distinct texts as rows."""


@dataclass(frozen=True, eq=False)
class _Reading:
    """One table as read: None where there is no usable file; `good` without an error of its own."""

    table: Table | None
    where: Where | None
    left_out: list[LeftOut]
    problems: list[Problem]


def read_tables(folder: Path, settings: Settings) -> tuple[Tables, list[Problem]]:
    """The tables of a data folder and every fault in them.

    Tables with faults are there as well, wrong cells empty; nothing may be told from them where an error is among the
    problems. Problems are sorted by place.
    """
    places = settings_places(folder)
    with ThreadPoolExecutor() as pool:
        read = pool.map(lambda layout: _read(folder, layout, settings, places), LAYOUTS.values())
        readings = dict(zip(LAYOUTS, read, strict=True))
    problems = [problem for reading in readings.values() for problem in reading.problems]
    for name, said in settings.tables.items():
        if name not in LAYOUTS:
            problems.append(unknown_table(name, list(LAYOUTS), places))
        problems += settings_problems(name, LAYOUTS.get(name), said, places)
    checked = {name: Checked(r.table, r.where) for name, r in readings.items() if r.table is not None and r.where is not None}
    problems += problems_between(checked, settings)
    tables = Tables(
        {name: reading.table for name, reading in readings.items() if reading.table is not None},
        {name: _file(settings.tables, layout) for name, layout in LAYOUTS.items()},
        tuple(row for reading in readings.values() for row in reading.left_out),
    )
    return tables, sorted(problems, key=lambda problem: (problem.place, problem.rule, problem.words))


def _file(said: Mapping[str, TableSettings], layout: Layout) -> str:
    return (said[layout.name].file if layout.name in said else None) or f"{layout.name}.csv"


def _read(folder: Path, layout: Layout, settings: Settings, places: TomlPlaces) -> _Reading:
    """One table with the faults that lie within it."""
    said = settings.tables.get(layout.name, TableSettings())
    source, problems = open_source(folder, layout, said, places)
    if source is None:
        return _Reading(None, None, [], problems)
    header = read_header(source)
    if not header:
        return _Reading(None, None, [], [Problem("table-empty", "error", Place(source.file), details={"table": layout.name})])
    ways = Ways(said.decimal, said.thousands, said.dates, settings.maker.zone)
    return _read_rows(source, header, layout, (said, places), ways)


def _read_rows(
    source: Source, header: tuple[str, ...], layout: Layout, said: tuple[TableSettings, TomlPlaces], ways: Ways
) -> _Reading:
    coded = {column.name for column in layout.columns if column.kind not in TEXT_BY_TEXT}
    numbers, problems = match_columns(source, header, layout, said)
    by_code = {number for name, number in numbers.items() if number >= 0 and name in coded}
    cells = read_cells(source, len(header), by_code, {number for number in numbers.values() if number >= 0} - by_code)
    cells, left_out, unused = leave_out(cells, numbers, layout, said)
    frame, faults = make_frame(layout, our_texts(cells, numbers, said[0]), cells.records, ways)
    table = Table(layout.name, source.file, layout, frame, numbers, cells.source)
    where = Where(layout, cells.source, numbers, header, said[1])
    wrong = frozenset((fault.record, fault.column) for fault in faults)
    faults = [*faults, *single_faults(table, wrong)]
    return _Reading(table, where, left_out, problems + cells.problems + unused + where.problems(faults))
