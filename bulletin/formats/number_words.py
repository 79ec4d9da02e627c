"""Numbers in words: those of European languages by text2num, kanji numerals by their places."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from types import MappingProxyType

from bulletin.formats.figures import Number
from bulletin.formats.levelled import Taken
from bulletin.formats.vocabulary import Vocabulary

TOKEN = re.compile(r"\w+|[^\w\s]")
KANJI = re.compile(r"[一二三四五六七八九十百千万]+")
KANJI_DIGITS: Mapping[str, int] = MappingProxyType({sign: value for value, sign in enumerate("〇一二三四五六七八九")})
KANJI_SCALES: Mapping[str, int] = MappingProxyType({"十": 10, "百": 100, "千": 1000})


def words(plain: str, vocabulary: Vocabulary, taken: Taken) -> Iterator[Number]:
    """Numbers in words, by the reader that the language names."""
    reader = READERS.get(vocabulary.words.get("number_words", ""))
    if reader:
        yield from reader(plain, vocabulary, taken)


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
    if vocabulary.scales.half_more.match(plain, span[1]):
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
    """Kanji numerals, where a counter follows: 三台, 十二件, 二週間, 七番目."""
    for match in KANJI.finditer(plain):
        end, ordinal = match.end(), vocabulary.begins("ordinal_behind", plain, match.end())
        counts = ordinal or vocabulary.begins("counters", plain, end) or vocabulary.begins("tenths", plain, end)
        counts = counts or any(pattern.match(plain, end) for pattern in (vocabulary.spans.pattern, vocabulary.multiples.behind))
        if counts and taken.free(*match.span()):
            value = _kanji_value(match[0])
            if value is not None:
                yield Number(match.start(), end, Fraction(value), spelled=True, ordinal=ordinal)


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


Reader = Callable[[str, Vocabulary, Taken], Iterator[Number]]
READERS: Mapping[str, Reader] = MappingProxyType({"text2num": _spelled, "kanji": _kanji})
"""By what the data file of a language calls its reader under `number_words`."""
