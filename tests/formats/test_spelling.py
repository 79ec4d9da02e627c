"""Numbers in words, held against an independent reader of number words (text2num)."""

import pytest
from text_to_num import text2num

from bulletin.formats import spelling
from bulletin.formats.vocabulary import load


def spelled_out(number: int, language: str) -> str | None:
    """A number as the rules of a language spell it."""
    return spelling.spelled_out(number, load(language).get("spelling", ""))


SAMPLE = [
    *range(1200),
    *range(1999, 2102),
    *range(9990, 10012),
    *range(19_999, 1_000_000, 7919),
    80_000,
    81_000,
    100_000,
    200_000,
    999_999,
]


@pytest.mark.parametrize("language", ["en", "de", "fr", "es"])
def test_a_reader_of_number_words_reads_the_number_again(language: str) -> None:
    """Every number to 1,199 and samples beyond come back (text2num does not know the short form veintiún)."""
    wrong = [
        number
        for number in SAMPLE
        if number and text2num((spelled_out(number, language) or "").replace("veintiún", "veintiuno"), language) != number
    ]

    assert [] == wrong


@pytest.mark.parametrize(
    ("language", "number", "expected"),
    [
        ("en", 1305, "one thousand three hundred and five"),
        ("en", 2007, "two thousand and seven"),
        ("en", 47, "forty-seven"),
        ("de", 87, "siebenundachtzig"),
        ("de", 1, "eins"),
        ("de", 101_001, "einhunderteintausendeins"),
        ("fr", 71, "soixante et onze"),
        ("fr", 80, "quatre-vingts"),
        ("fr", 81, "quatre-vingt-un"),
        ("fr", 200, "deux cents"),
        ("fr", 201, "deux cent un"),
        ("fr", 80_000, "quatre-vingt mille"),
        ("fr", 0, "zéro"),
        ("es", 21_000, "veintiún mil"),
        ("es", 31, "treinta y uno"),
        ("es", 100, "cien"),
        ("es", 101, "ciento uno"),
    ],
)
def test_numbers_read_as_grammars_have_them(language: str, number: int, expected: str) -> None:
    """Spellings by the rules of each language (from memory)."""
    assert expected == spelled_out(number, language)


@pytest.mark.parametrize(("language", "number"), [("ja", 12), ("en", 1_000_000), ("en", -1)])
def test_nothing_is_spelled_beyond_the_rules(language: str, number: int) -> None:
    """Other languages and numbers out of range fall back to digits."""
    assert spelled_out(number, language) is None
