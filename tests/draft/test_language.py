"""The words of a language as data."""

from __future__ import annotations

import pytest

from bulletin.draft.language import _expanded, read_language


def test_a_macro_may_use_those_above_it() -> None:
    """Macros are expanded in the order of the file, and lists get the whole expression."""
    actual = _expanded({"macros": {"short": "we", "be": "(?:is|<short>)"}, "claims": [{"words": ["/<be> done/"]}]})

    assert actual["claims"] == [{"words": ["/(?:is|we) done/"]}]


@pytest.mark.parametrize("text", ["ten to one", "24/7", "v2.1"])
def test_idioms_are_one_pattern_of_all_that_needs_no_word_near(text: str) -> None:
    """Idioms, addresses and versions are found by the one pattern."""
    language = read_language("en")
    found = language.idioms.search(text) if language else None

    assert found is not None
    assert text == found[0]


def test_shapes_that_need_a_word_near_are_kept_apart() -> None:
    """Hours of business are no idiom by themselves."""
    language = read_language("en")

    assert language is not None
    assert language.idioms.search("10:30") is None
    assert any(shape.pattern.search("10:30") for shape in language.free)
