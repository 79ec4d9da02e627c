"""The `Key: value` lines on top of a draft."""

from datetime import date

import pytest

from bulletin.draft.header import read_header
from bulletin.model import Attestation, Header, Place, Problem, Waiver

FILE = "week-13.en.md"


def problems_of(line: str) -> list[Problem]:
    """The faults of a header with a title and this line."""
    return read_header(f"Title: Weaving on\n{line}\n\nBody", FILE)[2]


def test_a_whole_header_is_read() -> None:
    """Every key of the design, with its place where a rule needs one."""
    source = (
        "Title: Week 13: weaving on\nAs-of: 2026-03-27\nReaders: owners D-12\nAttested: It hums | Ada Moor | 2026-09-01\n"
        'Attested: It sings | Ada Moor |\nWaive: hedge "I think" | Ada Moor | we do not know\n'
        "Waive: tables-stale | Ada Moor | holidays\n"
        "Follows: 12ab\n\nBody"
    )
    expected = Header(
        title="Week 13: weaving on",
        title_place=Place(FILE, 1, 8),
        as_of=date(2026, 3, 27),
        readers="owners D-12",
        attested=(
            Attestation(Place(FILE, 4, 11), "It hums", "Ada Moor", date(2026, 9, 1)),
            Attestation(Place(FILE, 5, 11), "It sings", "Ada Moor", None),
        ),
        waivers=(
            Waiver(Place(FILE, 6, 8), "hedge", "I think", "Ada Moor", "we do not know"),
            Waiver(Place(FILE, 7, 8), "tables-stale", "", "Ada Moor", "holidays"),
        ),
        follows="12ab",
    )

    header, body_start, problems = read_header(source, FILE)

    assert (expected, "Body", []) == (header, source[body_start:], problems)


@pytest.mark.parametrize(
    ("line", "column", "offer"),
    [
        ("Asof: 2026-03-27", 1, "As-of: 2026-03-27"),
        ("readers: all", 1, "Readers: all"),
        ("Subject: x", 1, ""),
        ("As-of: 27.03.2026", 8, "2026-03-27"),
        ("As-of: 2026/3/27", 8, "2026-03-27"),
        ("As-of: 2026-02-30", 8, ""),
        ("As-of: yesterday", 8, ""),
        ("As-of:", 7, ""),
        ("As-of：2026-03-27", 6, "As-of: 2026-03-27"),
        ("Readers: everyone", 10, ""),
        ("Readers: Waiting", 10, "waiting"),
        ("Title: again", 8, ""),
        ("Attested: It hums", 11, ""),
        ("Attested: It hums | | 2026-09-01", 11, ""),
        ("Attested: It hums | Ada | 1.9.2026", 27, "2026-09-01"),
        ("Waive: hedge", 8, ""),
        ('Waive: hedge "I think" | Ada', 8, ""),
        ("Waive: unmentioned D-12 | Ada | told by phone", 8, 'Waive: unmentioned "D-12" | Ada | told by phone'),
        ("We boxed a loom.", 1, ""),
    ],
)
def test_a_faulty_line_is_told_with_its_column(line: str, column: int, offer: str) -> None:
    """Unknown keys have the nearest offered, dates their right form, and every fault blocks."""
    expected = [("header-unreadable", "block", Place(FILE, 2, column), offer)]

    assert expected == [(found.rule, found.level, found.place, found.offer) for found in problems_of(line)]


def test_a_draft_without_a_title_is_told_so() -> None:
    """A text that starts at once is body from its first character."""
    header, body_start, problems = read_header("We boxed a loom.\n\nMore.", FILE)

    assert ("", 0) == (header.title, body_start)
    assert [("header-unreadable", Place(FILE), "Title: ")] == [(found.rule, found.place, found.offer) for found in problems]


def test_all_faulty_lines_are_told_at_once() -> None:
    """One fault does not hide the next."""
    _, _, problems = read_header("Asof: x\nTitle: y\nAs-of: z\nReaders: nobody\n\nBody", FILE)

    assert [1, 3, 4] == [found.place.line for found in problems]


def test_a_header_may_be_all_there_is() -> None:
    """A draft without a blank line has an empty body."""
    source = "Title: x\nReaders: all"

    header, body_start, problems = read_header(source, FILE)

    assert ("x", len(source), []) == (header.title, body_start, problems)
