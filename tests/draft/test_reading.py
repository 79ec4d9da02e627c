"""A draft from its file."""

from pathlib import Path

import pytest

from bulletin.draft.reading import read_draft, read_text
from bulletin.model import Place


def written(folder: Path, name: str, content: bytes) -> Path:
    """A file in a folder."""
    path = folder / name
    path.write_bytes(content)
    return path


def test_name_and_locale_come_from_the_file(tmp_path: Path) -> None:
    """`week-13.pt-BR.md` is the draft week-13 in Brazilian Portuguese."""
    draft, problems = read_draft(written(tmp_path, "week-13.pt-BR.md", b"Title: x\n\nBody"), "drafts/week-13.pt-BR.md")

    assert draft is not None
    assert ("week-13", "pt-BR", "drafts/week-13.pt-BR.md", []) == (draft.name, draft.locale, draft.file, problems)


@pytest.mark.parametrize("line_end", [b"\r\n", b"\r", b"\n"])
def test_line_ends_and_a_byte_order_mark_change_nothing(tmp_path: Path, line_end: bytes) -> None:
    """Lines and columns are the same whatever the editor wrote."""
    content = b"\xef\xbb\xbf" + line_end.join([b"Title: x", b"", "Größer [words]{a = 3}".encode()])

    draft, problems = read_draft(written(tmp_path, "a.en.md", content), "a.en.md")

    assert draft is not None
    assert "Title: x\n\nGrößer [words]{a = 3}" == draft.source
    assert [Place("a.en.md", 3, 18)] == [problem.place for problem in problems]


def test_a_byte_that_is_not_utf8_is_told_with_its_place(tmp_path: Path) -> None:
    """The first bad byte by line and column in characters; there is no draft."""
    content = "Title: x\n\nGrö".encode() + b"\xdfer"

    draft, problems = read_draft(written(tmp_path, "a.en.md", content), "a.en.md")

    assert draft is None
    assert [("draft-unreadable", "error", Place("a.en.md", 3, 4))] == [
        (found.rule, found.level, found.place) for found in problems
    ]


@pytest.mark.parametrize("name", ["week-13.md", "week-13.en.txt", "week-13.zz9.md", "week-13.qq.md", ".md"])
def test_a_name_without_a_locale_is_no_draft(tmp_path: Path, name: str) -> None:
    """What language a draft is in must stand in its name."""
    draft, problems = read_draft(written(tmp_path, name, b"Title: x\n\nBody"), name)

    assert (None, ["draft-unreadable"]) == (draft, [found.rule for found in problems])


def test_a_missing_draft_offers_the_nearest_one(tmp_path: Path) -> None:
    """A slip in the name is mended from the folder."""
    written(tmp_path, "week-13.en.md", b"Title: x\n\nBody")

    draft, problems = read_draft(tmp_path / "week-31.en.md")

    assert (None, ["week-13.en.md"]) == (draft, [found.offer for found in problems])


@pytest.mark.parametrize("content", [b"", b"\n\n \n", b"\xef\xbb\xbf"])
def test_an_empty_draft_is_none(tmp_path: Path, content: bytes) -> None:
    """A file without a word is told as empty."""
    draft, problems = read_draft(written(tmp_path, "a.en.md", content))

    assert (None, ["it is empty"]) == (draft, [found.details["what"] for found in problems])


def test_forms_in_the_title_are_claims_too() -> None:
    """A title is prose like the rest: its claims start before the body."""
    draft, problems = read_text("Title: Week 13: {{ boxed.week }} looms\n\n[More]{boxed.week > 3}", "a", "en", "a.en.md")

    assert draft is not None
    assert [] == problems
    assert [True, False] == [claim.start < draft.body_start for claim in draft.claims]
    assert Place("a.en.md", 1, 17) == draft.claims[0].place


def test_problems_stand_in_the_order_of_the_draft() -> None:
    """Faults of header, forms and conditions are sorted by place, with sentences that word themselves."""
    _, problems = read_text("As-of: x\n\n[a]{b = 1} [c] {d}\n{{ e + 1 }}", "a", "en", "a.en.md")

    assert sorted(problems, key=lambda problem: problem.place) == problems
    assert ["header-unreadable"] * 2 + ["condition-unreadable", "form-unreadable", "condition-unreadable"] == [
        p.rule for p in problems
    ]
    assert all(problem.sentence.format(**problem.details) for problem in problems)


def test_the_same_text_is_the_same_draft() -> None:
    """Reading twice gives equal records."""
    source = "Title: x\n\n[a]{b > 1} {{ c }} {# d #}"

    assert read_text(source, "a", "en", "a.en.md") == read_text(source, "a", "en", "a.en.md")
