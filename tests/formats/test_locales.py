"""The words for counted things are whole: every noun in every language, in every plural that CLDR knows there."""

import pytest

from bulletin.formats.locales import locale_of, nouns
from bulletin.formats.vocabulary import load

YES_NO = {"yes", "no", "none"}


@pytest.mark.parametrize("language", ["en", "de", "fr", "es", "ja", "pl", "ar"])
def test_no_noun_and_no_plural_is_missing(language: str) -> None:
    """English names the nouns; categories are CLDR's for the language."""
    wanted = {*locale_of(language).plural_form.tags, "other"}
    own = nouns()[language]

    missing = [noun for noun in nouns()["en"] if noun not in own]
    gaps = [(noun, sorted(wanted - set(forms))) for noun, forms in own.items() if noun not in YES_NO and " dative" not in noun]

    assert [] == missing
    assert [] == [gap for gap in gaps if gap[1] and "genitive" not in gap[0]]


@pytest.mark.parametrize("language", ["en", "de", "fr", "es", "ja"])
def test_no_kind_of_rounding_is_missing(language: str) -> None:
    """The languages whose prose is read know all rounding words, fractions, multiples and vague figures."""
    words = load(language)
    told = {*words["rounding"], *words["rounding_after"]}

    assert {"about", "nearly", "above", "at_least", "below", "at_most"} == told
    assert all(words[table] for table in ("fractions", "multiples", "vague", "spans", "relative", "currencies"))
