"""Which column of a file is which of ours, by the header and the settings."""

from __future__ import annotations

from collections.abc import Iterator

from bulletin.model import Level, Place, Problem
from bulletin.settings import TableSettings
from bulletin.settings.codes import nearest
from bulletin.settings.toml_places import TomlPlaces
from bulletin.tables.layouts import Layout
from bulletin.tables.source import Source


def match_columns(
    source: Source, header: tuple[str, ...], layout: Layout, said: tuple[TableSettings, TomlPlaces]
) -> tuple[dict[str, int], list[Problem]]:
    """Our names of the columns that the file or `fill` gives, with their numbers in the file (-1: `fill`)."""
    settings, places = said
    numbers: dict[str, int] = {}
    missing: list[str] = []
    wanted = {settings.columns.get(name, name) for name in layout.names()}
    for column in layout.columns:
        name = settings.columns.get(column.name, column.name)
        if name in header:
            numbers[column.name] = header.index(name)
        elif column.name in settings.fill:
            numbers[column.name] = -1
        elif not column.optional or column.name in settings.columns:
            missing.append(name)
    problems = [*_twice(source, header, wanted), *_unread(source, header, wanted, missing)]
    misspelt = {problem.offer for problem in problems if problem.rule == "column-misspelt"}
    problems += [_missing(source, name, layout) for name in missing if name not in misspelt]
    problems += _unused_fill(layout, numbers, settings, places)
    return numbers, problems


def _missing(source: Source, name: str, layout: Layout) -> Problem:
    return Problem("column-missing", "error", source.place(-1, 0), name, {"column": name, "table": layout.name})


def _twice(source: Source, header: tuple[str, ...], wanted: set[str]) -> Iterator[Problem]:
    for number, name in enumerate(header):
        if name in wanted and name in header[:number]:
            yield Problem("column-twice", "error", source.place(-1, number), name, {"column": name})


def _unread(source: Source, header: tuple[str, ...], wanted: set[str], missing: list[str]) -> Iterator[Problem]:
    """Columns that are not read, with the nearest of those that the file does not have: an error where that one is missing."""
    free = sorted(wanted - set(header))
    for number, name in enumerate(header):
        if not name or name in wanted:
            continue
        offer = nearest(name, free)
        place = source.place(-1, number)
        if offer in missing:
            free.remove(offer)
            yield Problem("column-misspelt", "error", place, name, {"column": offer}, offer)
        else:
            yield Problem("column-unknown", "warn", place, name, {"column": name}, offer)


def _unused_fill(layout: Layout, numbers: dict[str, int], settings: TableSettings, places: TomlPlaces) -> Iterator[Problem]:
    for name in settings.fill:
        if numbers.get(name, -1) >= 0:
            yield Problem("fill-unused", "warn", places.find(("tables", layout.name, "fill", name)), name, {"column": name})


def settings_problems(name: str, layout: Layout | None, settings: TableSettings, places: TomlPlaces) -> Iterator[Problem]:
    """What `[tables.<name>]` says of columns that the layout does not have."""
    if layout is None:
        return
    for key in ("columns", "values", "fill", "leave_out"):
        for column in getattr(settings, key):
            if column not in layout.names():
                place = places.find(("tables", name, key, column))
                yield Problem(
                    "setting-unknown",
                    "error",
                    place,
                    column,
                    {"key": f"tables.{name}.{key}.{column}"},
                    nearest(column, layout.names()),
                )
    for column, pairs in settings.values.items():
        yield from _value_problems(name, layout, (column, pairs), places)


def _value_problems(name: str, layout: Layout, said: tuple[str, object], places: TomlPlaces) -> Iterator[Problem]:
    column, pairs = said
    choices = next((known.choices for known in layout.columns if known.name == column), ())
    if not choices or not isinstance(pairs, dict):
        return
    for theirs, ours in pairs.items():
        if ours not in choices:
            place = places.find(("tables", name, "values", column, theirs))
            details = {"key": f"tables.{name}.values.{column}.{theirs}", "expected": f"one of {', '.join(choices)}"}
            yield Problem("setting-wrong", "error", place, ours, details, nearest(ours, choices))


def unknown_table(name: str, known: list[str], places: TomlPlaces) -> Problem:
    """A section for a table that does not exist."""
    place: Place = places.find(("tables", name))
    level: Level = "error"
    return Problem("setting-unknown", level, place, name, {"key": f"tables.{name}"}, nearest(name, known))
