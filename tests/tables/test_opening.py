"""Files that are no CSV in the encoding of the settings: told by what they are."""

import io
import zipfile
from pathlib import Path

import pytest

from bulletin.report import word
from tests.tables.documents import read_case
from tests.tables.folders import problems_in

GOOD = read_case("good")[0]["parts.csv"]


def zipped(name: str, content: str = "") -> bytes:
    """A workbook in miniature."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr(name, content)
    return file.getvalue()


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (zipped("[Content_Types].xml"), "an Excel workbook"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), "an Excel workbook"),
        (zipped("mimetype", "application/vnd.oasis.opendocument.spreadsheet"), "an OpenDocument spreadsheet"),
    ],
)
def test_a_workbook_named_csv(content: bytes, told: str, tmp_path: Path) -> None:
    """A workbook under the name of a table is one problem, with the way to save it."""
    problems = problems_in(tmp_path, {"parts.csv": content})

    assert [f"parts.csv:1:1: error: this is {told}: save it as CSV UTF-8 [table-is-workbook]"] == [word(p) for p in problems]


@pytest.mark.parametrize(
    ("encoding", "offer"),
    [("utf-16", "utf-16"), ("utf-16-le", "utf-16"), ("utf-16-be", "utf-16-be"), ("utf-16-le-mark", "utf-16")],
)
def test_utf_16_without_the_setting(encoding: str, offer: str, tmp_path: Path) -> None:
    """UTF-16, with its mark or without, is offered the setting that reads it."""
    content = GOOD.encode(encoding) if not encoding.endswith("mark") else b"\xff\xfe" + GOOD.encode("utf-16-le")
    problems = problems_in(tmp_path, {"parts.csv": content})

    assert [("table-in-utf-16", f'encoding = "{offer}"')] == [(problem.rule, problem.offer) for problem in problems]
    assert [] == problems_in(tmp_path, {"parts.csv": content}, f"[tables.parts]\n{problems[0].offer}\n")


def test_a_zero_byte_is_no_utf_16(tmp_path: Path) -> None:
    """A lone zero in a table stays a control character of its cell."""
    problems = problems_in(tmp_path, {"parts.csv": GOOD.replace("peg", "p\0g")})

    assert ["cell-has-control-character"] == [problem.rule for problem in problems]
