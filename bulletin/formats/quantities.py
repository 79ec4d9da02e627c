"""Numbers in prose, digits and words alike, and what stands beside them: percent, money, spans of time, multiples, parts."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from bulletin.formats.figures import Figure
from bulletin.formats.levelled import INVISIBLE, Taken
from bulletin.formats.vocabulary import Vocabulary, group

if TYPE_CHECKING:
    from babel import Locale

SPELLED_LANGUAGES = ("en", "de", "fr", "es")
VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅒"
LATIN = "0-9a-zà-ÿß-ž_"
RUN = re.compile(
    rf"(?<![{LATIN}.])(?<!\d,)(?:(?<![\w)])-)?\d(?:[{INVISIBLE}]?\d|[.,'](?=\d))*[{VULGAR}]?|(?<![{LATIN}])[{VULGAR}]"
)
SPACED = re.compile(rf"(?<![{LATIN}.,])\d{{1,3}}(?: \d{{3}})+(?:[.,]\d+)?(?![{LATIN}]|[.,]\d)")
RATIO = re.compile(r"(?<![\w./,-])(?P<part>\d{1,3})/(?P<whole>\d{1,3})(?![\w/]|[.,]\d)")
GLUED = re.compile(r"(?:kg|g|mm|cm|m|km|h|min|l|w|kw|v|mb|gb|x|k|tsd|mio|eur|usd|chf|pln|zł|er|ère|e|ème|st|nd|rd|th)(?![a-z])")
LETTER = re.compile(r"[a-zà-ÿß-ž]")
CODE_BEFORE = re.compile(r"[A-Z]{1,4}-$")
TOKEN = re.compile(r"\w+|[^\w\s]")
KANJI = re.compile(r"[一二三四五六七八九十百千万]+")
KANJI_DIGITS = {sign: value for value, sign in enumerate("〇一二三四五六七八九")}
KANJI_SCALES = {"十": 10, "百": 100, "千": 1000}
BEFORE = 44


@dataclass(frozen=True, slots=True)
class Number:
    """A bare number in the text, before anyone looked beside it."""

    start: int
    end: int
    value: Fraction
    decimals: int = 0
    spelled: bool = False
    ordinal: bool = False


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
    """Numbers in digits. Digits inside words and codes (A4, D-12, 3D) are none."""
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


def _vulgar(written: str) -> tuple[Fraction, int]:
    part = Fraction(unicodedata.numeric(written[-1])).limit_denominator(100)
    whole = int(written[:-1]) if written[:-1].isdecimal() else 0
    return whole + part, 2


def words(plain: str, vocabulary: Vocabulary, taken: Taken) -> Iterator[Number]:
    """Numbers in words."""
    if vocabulary.language in SPELLED_LANGUAGES:
        yield from _spelled(plain, vocabulary, taken)
    elif vocabulary.language == "ja":
        yield from _kanji(plain, vocabulary, taken)


class _Word:
    """A word as text2num asks for it; what is taken already is no part of a number."""

    __slots__ = ("free", "word")

    def __init__(self, word: str, *, free: bool) -> None:
        self.word = word
        self.free = free

    def text(self) -> str:
        return self.word

    def nt_separated(self, previous: _Word) -> bool:  # noqa: ARG002
        return False

    def not_a_number_part(self) -> bool:
        return not self.free


def _spelled(plain: str, vocabulary: Vocabulary, taken: Taken) -> Iterator[Number]:
    from text_to_num import find_numbers  # type: ignore[import-untyped]

    places = list(TOKEN.finditer(plain))
    spelled: Mapping[str, str] = vocabulary.words.get("read_as", {})
    tokens = [
        _Word(spelled.get(place[0], place[0]), free=not place[0][0].isdigit() and taken.free(*place.span())) for place in places
    ]
    for found in find_numbers(tokens, vocabulary.language, 0.0):
        start, end = places[found.start].start(), places[found.end - 1].end()
        if any(not token.free for token in tokens[found.start : found.end]) or not _is_meant(plain, (start, end), vocabulary):
            continue
        if found.is_ordinal and found.value < 4:
            continue
        whole = found.value == int(found.value)
        value = Fraction(int(found.value)) if whole else Fraction(str(found.value))
        decimals = 0 if whole else len(str(found.value).partition(".")[2])
        yield Number(start, end, value, decimals, spelled=True, ordinal=found.is_ordinal)


def _is_meant(plain: str, span: tuple[int, int], vocabulary: Vocabulary) -> bool:
    """Whether a number word counts: articles do not, nor does `one` in `one of you`, nor an adjective that looks like nine."""
    word = plain[span[0] : span[1]]
    if vocabulary.half_more.match(plain, span[1]):
        return True
    if word in vocabulary.listed("never_alone"):
        return False
    if word in vocabulary.listed("adjectives"):
        return re.match(r"[ ][a-zà-ÿ]", plain[span[1] : span[1] + 2]) is not None
    if word != vocabulary.words.get("lone_one"):
        return True
    before = re.search(r"([\w']+)[ -]$", plain[max(0, span[0] - 16) : span[0]])
    after = re.match(r"[ -]([\w']+)", plain[span[1] : span[1] + 16])
    if after is None or (before and before[1] in vocabulary.listed("not_before_one")):
        return False
    return after[1].partition("'")[0] not in vocabulary.listed("not_after_one")


def _kanji(plain: str, vocabulary: Vocabulary, taken: Taken) -> Iterator[Number]:
    """Kanji numerals, where a counter follows: 三台, 十二件, 二週間."""
    for match in KANJI.finditer(plain):
        behind = plain.startswith(tuple(vocabulary.words.get("counters", ())), match.end())
        spans = vocabulary.span.match(plain, match.end()) or plain.startswith(("倍", "割"), match.end())
        if (behind or spans) and taken.free(*match.span()):
            value = _kanji_value(match[0])
            if value is not None:
                yield Number(match.start(), match.end(), Fraction(value), spelled=True)


def _kanji_value(signs: str) -> int | None:
    total, section, digit = 0, 0, None
    for sign in signs:
        if sign in KANJI_DIGITS:
            if digit is not None:
                return None
            digit = KANJI_DIGITS[sign]
        elif sign in KANJI_SCALES:
            section += (1 if digit is None else digit) * KANJI_SCALES[sign]
            digit = None
        else:
            total += (section + (digit or 0) or 1) * 10_000
            section, digit = 0, None
    return total + section + (digit or 0)


def beside(number: Number, plain: str, vocabulary: Vocabulary) -> Figure:
    """The figure that a number is, by what stands behind and before it; rounding words not yet."""
    figure = _scaled(number, plain, vocabulary)
    value, end = figure.value or Fraction(0), figure.end
    if number.ordinal:
        return replace(figure, kind="ordinal")
    part = vocabulary.counted_part.match(plain, end)
    if part:
        ratio = vocabulary.fractions[(group(part, "part") or "").strip()]
        return replace(figure, kind="fraction", value=value * ratio, end=part.end(), decimals=0)
    percent = vocabulary.percent.match(plain, end)
    if percent:
        return replace(figure, kind="share", value=value / 100, end=percent.end())
    if plain.startswith(tuple(vocabulary.words.get("tenths", ())) or ("\0",), end):
        return replace(figure, kind="share", value=value / 10, end=end + 1, decimals=figure.decimals - 1)
    return _money(figure, plain, vocabulary) or _counted(figure, plain, vocabulary)


def _scaled(number: Number, plain: str, vocabulary: Vocabulary) -> Figure:
    """The number with its scale, half or dozen: 1.3 million, two and a half, two dozen."""
    value, decimals, end = number.value, number.decimals, number.end
    scale = None if number.spelled and vocabulary.language != "ja" else vocabulary.scale.match(plain, end)
    half, dozen = vocabulary.half_more.match(plain, end), vocabulary.dozen.match(plain, end)
    if scale:
        factor = vocabulary.scales[scale["scale"]]
        value, decimals, end = value * factor, decimals - (len(str(factor)) - 1), scale.end("scale")
    elif half:
        value, decimals, end = value + Fraction(1, 2), max(decimals, 1), half.end()
    elif dozen:
        value, end = value * 12, dozen.end()
    return Figure(number.start, end, "", "number", value, decimals, spelled=number.spelled)


def _money(figure: Figure, plain: str, vocabulary: Vocabulary) -> Figure | None:
    behind = vocabulary.after_money.match(plain, figure.end)
    if behind:
        return replace(figure, kind="money", end=behind.end(), currencies=vocabulary.currencies[behind["sign"]])
    window = max(0, figure.start - 6)
    before = vocabulary.before_money.search(plain[window : figure.start])
    if before:
        return replace(figure, kind="money", start=window + before.start(), currencies=vocabulary.currencies[before["sign"]])
    return None


def _counted(figure: Figure, plain: str, vocabulary: Vocabulary) -> Figure:
    """A span of time or a multiple, where one follows."""
    span = vocabulary.span.match(plain, figure.end)
    if span:
        unit = vocabulary.span_units[" ".join(span["span"].split())]
        value, unit = ((figure.value or Fraction(0)) * 2, "week") if unit == "fortnight" else (figure.value, unit)
        return replace(figure, kind="span", unit=unit, value=value, end=span.end())
    multiple = vocabulary.multiple.match(plain, figure.end)
    if multiple:
        return replace(figure, kind="multiple", end=multiple.end())
    return figure


def told_in_words(plain: str, vocabulary: Vocabulary, taken: Taken) -> Iterator[Figure]:
    """Figures that no number word stands for: half, a third, twice, a dozen, dozens, within a week."""
    for match in vocabulary.vague.finditer(plain):
        low, high = vocabulary.vague_bounds[" ".join(match[0].split())]
        yield _told(match, "vague", Fraction(low), upto=Fraction(high))
    for match in vocabulary.told.finditer(plain):
        phrase = " ".join(match[0].split())
        value = Fraction(vocabulary.told_values[phrase])
        told = beside(Number(*match.span(), value, int(value.denominator > 1), spelled=True), plain, vocabulary)
        yield replace(told, rounding="about" if phrase in vocabulary.told_about else "")
    for match in vocabulary.alone_part.finditer(plain):
        part = group(match, "part")
        yield _told(match, "fraction", vocabulary.fractions[part] if part else Fraction(1, 2))
    for match in vocabulary.multiples.finditer(plain):
        yield _told(match, "multiple", vocabulary.multiple_values[" ".join(match[0].split())])
    for match in vocabulary.one_span.finditer(plain):
        one, span = ("one", "span") if match["one"] else ("one_before", "span_before")
        if taken.free(*match.span(one)):
            unit = vocabulary.span_units[" ".join(match[span].split())]
            count, unit = (Fraction(2), "week") if unit == "fortnight" else (Fraction(1), unit)
            yield Figure(match.start(one), match.end(one), "", "span", count, unit=unit, spelled=True)
    for match in RATIO.finditer(plain):
        if 0 < int(match["part"]) < int(match["whole"]):
            ratio = Fraction(int(match["part"]), int(match["whole"]))
            yield Figure(match.start(), match.end(), "", "fraction", ratio)


def _told(match: re.Match[str], kind: str, value: Fraction, upto: Fraction | None = None) -> Figure:
    return Figure(match.start(), match.end(), "", kind, value, upto=upto, spelled=True)  # type: ignore[arg-type]


def rounded(figure: Figure, plain: str, vocabulary: Vocabulary) -> Figure:
    """The figure with the words that round it, before or behind; the article of "a thousand" is one of its own."""
    large = figure.spelled and figure.value is not None and figure.value >= 100
    article = vocabulary.article_before.search(plain, max(0, figure.start - BEFORE), figure.start) if large else None
    figure = replace(figure, start=article.start()) if article else figure
    window = max(0, figure.start - BEFORE)
    before = vocabulary.before_rounding.search(plain[window : figure.start])
    if before:
        word = " ".join(before["word"].split())
        return replace(figure, rounding=vocabulary.rounding[word], rounding_start=window + before.start())
    after = vocabulary.after_rounding.match(plain, figure.end)
    if after:
        word = "+" if after.groupdict().get("plus") else " ".join(after["word"].split())
        return replace(figure, rounding=vocabulary.rounding_after[word], rounding_start=figure.start)
    return replace(figure, rounding_start=figure.start)
