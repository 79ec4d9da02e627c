"""Damaged tables as documents: exactly the marked problems, all at once, at their true places."""

from pathlib import Path

import pytest

from bulletin.report import word
from bulletin.settings import read_settings
from bulletin.tables.reading import read_tables
from tests.tables.documents import CASES, read_case, write_folder

NAMES = sorted(case.stem for case in CASES.glob("*.txt"))


@pytest.mark.parametrize("name", NAMES)
def test_case(name: str, tmp_path: Path) -> None:
    """The problems found are those that the document marks, and no others."""
    files, marked = read_case(name)
    settings, _ = read_settings(write_folder(tmp_path, files))
    assert settings is not None

    _, problems = read_tables(tmp_path, settings)
    actual = {(p.place.file, p.place.line, p.place.column, p.rule): p.offer for p in problems}
    expected = {place: actual.get(place, "") if offer is None else offer for place, offer in marked.items()}

    assert expected == actual


@pytest.mark.parametrize("name", NAMES)
def test_every_problem_is_worded(name: str, tmp_path: Path) -> None:
    """Each problem has a sentence of its own, with nothing left to fill in."""
    files, _ = read_case(name)
    settings, _ = read_settings(write_folder(tmp_path, files))
    assert settings is not None

    _, problems = read_tables(tmp_path, settings)
    actual = [word(problem) for problem in problems]

    assert [] == [line for line in actual if "{" in line or ": error:  [" in line]
    assert len(problems) == len(set(actual))


def test_private_cells_are_masked(tmp_path: Path) -> None:
    """No message about contacts.csv holds what a cell of it holds, an order's number apart."""
    files, _ = read_case("personal")
    settings, _ = read_settings(write_folder(tmp_path, files))
    assert settings is not None
    (tmp_path / "contacts.csv").write_text('order,name,email,bulletins\n1001,"Ed\x07da",edda@de.example,yes\n')

    _, problems = read_tables(tmp_path, settings)
    actual = [(problem.place.line, problem.place.column, problem.words) for problem in problems]

    assert [(2, 6, "E…")] == actual
