"""All documents of a bulletin together."""

from __future__ import annotations

from bulletin.documents.press import last_check, press
from bulletin.model import Place
from tests.documents.builders import LETTER, NAMES, bulletin

LOCALES = ("en", "de", "fr", "es", "ja", "pl", "ar")


def test_every_channel_in_every_locale() -> None:
    """Each locale has its mail, page and post in a folder of its own; the evidence lies apart from what may be published."""
    documents, problems = press([bulletin(), bulletin(locale="de")])
    public = [f"{locale}/{name}" for locale in ("de", "en") for name in ("bulletin.eml", "index.html", "post.html", "post.md")]
    private = [f"for-the-maker/{locale}/{name}" for locale in ("de", "en") for name in ("evidence.html", "evidence.json")]

    assert [] == problems
    assert sorted(f"2026-13/{path}" for path in [*public, *private]) == [document.path for document in documents]


def test_same_bulletin_gives_the_same_bytes() -> None:
    """Two builds of all documents are equal."""
    assert press([bulletin()]) == press([bulletin()])


def test_all_locales_pass_the_last_check() -> None:
    """No phrase or format of a locale leaves a figure bare."""
    documents, problems = press([bulletin(LETTER, locale) for locale in LOCALES])

    assert [] == problems
    assert 6 * len(LOCALES) == len(documents)


def test_bare_figure_is_a_problem_that_blocks() -> None:
    """A figure that slipped through is told with the document it stands in."""
    actual = last_check("2026-13/en/index.html", "<p>87 looms</p>", NAMES)

    assert [("bare-figure", "block", "87", Place("2026-13/en/index.html"))] == [
        (problem.rule, problem.level, problem.words, problem.place) for problem in actual
    ]


def test_addresses_with_digits_are_no_figures() -> None:
    """A contact whose address holds digits does not keep a letter from going out."""
    assert [] == last_check("2026-13/en/index.html", "<p>Write to help24@fennmoor.example.</p>", NAMES)
