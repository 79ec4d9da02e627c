"""Lists of words as one pattern."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bulletin.draft.word_patterns import any_of, factored


@pytest.mark.parametrize(
    ("entries", "text", "found"),
    [
        (["no", "no one", "none"], "No one knows, none cares, no.", ["No one", "none", "no"]),
        (["order*"], "orders, reorder, Order", ["orders", "Order"]),
        (["not a single"], "not  a\nsingle one", ["not  a\nsingle"]),
        (["part", "parts"], "parting of parts", ["parts"]),
        (["/\\d+x/", "dozen"], "a dozen, 12x", ["dozen", "12x"]),
        ([], "anything", []),
    ],
)
def test_whole_words_are_found_the_longest_first(entries: list[str], text: str, found: list[str]) -> None:
    """Whole words in any case, with any gap between them; a star stands for any ending."""
    assert [match[0] for match in any_of(entries).finditer(text)] == found


@pytest.mark.parametrize("sign", ["\ufffc", "\u00b7"])
def test_no_word_begins_inside_what_is_blotted_out(sign: str) -> None:
    """Signs that stand for blotted or masked letters end no border: only their first may begin something."""
    found = [match.span() for match in any_of([rf"/(?<!\w){sign}+ ran/", "ran"]).finditer(f"{sign}{sign} ran, {sign}ran")]

    assert found == [(0, 6)]


def test_an_expression_of_the_beginning_is_found_there_alone() -> None:
    """What begins with the start of the text is looked for beside the words, and holds once."""
    found = [match.span() for match in any_of([r"/\Aall \w+/", "done"]).finditer("All done, all done")]

    assert found == [(0, 8), (14, 18)]


def test_words_are_found_anywhere_where_no_spaces_part_them() -> None:
    """A language without spaces has no borders of words; the longest entry is taken."""
    found = [match[0] for match in any_of(["全", "全部"], spaced=False).finditer("今週は全部、全台")]

    assert found == ["全部", "全"]


@given(st.lists(st.text("ab ", min_size=1, max_size=6).filter(str.strip), min_size=1, max_size=12))
def test_a_factored_list_finds_each_of_its_entries_and_nothing_else(entries: list[str]) -> None:
    """One expression with common beginnings stands for the very words of the list."""
    words = {" ".join(entry.split()) for entry in entries}
    pattern = re.compile(factored(words))
    others = {word + "a" for word in words} | {"b" + word for word in words}

    assert all(pattern.fullmatch(word) for word in words)
    assert {other for other in others - words if pattern.fullmatch(other)} == set()
