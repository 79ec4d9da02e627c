"""Roman numerals that count something: "LXXXVII looms" reaches the reader as 87.

Only in capitals, before a word in small letters, and not behind a name (Mark II, Henry VIII); two letters only where nobody would
read them as an abbreviation.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from bulletin.formats.figures import Figure

if TYPE_CHECKING:
    from collections.abc import Iterator

NUMERAL = re.compile(
    r"(?<![\w.])(?=[MDCLXVI]{3}|(?:II|IV|VI|IX|XI|XV|XX)\b)M{0,3}(?:CM|CD|D?C{0,3})(?:XC|XL|L?X{0,3})(?:IX|IV|V?I{0,3})(?=\s+[a-z])"
)
NAME_BEFORE = re.compile(r"[A-Z]\w*\s\Z")
VALUES = {"I": 1, "V": 5, "X": 10, "L": 50, "C": 100, "D": 500, "M": 1000}


def roman_figures(text: str) -> Iterator[Figure]:
    """Every Roman numeral of a text that counts what follows it."""
    for numeral in NUMERAL.finditer(text):
        if numeral[0] and not NAME_BEFORE.search(text[max(0, numeral.start() - 40) : numeral.start()]):
            start, end = numeral.span()
            yield Figure(start, end, numeral[0], "number", Fraction(value_of(numeral[0])), rounding_start=start, spelled=True)


def value_of(numeral: str) -> int:
    """The number that a well-formed numeral stands for."""
    values = [VALUES[letter] for letter in numeral]
    following = [*values[1:], 0]
    return sum(-value if value < behind else value for value, behind in zip(values, following, strict=True))
