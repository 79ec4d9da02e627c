"""Whole numbers spelled out, 0 to 999,999, in English, German, French and Spanish.

CLDR's rules for spelling numbers are not in Babel; these follow the grammar of each language, and the tests hold every number
of the range against an independent reader of number words.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from types import MappingProxyType

LIMIT = 1_000_000

ENGLISH = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen"
).split()
ENGLISH_TENS = "- - twenty thirty forty fifty sixty seventy eighty ninety".split()
GERMAN = (
    "null eins zwei drei vier fünf sechs sieben acht neun zehn elf zwölf dreizehn vierzehn fünfzehn sechzehn siebzehn "
    "achtzehn neunzehn"
).split()
GERMAN_TENS = "- - zwanzig dreißig vierzig fünfzig sechzig siebzig achtzig neunzig".split()
FRENCH = (
    "zéro un deux trois quatre cinq six sept huit neuf dix onze douze treize quatorze quinze seize dix-sept dix-huit dix-neuf"
).split()
FRENCH_TENS = "- - vingt trente quarante cinquante soixante soixante quatre-vingt quatre-vingt".split()
SPANISH = (
    "cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete dieciocho "
    "diecinueve veinte veintiuno veintidós veintitrés veinticuatro veinticinco veintiséis veintisiete veintiocho veintinueve"
).split()
SPANISH_TENS = "- - veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa".split()
SPANISH_HUNDREDS = (
    "- ciento doscientos trescientos cuatrocientos quinientos seiscientos setecientos ochocientos novecientos"
).split()


def spelled_out(value: Decimal | int, spelling: str) -> str | None:
    """The number in words, by the rules that a language names; None where there are none, it is not whole or out of range."""
    spell = SPELLERS.get(spelling)
    if spell is None or value != int(value) or not 0 <= value < LIMIT:
        return None
    return spell(int(value))


def english(number: int) -> str:
    """`one thousand three hundred and five`."""
    if number < 20:
        return ENGLISH[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return ENGLISH_TENS[tens] + (f"-{ENGLISH[ones]}" if ones else "")
    if number < 1000:
        hundreds, rest = divmod(number, 100)
        return f"{ENGLISH[hundreds]} hundred" + (f" and {english(rest)}" if rest else "")
    thousands, rest = divmod(number, 1000)
    joint = " and " if 0 < rest < 100 else " "
    return f"{english(thousands)} thousand" + (joint + english(rest) if rest else "")


def german(number: int, last: str = "eins") -> str:
    """`eintausenddreihundertfünf`; `last` is how a one at the very end reads."""
    if number == 1:
        return last
    if number < 20:
        return GERMAN[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return (f"{german(ones, 'ein')}und" if ones else "") + GERMAN_TENS[tens]
    if number < 1000:
        hundreds, rest = divmod(number, 100)
        return f"{german(hundreds, 'ein')}hundert" + (german(rest, last) if rest else "")
    thousands, rest = divmod(number, 1000)
    return f"{german(thousands, 'ein')}tausend" + (german(rest, last) if rest else "")


def french(number: int, *, counting: bool = False) -> str:
    """`mille trois cent cinq`; before `mille`, where `counting`, vingt and cent take no s."""
    if number < 20:
        return FRENCH[number]
    if number < 100:
        return _french_tens(number, counting=counting)
    if number < 1000:
        hundreds, rest = divmod(number, 100)
        head = "cent" if hundreds == 1 else f"{FRENCH[hundreds]} cent"
        plural = "s" if hundreds > 1 and not rest and not counting else ""
        return head + plural + (f" {french(rest, counting=counting)}" if rest else "")
    thousands, rest = divmod(number, 1000)
    head = "mille" if thousands == 1 else f"{french(thousands, counting=True)} mille"
    return head + (f" {french(rest)}" if rest else "")


def _french_tens(number: int, *, counting: bool) -> str:
    tens, ones = divmod(number, 10)
    if tens in (7, 9):
        ones += 10
    head = FRENCH_TENS[tens]
    if not ones:
        return head + ("s" if tens == 8 and not counting else "")
    if ones in (1, 11) and tens < 8:
        return f"{head} et {FRENCH[ones]}"
    return f"{head}-{FRENCH[ones]}"


def spanish(number: int) -> str:
    """`mil trescientos cinco`."""
    if number < 30:
        return SPANISH[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return SPANISH_TENS[tens] + (f" y {SPANISH[ones]}" if ones else "")
    if number == 100:
        return "cien"
    if number < 1000:
        hundreds, rest = divmod(number, 100)
        return SPANISH_HUNDREDS[hundreds] + (f" {spanish(rest)}" if rest else "")
    thousands, rest = divmod(number, 1000)
    head = "mil" if thousands == 1 else f"{_shortened(spanish(thousands))} mil"
    return head + (f" {spanish(rest)}" if rest else "")


def _shortened(words: str) -> str:
    """A one before mil loses its ending: veintiún mil, treinta y un mil."""
    if words.endswith("veintiuno"):
        return f"{words[: -len('veintiuno')]}veintiún"
    return words[:-1] if words.endswith("uno") else words


SPELLERS: Mapping[str, Callable[[int], str]] = MappingProxyType(
    {"english": english, "german": german, "french": french, "spanish": spanish}
)
"""By what the data file of a language calls its rules under `spelling`."""
