"""The gettext catalogues: complete, with every blank, and with the plural forms of their languages."""

from __future__ import annotations

import gettext
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel import Locale
from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po

from bulletin.documents.phrases import CATALOGUES, catalogue, direction, languages, spoken_locale
from bulletin.settings.notice_checks import words_of
from bulletin.settings.notice_terms import SHIPPED

ROOT = Path(__file__).parent.parent.parent
BLANK = re.compile(r"%\((\w+)\)s|\{(\w+)\}")
KEYWORDS = {"_": None, "gettext": None, "ngettext": (1, 2), "say": None, "say_count": (1, 2)}
METHODS = [("**.py", "python"), ("**.html", "jinja2"), ("**.txt", "jinja2"), ("**.md", "jinja2"), ("**.svg", "jinja2")]


def used() -> set[str | tuple[str, ...]]:
    """Every phrase that templates, documents and the texts of notices say."""
    options = {"**.html": {"silent": "false"}}
    phrases: set[str | tuple[str, ...]] = set()
    for folder in (ROOT / "bulletin" / "documents", ROOT / "templates"):
        for _, _, message, _, _ in extract_from_dir(folder, METHODS, options, KEYWORDS):
            phrases.add(message if isinstance(message, str) else tuple(message))
    shipped = tomllib.loads(SHIPPED.read_text(encoding="utf-8"))
    return phrases | {text for where, _, text in words_of(shipped) if where[-1] == "en"}


def read(language: str) -> Catalog:
    """A catalogue as translators see it."""
    with (CATALOGUES / f"{language}.po").open("rb") as file:
        return read_po(file, locale=language, abort_invalid=True)


def strings(language: str) -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Each phrase and its translations, both as lists of forms."""
    for message in read(language):
        if message.id:
            ids = (message.id,) if isinstance(message.id, str) else tuple(message.id)
            yield ids, (message.string,) if isinstance(message.string, str) else tuple(message.string)


def test_the_languages_are_those_of_the_design() -> None:
    """English, German, French, Spanish, Japanese, Polish and Arabic have a catalogue."""
    assert ["ar", "de", "en", "es", "fr", "ja", "pl"] == languages()


@pytest.mark.parametrize("language", languages())
def test_catalogue_holds_exactly_what_is_said(language: str) -> None:
    """No phrase is missing, none is left over."""
    held = {ids[0] if len(ids) == 1 else ids for ids, _ in strings(language)}

    assert used() == held


@pytest.mark.parametrize("language", languages())
def test_every_phrase_is_translated(language: str) -> None:
    """No translation is empty or marked as doubtful."""
    assert all(text for _, texts in strings(language) for text in texts)
    assert not any(message.fuzzy for message in read(language))


@pytest.mark.parametrize("language", languages())
def test_blanks_are_those_of_the_phrase(language: str) -> None:
    """Each form of a translation has the blanks of its phrase, and no stray percent sign."""
    for ids, texts in strings(language):
        blanks = set(BLANK.findall(ids[-1]))
        for text in texts:
            assert blanks == set(BLANK.findall(text)), text
            assert "%" not in BLANK.sub("", text)


@pytest.mark.parametrize("language", languages())
def test_phrases_are_plain_words(language: str) -> None:
    """Translations are trusted as markup, so they hold none."""
    assert not [text for _, texts in strings(language) for text in texts if re.search(r"[<>&]", text)]


@pytest.mark.parametrize("language", languages())
def test_phrases_hold_no_figures(language: str) -> None:
    """A figure in a phrase would stand bare."""
    assert not [text for _, texts in strings(language) for text in texts if re.search(r"\d", text)]


@pytest.mark.parametrize("language", languages())
def test_plural_rule_tells_apart_what_cldr_does(language: str) -> None:
    """Two counts up to 1,000 share a form exactly where they share a CLDR category (CLDR 47 through Babel)."""
    rule = read(language)
    form = gettext.c2py(rule.plural_expr)
    categories = {(Locale(language).plural_form(count), form(count)) for count in range(1001)}

    assert len(categories) == rule.num_plurals == len({category for category, _ in categories})


@pytest.mark.parametrize("language", languages())
def test_plurals_have_all_their_forms(language: str) -> None:
    """A phrase that counts has as many forms as the language."""
    plurals = [texts for ids, texts in strings(language) if len(ids) == 2]

    assert plurals
    assert {read(language).num_plurals} == {len(texts) for texts in plurals}


def test_region_falls_back_to_its_language_and_that_to_english() -> None:
    """Austrian German speaks German; a language without a catalogue speaks English."""
    assert "Stand: %(date)s" == catalogue("de-AT").gettext("As of %(date)s")
    assert "As of %(date)s" == catalogue("nl").gettext("As of %(date)s")


def test_spoken_locale_is_the_readers_or_the_makers() -> None:
    """The reader's own if there are phrases, else the maker's first that has some, else English."""
    assert ("fr-CA", "de", "en") == (spoken_locale("fr-CA", ("de",)), spoken_locale("nl", ("nl", "de")), spoken_locale("nl"))


def test_arabic_and_hebrew_read_from_right_to_left() -> None:
    """Direction follows the language."""
    assert ["rtl", "rtl", "ltr"] == [direction(tag) for tag in ("ar", "he-IL", "ja")]
