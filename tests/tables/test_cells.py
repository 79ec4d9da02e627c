"""Both ways from text to columns give the same, whatever the text is."""

from unittest.mock import patch

from hypothesis import given
from hypothesis import strategies as st

from bulletin.tables import cells
from bulletin.tables.source import Source

CELL = st.text(alphabet=st.sampled_from("ab01 .-é\t日'\x85\u2028"), max_size=4)
ROW = st.lists(CELL, min_size=3, max_size=3) | st.lists(CELL, max_size=5)
LINE_END = st.sampled_from(["\n", "\r\n", "\n\n", "\n \n"])


def read(text: str, delimiter: str) -> object:
    source = Source("a.csv", b"", text.encode(), delimiter)
    found = cells.read_cells(source, 3, {0, 2}, {1})
    columns = [found.columns[number].one_by_one().tolist() for number in range(3)]
    places = [found.source.place(record, 1) for record in found.records.tolist()]
    return columns, places, found.problems


@given(st.lists(st.tuples(ROW, LINE_END), max_size=6), st.sampled_from(",;\t|"))
def test_both_ways_agree(rows: list[tuple[list[str], str]], delimiter: str) -> None:
    """Rows of any width, blank lines and blanks around cells: the same columns, places and problems."""
    kept = [([cell.replace(delimiter, "") for cell in row], end) for row, end in rows]
    text = delimiter.join("xyz") + "\n" + "".join(delimiter.join(row) + end for row, end in kept)
    with patch.object(cells, "is_simple", return_value=False):
        expected = read(text, delimiter)

    assert expected == read(text, delimiter)


INSIDE = st.text(alphabet=st.sampled_from('ab ,;\n"é'), max_size=4)
WRITTEN = st.one_of(
    CELL.map(lambda cell: cell.replace(",", "")),
    INSIDE.map(lambda cell: '"' + cell.replace('"', '""') + '"'),
    st.sampled_from(['a"b', '"a"b', '"a', ' "a"', '""a', '"', '"""', 'a""']),
)
"""A cell in the file: bare, in quotes, or with quotes out of place."""


@given(st.lists(st.tuples(st.lists(WRITTEN, min_size=3, max_size=3), LINE_END), max_size=6))
def test_both_ways_agree_on_quotes(rows: list[tuple[list[str], str]]) -> None:
    """Delimiters, line breaks and quotes inside of quotes, and quotes out of place: the same columns, places and problems."""
    text = "x,y,z\n" + "".join(",".join(row) + end for row, end in rows)
    with patch.object(cells, "is_simple", return_value=False):
        expected = read(text, ",")

    assert expected == read(text, ",")


def test_a_quoted_file_is_read_the_swift_way() -> None:
    """Quotes that are all in place, with line breaks inside of some, do not cost a file the swift way."""
    source = Source("a.csv", b"", b'"x","y","z"\r\n"1","2","3"\r\n\r\n"4","five\r\n\r\nand ""six""",7\r\n8,9,10\r\n', ",")
    with patch.object(cells, "_general", side_effect=AssertionError):
        found = cells.read_cells(source, 3, {0, 2}, {1})

    assert ["2", 'five\r\n\r\nand "six"', "9"] == found.columns[1].one_by_one().tolist()
    assert [2, 4, 7] == [found.source.line(record) for record in found.records.tolist()]


def test_rows_that_make_up_for_each_other() -> None:
    """A row that is a cell too long right after the header does not hide one that is a cell too short."""
    source = Source("a.csv", b"", b"x,y,z\n1,2,3,4\n1,2\n1,2,3\n", ",")
    found = cells.read_cells(source, 3, {0, 2}, {1})

    assert [(2, 7, "row-long"), (3, 4, "row-short")] == [(p.place.line, p.place.column, p.rule) for p in found.problems]
    assert [2] == found.records.tolist()
