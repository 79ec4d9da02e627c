"""Every kind of table, damaged in every way its columns allow: each time the true place and the right rule."""

import csv
import io
from pathlib import Path

import pytest

from bulletin.model import Place
from bulletin.settings import read_settings
from bulletin.tables.layouts import LAYOUTS, Column
from bulletin.tables.reading import read_tables
from tests.tables.documents import read_case, write_alone, write_folder

GOOD, _ = read_case("good")
Damage = tuple[str, int, str, str]
"""A table, the number of a column, the cell written instead of the good one, the rule."""

NUMBERS = [(text, "cell-not-a-number") for text in ("x", "1,5", "1.2.3", "--1", "1e3", "0x10", "½", "1 000", "NaN", "inf")]
LARGE = [("1000000000000000", "cell-too-large"), ("9" * 60, "cell-too-large")]
BY_KIND = {
    "id": [(text, "cell-has-control-character") for text in ("a\x07b", "a\x1b[31mb", "a\u202eb", "a\x00b", "a\nb", "a\x7fb")],
    "text": [(text, "cell-has-control-character") for text in ("a\x07b", "a\x00b", "a\x1b[0m")],
    "path": [(text, "cell-path-outside") for text in ("../x", "a/../../x", "/etc/x", "C:\\x", "..\\x", "~/x", "\\\\host\\x")],
    "choice": [(text, "cell-not-a-choice") for text in ("nothing", "WAITING", "open;", "=1+1", "<b>open</b>")],
    "yes or no": [(text, "cell-not-a-choice") for text in ("maybe", "YES", "1", "true")],
    "market": [(text, "cell-not-a-market") for text in ("UK", "at", "AUT", "ZZ", "Austria", "EU", "XX")],
    "locale": [(text, "cell-not-a-locale") for text in ("de_AT", "xx", "german", "de-", "de-A!")],
    "currency": [(text, "cell-not-a-currency") for text in ("EURO", "eur", "€", "XYZ", "XAU")],
    "day": [
        *[(text, "date-does-not-exist") for text in ("2026-02-30", "2026-13-01", "2026-00-10", "30.02.2026")],
        *[(text, "date-written-otherwise") for text in ("27.03.2026", "3/27/26", "2026-03-01T09:00", "20260301")],
        *[(text, "cell-not-a-day") for text in ("2026-03", "tomorrow", "46100")],
        ("0026-03-01", "date-out-of-range"),
    ],
    "moment": [
        *[(text, "date-does-not-exist") for text in ("2026-02-30T09:00", "2026-03-01T25:00", "2026-03-01T09:60")],
        *[(text, "date-written-otherwise") for text in ("03/01/2026", "01.03.2026 09:15", "2026-3-1 9:15:00")],
        *[(text, "cell-not-a-moment") for text in ("9 o'clock", "2026-03-01T09:00+99:00")],
    ],
    "decimal": NUMBERS + LARGE,
    "money": NUMBERS + LARGE + [("1.001", "amount-not-in-minor-units")],
    "whole": [(text, "cell-not-whole") for text, _ in NUMBERS] + [("1.5", "cell-not-whole"), *LARGE],
}
BY_KIND["model"] = BY_KIND["batch"] = BY_KIND["id"]


def cell_damages(name: str) -> list[Damage]:
    """Every way to damage a cell of a table."""
    header = GOOD[f"{name}.csv"].splitlines()[0].split(",")
    return [(name, header.index(column.name), *bad) for column in LAYOUTS[name].columns for bad in bad_cells(column)]


def bad_cells(column: Column) -> list[tuple[str, str]]:
    bad = list(BY_KIND[column.kind])
    if not column.optional:
        bad += [("", "cell-missing"), ("  ", "cell-missing")]
    if column.least is not None:
        bad.append((str(column.least - 1), "cell-too-small"))
    if column.least is not None and column.above_least:
        bad.append((str(column.least), "cell-too-small"))
    if column.below is not None:
        bad += [(str(column.below), "cell-too-large")]
    if column.refers:
        bad.append(("nowhere-to-be-found", "reference-lost"))
    return bad


def rows_of(name: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(GOOD[f"{name}.csv"])))


def text_of(rows: list[list[str]]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    return out.getvalue()


def found_in(folder: Path) -> set[tuple[Place, str]]:
    settings, _ = read_settings(folder)
    assert settings is not None
    _, problems = read_tables(folder, settings)
    return {(problem.place, problem.rule) for problem in problems}


@pytest.mark.parametrize("name", LAYOUTS)
def test_damaged_cells(name: str, tmp_path: Path) -> None:
    """Damaged cells, each in a row of its own, are all told at the characters where they begin."""
    header, first, *_ = rows_of(name)
    text, expected = text_of([header]), set()
    for _, number, cell, rule in cell_damages(name):
        row = [*first[:number], cell, *first[number + 1 :]]
        column = len(text_of([[*row[:number], "|"]]).split("|")[0]) + 1
        expected.add((Place(f"{name}.csv", text.count("\n") + 1, column), rule))
        text += text_of([row])

    assert set() == expected - found_in(write_folder(tmp_path, {f"{name}.csv": text}))


def test_number_of_ways() -> None:
    """A table is damaged in more than thirty ways, the smallest ones in more than ten beside the seven of rows."""
    ways = {name: len(cell_damages(name)) for name in LAYOUTS}

    assert [] == [name for name, count in ways.items() if count <= (30 if len(LAYOUTS[name].columns) > 4 else 10)]


@pytest.mark.parametrize("name", LAYOUTS)
def test_damaged_rows_and_headers(name: str, tmp_path: Path) -> None:
    """Short rows, long rows, broken quotes, repeated and missing columns, empty files: each told where it happens."""
    file, good = f"{name}.csv", GOOD[f"{name}.csv"]
    header, first = good.splitlines()[:2]
    required = next(column.name for column in LAYOUTS[name].columns if not column.optional)
    position = header.split(",").index(required)
    start = len(",".join(header.split(",")[:position])) + (1 if position else 0) + 1
    cases = {
        header + "\n" + first + ",\n": (Place(file, 2, len(first) + 2), "row-long"),
        header + "\n" + first.rsplit(",", 1)[0] + "\n": (Place(file, 2, len(first.rsplit(",", 1)[0]) + 1), "row-short"),
        header + '\n"' + first + "\n": (Place(file, 2, 1), "quote-open"),
        header + '\n"x"y' + first + "\n": (Place(file, 2, 1), "quote-followed"),
        header.replace(required, "colour", 1) + "\n" + first + "\n": (Place(file, 1, start), "column-unknown"),
        header.replace(required, "colour", 1) + "\n": (Place(file), "column-missing"),
        header + f",{required}\n" + first + ",x\n": (Place(file, 1, len(header) + 2), "column-twice"),
        "": (Place(file), "table-empty"),
        "\n\n": (Place(file), "table-empty"),
    }
    for text, expected in cases.items():
        assert expected in found_in(write_alone(tmp_path, {file: text})), text


@pytest.mark.parametrize("name", [name for name in LAYOUTS if LAYOUTS[name].unique])
def test_repeated_rows(name: str, tmp_path: Path) -> None:
    """A row with the key of an earlier one is told, with the line of the first."""
    rows = rows_of(name)
    column = min(rows[0].index(key) for key in LAYOUTS[name].unique if key in rows[0])
    blamed = rows[0].index(LAYOUTS[name].unique[0])
    text = text_of([*rows, rows[1]])
    start = len(text_of([[*rows[1][:blamed], "|"]]).split("|")[0]) + 1

    assert column <= blamed
    assert (Place(f"{name}.csv", len(rows) + 1, start), "row-twice") in found_in(write_alone(tmp_path, {f"{name}.csv": text}))
