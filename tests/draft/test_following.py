"""What a translation follows, and which paragraphs of the original have changed since."""

from __future__ import annotations

import pytest

from bulletin.draft.following import changed_paragraphs, follows_line, paragraphs, with_follows
from bulletin.draft.reading import read_text
from bulletin.model import Draft

TEXT = "Title: News\nAs-of: 2026-03-27\n\nWe boxed looms.\n\n## Tea\n\nIt rains,\nand we sing.\n"


def draft(text: str = TEXT) -> Draft:
    read, _ = read_text(text, "news", "en", "news.en.md")
    assert read is not None
    return read


def test_paragraphs_know_their_lines() -> None:
    """The title and every paragraph, each in one line."""
    expected = [(1, "News"), (4, "We boxed looms."), (6, "## Tea"), (8, "It rains, and we sing.")]

    assert expected == [(part.line, part.text) for part in paragraphs(draft())]


NO_CHANGES = {
    "other line breaks": TEXT.replace("rains,\nand", "rains, and"),
    "a note": TEXT.replace("looms.", "looms.{# ask Ines #}"),
    "a waiver": TEXT.replace("\n\nWe", '\nWaive: hedge "maybe" | Ines Holm | so it is\n\nWe', 1),
    "more blank lines": TEXT.replace("\n\n##", "\n\n\n\n##"),
}


@pytest.mark.parametrize("text", NO_CHANGES.values(), ids=NO_CHANGES)
def test_what_is_no_change(text: str) -> None:
    """A translation stays up to date where nothing that is read has changed."""
    assert follows_line(draft()) == follows_line(draft(text))


CHANGES = {
    "a word": (TEXT.replace("sing", "dance"), ["It rains, and we dance."], 0),
    "a new paragraph": (TEXT.replace("## Tea", "New.\n\n## Tea"), ["New."], 0),
    "a paragraph gone": (TEXT.replace("We boxed looms.\n\n", ""), [], 1),
    "the title": (TEXT.replace("News", "Noise"), ["Noise"], 0),
    "the day": (TEXT.replace("03-27", "03-28"), [], 0),
}


@pytest.mark.parametrize(("text", "changed", "gone"), CHANGES.values(), ids=CHANGES)
def test_what_has_changed_is_named(text: str, changed: list[str], gone: int) -> None:
    """Paragraphs that are new or other, how many are gone; another day is a change without one."""
    followed = follows_line(draft())
    found, fewer = changed_paragraphs(draft(text), followed)

    assert followed != follows_line(draft(text))
    assert (changed, gone) == ([part.text for part in found], fewer)


def test_the_line_is_written_once() -> None:
    """It comes last on top of a draft that has none, and takes the place of an older one."""
    first = with_follows(TEXT, draft().body_start, "aaaa bb.cc")
    again = with_follows(first, draft(first).body_start, "dddd ee.ff")

    assert TEXT.replace("03-27\n", "03-27\nFollows: aaaa bb.cc\n") == first
    assert first.replace("aaaa bb.cc", "dddd ee.ff") == again
    assert "dddd ee.ff" == draft(again).header.follows
