"""Sentences and clauses: how far words reach."""

from __future__ import annotations

from bulletin.draft.language import read_language
from bulletin.draft.sentences import clauses, sentences

TEXT = "Mr. Holm boxed ￼ looms, e.g. for you. This week, the saw rests, and we rest too! See version 2.1."


def test_sentences_cover_the_text() -> None:
    """Abbreviations and decimals end no sentence, and nothing is lost between them."""
    told = [TEXT[span.start : span.end].strip() for span in sentences(TEXT, "en")]

    assert told == [
        "Mr. Holm boxed ￼ looms, e.g. for you.",
        "This week, the saw rests, and we rest too!",
        "See version 2.1.",
    ]


def test_clauses_end_at_commas_and_conjunctions() -> None:
    """A few words before the first comma belong to what follows them."""
    language = read_language("en-GB")
    assert language is not None
    second = sentences(TEXT, "en")[1]
    told = [TEXT[span.start : span.end].strip(" ,") for span in clauses(TEXT, second, language)]

    assert told[:2] == ["This week, the saw rests", "and we rest too"]


def test_a_language_without_a_file_has_no_words() -> None:
    """Word lists are looked up by language; a locale without one, or a tag that is no language, has none."""
    assert read_language("tlh") is None
    assert read_language("../en") is None
