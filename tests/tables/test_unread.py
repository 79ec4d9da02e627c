"""CSV files that no table is read from."""

from pathlib import Path

import pytest

from bulletin.report import word
from tests.tables.folders import problems_in, problems_of

STOCK = "part,lot,state,quantity,counted\n"


@pytest.mark.parametrize(
    ("file", "meant"), [("part.csv", "parts.csv"), ("Stock.csv", "stock.csv"), ("Defekts.CSV", "defects.csv")]
)
def test_a_file_that_is_nearly_called_like_a_table(file: str, meant: str, tmp_path: Path) -> None:
    """A misspelt file of a table that is missing is warned about, with the name that was meant."""
    problems = problems_in(tmp_path, {file: "x,y\n"})

    assert [f"{file}:1:1: warn: {file} is not read; did you mean {meant}? [file-misnamed]"] == [word(p) for p in problems]


def test_other_files_are_told_in_one_line(tmp_path: Path) -> None:
    """Files that are like no missing table, old copies among them, are told together; hidden ones and folders are not."""
    (tmp_path / "folder.csv").mkdir()
    files = dict.fromkeys(("zebra.csv", "orders_old.csv", ".hidden.csv", "~lock.csv", "notes.txt"), "x,y\n")
    problems = problems_in(tmp_path, files)

    assert [("files-unread", "warn", "orders_old.csv, zebra.csv")] == [(p.rule, p.level, p.words) for p in problems]


def test_files_that_the_settings_name(tmp_path: Path) -> None:
    """A file that stands in the settings is read, or its fault is told there; what its table was called is not read now."""
    settings = '[tables.stock]\nfile = "count.csv"\n'
    problems = problems_in(tmp_path, {"count.csv": STOCK, "stock.csv": STOCK}, settings)

    assert [("files-unread", "stock.csv")] == [(problem.rule, problem.words) for problem in problems]


def test_orders_in_capitals_are_missing_and_misnamed(tmp_path: Path) -> None:
    """Where a required table is missing, the misnamed file stands beside the error."""
    problems_in(tmp_path, {})
    (tmp_path / "orders.csv").rename(tmp_path / "Orders.csv")
    (tmp_path / "boxing.csv").rename(tmp_path / "boxings.csv")
    missing = {("table-missing", "boxing.csv"), ("table-missing", "orders.csv")}
    misnamed = {("file-misnamed", "Orders.csv"), ("file-misnamed", "boxings.csv")}

    assert missing | misnamed == {(problem.rule, problem.place.file) for problem in problems_of(tmp_path)}
