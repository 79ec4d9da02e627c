"""A data folder in: every table read, typed and checked, every fault at once with its place.

bytes -> text (opening) -> columns of text (cells) -> our words (columns, rows) -> typed frame (frames) -> checks
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from bulletin.model import Place, Problem
from bulletin.settings import Settings, TableSettings, settings_places
from bulletin.settings.toml_places import TomlPlaces
from bulletin.tables.cells import read_cells
from bulletin.tables.columns import match_columns, settings_problems, unknown_table
from bulletin.tables.faults import Where
from bulletin.tables.frames import make_frame
from bulletin.tables.header import other_delimiter, read_header
from bulletin.tables.layouts import LAYOUTS, Layout
from bulletin.tables.likely_columns import Export, with_likely_columns
from bulletin.tables.opening import open_source
from bulletin.tables.rows import leave_out, our_texts
from bulletin.tables.shared_keys import SharedKeys
from bulletin.tables.single import single_faults
from bulletin.tables.source import Source
from bulletin.tables.table import LeftOut, Table, Tables
from bulletin.tables.together import Checked, problems_between
from bulletin.tables.unread import unread_files
from bulletin.tables.ways import Ways

TEXT_BY_TEXT = frozenset({"id", "text", "moment"})
"""Kinds whose columns have about as many distinct texts as rows."""


@dataclass(frozen=True, eq=False)
class _Reading:
    """One table as read: None where there is no usable file.

    `form` are faults of the file, its header and its rows, which others may follow from; `whole` tells that no row is lost.
    """

    table: Table | None = None
    where: Where | None = None
    left_out: tuple[LeftOut, ...] = ()
    form: tuple[Problem, ...] = ()
    problems: tuple[Problem, ...] = ()
    whole: bool = False


def read_tables(folder: Path, settings: Settings) -> tuple[Tables, list[Problem]]:
    """The tables of a data folder and every fault in them.

    Tables with faults are there as well, wrong cells empty; nothing may be told from them where an error is among the
    problems. Faults of a file's form come first, since others may follow from them; then problems are sorted by place.
    """
    places = settings_places(folder)
    readings = {name: _read(folder, layout, settings, places) for name, layout in LAYOUTS.items()}
    files = {name: _file(settings.tables, layout) for name, layout in LAYOUTS.items()}
    problems = [problem for reading in readings.values() for problem in reading.problems]
    problems += [*_said_of_tables(settings, places), *unread_files(folder, files, settings.tables)]
    read = {name: reading.table for name, reading in readings.items() if reading.table is not None}
    keys = SharedKeys(read)
    problems += problems_between(_checked(readings), keys, settings)
    left_out = tuple(row for reading in readings.values() for row in reading.left_out)
    tables = Tables(read, keys, files, left_out)
    return tables, _sorted([fault for reading in readings.values() for fault in reading.form]) + _sorted(problems)


def _said_of_tables(settings: Settings, places: TomlPlaces) -> Iterator[Problem]:
    """What is wrong with `[tables]` in the settings."""
    for name, said in settings.tables.items():
        if name not in LAYOUTS:
            yield unknown_table(name, list(LAYOUTS), places)
        yield from settings_problems(name, LAYOUTS.get(name), said, places)


def _checked(readings: Mapping[str, _Reading]) -> dict[str, Checked]:
    return {
        name: Checked(reading.table, reading.where, reading.whole)
        for name, reading in readings.items()
        if reading.table is not None and reading.where is not None
    }


def _sorted(problems: list[Problem]) -> list[Problem]:
    return sorted(problems, key=lambda problem: (problem.place, problem.rule, problem.words))


def _file(said: Mapping[str, TableSettings], layout: Layout) -> str:
    return (said[layout.name].file if layout.name in said else None) or f"{layout.name}.csv"


def _read(folder: Path, layout: Layout, settings: Settings, places: TomlPlaces) -> _Reading:
    """One table with the faults that lie within it."""
    said = settings.tables.get(layout.name, TableSettings())
    source, problems = open_source(folder, layout, said, places)
    if source is None:
        return _Reading(form=tuple(problems))
    header = read_header(source)
    if not header:
        return _Reading(form=(Problem("table-empty", "error", Place(source.file), details={"table": layout.name}),))
    other = other_delimiter(source, header, layout.name, {said.columns.get(name, name) for name in layout.names()})
    if other is not None:
        return _Reading(form=(other,))
    ways = Ways(said.decimal, said.thousands, said.dates, settings.maker.zone)
    return _read_rows(source, header, layout, (said, places), ways)


def _read_rows(
    source: Source, header: tuple[str, ...], layout: Layout, said: tuple[TableSettings, TomlPlaces], ways: Ways
) -> _Reading:
    coded = {column.name for column in layout.columns if column.kind not in TEXT_BY_TEXT}
    numbers, problems = match_columns(source, header, layout, said)
    by_code = {number for name, number in numbers.items() if number >= 0 and name in coded}
    cells = read_cells(source, len(header), by_code, {number for number in numbers.values() if number >= 0} - by_code)
    problems = with_likely_columns(problems, cells, Export(header, layout, said[0], ways))
    broken = cells.problems
    cells, left_out, unused = leave_out(cells, numbers, layout, said)
    frame, faults = make_frame(layout, our_texts(cells, numbers, said[0]), cells.records, ways)
    table = Table(layout.name, source.file, layout, frame, numbers, cells.source)
    where = Where(layout, cells.source, numbers, header, said[1])
    wrong = frozenset((fault.record, fault.column) for fault in faults)
    found = where.problems([*faults, *single_faults(table, wrong)])
    form = [problem for problem in problems if problem.level == "error"] + broken
    rest = [problem for problem in problems if problem.level != "error"] + unused + found
    return _Reading(table, where, tuple(left_out), tuple(form), tuple(rest), whole=not broken)
