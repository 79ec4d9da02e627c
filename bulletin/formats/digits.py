"""Numbers in digits, as the locale writes them, else as others do; spaces and signs that nobody sees do not hide them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from bulletin.formats.figures import Number
from bulletin.formats.levelled import INVISIBLE, Taken

if TYPE_CHECKING:
    from babel import Locale

VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅒"
LATIN = "0-9a-zà-ÿß-ž_"
RUN = re.compile(
    rf"(?<![{LATIN}.])(?<!\d,)(?:(?<![\w)])-)?\d(?:[{INVISIBLE}]?\d|[.,'](?=\d))*[{VULGAR}]?|(?<![{LATIN}])[{VULGAR}]"
)
SPACED = re.compile(rf"(?<![{LATIN}.,])\d{{1,3}}(?: \d{{3}})+(?:[.,]\d+)?(?![{LATIN}]|[.,]\d)")
GLUED = re.compile(
    r"(?:kg|g|mm|cm|m|km|h|min|l|w|kw|v|mb|gb|x|k|tsd|mio|eur|usd|chf|pln|zł|er|ère|e|ème|st|nd|rd|th)(?![a-z])"
    r"|[a-zà-ÿß-ž]{3,}(?![\d_])"
)
"""What may touch a number: a unit of measure, a currency, an ending, or a whole word; fewer letters make a code (3D)."""
LETTER = re.compile(r"[a-zà-ÿß-ž]")
CODE_BEFORE = re.compile(r"[A-Z]{1,4}-$")
DIGITS = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class Marks:
    """The signs of a locale's numbers."""

    decimal: str
    group: str

    @property
    def grouped_by_space(self) -> bool:
        """Whether an ordinary space may stand between thousands."""
        return self.group == " "


def marks_of(locale: Locale) -> Marks:
    """The locale's own decimal and grouping signs, level."""
    symbols = locale.number_symbols["latn"]
    group_sign = symbols["group"]
    return Marks(symbols["decimal"], " " if group_sign.isspace() else "'" if group_sign == "’" else group_sign)


def digits(plain: str, text: str, marks: Marks, taken: Taken) -> Iterator[Number]:
    """Numbers in digits, also where a noun touches them (87pcs). Digits inside words and codes (A4, D-12, 3D) are none."""
    for match in SPACED.finditer(plain):
        narrow = all(text[at] != " " for at in range(match.start(), match.end()) if plain[at] == " ")
        if (narrow or marks.grouped_by_space) and taken.free(*match.span()):
            read = _read(match[0].replace(" ", ""), marks)
            if read:
                yield Number(match.start(), match.end(), *read)
    for match in RUN.finditer(plain):
        if not taken.free(*match.span()) or CODE_BEFORE.search(text, max(0, match.start() - 5), match.start()):
            continue
        if LETTER.match(plain, match.end()) and not GLUED.match(plain, match.end()):
            continue
        read = _read("".join(sign for sign in match[0] if sign not in INVISIBLE), marks)
        if read:
            yield Number(match.start(), match.end(), *read)
        elif "." not in match[0]:
            yield from _listed(match)


def _read(written: str, marks: Marks) -> tuple[Fraction, int] | None:
    """The value and typed decimals of a run of digits: as the locale writes it, else the other way round, else nothing."""
    if written[-1] in VULGAR:
        return _vulgar(written)
    sign, bare = (-1, written[1:]) if written.startswith("-") else (1, written)
    for decimal, grouping in ((marks.decimal, marks.group), (marks.decimal, "'"), (".", ","), (",", ".")):
        grouped = rf"(?P<whole>\d{{1,3}}(?:{re.escape(grouping)}\d{{3}})+|\d+)(?:{re.escape(decimal)}(?P<decimals>\d+))?"
        match = re.fullmatch(grouped, bare)
        if match and len(bare) < 40:
            decimals = match["decimals"] or ""
            whole = match["whole"].replace(grouping, "")
            return sign * Fraction(int(whole + decimals), 10 ** len(decimals)), len(decimals)
    return None


def _listed(match: re.Match[str]) -> Iterator[Number]:
    """Each number of a run that is none as a whole: `1,1,1`. Runs with points are versions and the like."""
    for digits_only in DIGITS.finditer(match[0]):
        start = match.start() + digits_only.start()
        yield Number(start, start + len(digits_only[0]), Fraction(int(digits_only[0][:40])))


def _vulgar(written: str) -> tuple[Fraction, int]:
    part = Fraction(unicodedata.numeric(written[-1])).limit_denominator(100)
    whole = int(written[:-1]) if written[:-1].isdecimal() else 0
    return whole + part, 2
