"""The blog post."""

from __future__ import annotations

import json

from justhtml import JustHTML

from bulletin.documents import blog
from bulletin.documents.letter import letter_of
from bulletin.documents.marks import bare_figures
from tests.documents.builders import NAMES, bulletin


def post(text: str | None = None) -> dict[str, str]:
    """The two forms of a post by the ending of their paths."""
    made = bulletin() if text is None else bulletin(text)
    return {document.path.rsplit(".")[-1]: document.content.decode() for document in blog.documents(letter_of(made))}


def front_of(markdown: str) -> dict[str, str]:
    """The front matter; its values are JSON strings, which YAML reads as they are."""
    _, front, _ = markdown.split("---\n", 2)
    return {key: json.loads(value) for key, value in (line.split(": ", 1) for line in front.strip().split("\n"))}


def test_front_matter_tells_what_a_site_needs() -> None:
    """Title, date, as-of date, locale and description stand on top."""
    actual = front_of(post()["md"])

    assert "Week 13: 41 looms boxed" == actual["title"]
    assert "2026-03-27T15:30:00+00:00" == actual["date"]
    assert "2026-03-27" == actual["as_of"]
    assert "en" == actual["locale"]
    assert actual["description"].startswith("We boxed 41 looms this week")


def test_quotes_in_a_title_do_not_break_the_front_matter() -> None:
    """A title with quotes and a colon comes back as written."""
    actual = front_of(post('Title: "So far": a \\ week\n\nThank you.\n')["md"])

    assert '"So far": a \\ week' == actual["title"]


def test_description_ends_at_a_word() -> None:
    """A long first paragraph is cut between words, within 155 characters."""
    actual = blog.description("looms and benches " * 20)

    assert 155 >= len(actual)
    assert actual.endswith(("looms…", "and…", "benches…"))


def test_fragment_is_valid_and_marked() -> None:
    """The HTML fragment parses strictly and holds no bare figure."""
    actual = post()["html"]

    assert [] == JustHTML(actual, fragment=True, strict=True).errors
    assert [] == bare_figures(actual, NAMES)
    assert actual.startswith('<article lang="en" dir="ltr">')


def test_post_carries_its_day() -> None:
    """Both forms say the as-of date."""
    assert all("March 27, 2026" in text for text in post().values())
