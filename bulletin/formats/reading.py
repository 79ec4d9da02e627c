"""Finds every figure in a text: numbers in digits and words, shares, money, dates, spans of time, fractions, multiples.

Names that claim nothing ("Heron 12", "Route 66") are passed over. Offsets are exact, in characters of the text as given.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from bulletin.formats.dates import Calendar, Found, calendar, dates
from bulletin.formats.digits import Marks, digits, marks_of
from bulletin.formats.figures import Day, Figure
from bulletin.formats.levelled import Taken, level
from bulletin.formats.locales import locale_of
from bulletin.formats.number_words import words
from bulletin.formats.patterns import NEVER, alternatives
from bulletin.formats.quantities import beside, rounded, told_in_words
from bulletin.formats.vocabulary import Vocabulary, vocabulary, with_codes

__all__ = ["Day", "Figure", "find_figures"]

NO_NAMES: frozenset[str] = frozenset()
ADDRESSES = re.compile(r"https?://\S+|(?<!\S)[\w.+-]+@[\w-]+\.[\w.-]+")


@dataclass(frozen=True)
class Reader:
    """What is needed to read the figures of one locale."""

    words: Vocabulary
    calendar: Calendar
    marks: Marks
    joint: re.Pattern[str]


@lru_cache(maxsize=32)
def reader(tag: str) -> Reader:
    """The reader of a locale (BCP 47), made once."""
    locale = locale_of(tag)
    known = vocabulary(locale.language)
    joints = alternatives((*known.words.get("intervals", ()), *known.words.get("or_words", ())))
    joint = re.compile(rf"\s*(?:[–—～-]|{joints})\s*")
    return Reader(known, calendar(locale, known), marks_of(locale), joint)


def find_figures(text: str, locale: str, names: frozenset[str] = NO_NAMES) -> list[Figure]:
    """All figures of a text in the locale's language, in the order they stand, never overlapping."""
    read, plain, taken = reader(locale), with_codes(level(text), text), Taken(len(text))
    for match in (*names_pattern(names).finditer(text), *ADDRESSES.finditer(text)):
        taken.take(*match.span())
    figures = list(_free(_dated(dates(plain, text, read.calendar, read.words)), taken))
    figures += _free(told_in_words(plain, read.words, taken), taken, plain, read)
    figures += _free(_ordinals(plain, read.words), taken)
    figures += _free((beside(found, plain, read.words) for found in digits(plain, text, read.marks, taken)), taken, plain, read)
    figures += _free((beside(found, plain, read.words) for found in words(plain, read.words, taken)), taken, plain, read)
    figures.sort(key=lambda figure: figure.start)
    figures = _nine_in_ten(_one_in_ten(figures, plain, read), plain, read)
    figures = [replace(figure, text=text[figure.start : figure.end]) for figure in figures]
    return _joined(_shared(figures, plain, read), text)


@lru_cache(maxsize=32)
def names_pattern(names: frozenset[str]) -> re.Pattern[str]:
    """Any of the names as whole words, the longest first."""
    listed = [name for name in names if name.strip()]
    return re.compile(rf"(?<!\w)(?:{alternatives(listed)})(?!\w)") if listed else NEVER


def _free(found: Iterable[Figure], taken: Taken, plain: str = "", read: Reader | None = None) -> Iterator[Figure]:
    """Figures on ground that nobody has taken, which they take; with the words that round them where a reader is given."""
    for figure in found:
        if taken.free(figure.start, figure.end):
            taken.take(figure.start, figure.end)
            yield rounded(figure, plain, read.words) if read and not figure.rounding else _unrounded(figure)


def _one_in_ten(figures: list[Figure], plain: str, read: Reader) -> list[Figure]:
    """Ratios with an article (one in ten, un sur dix) as the fractions they are."""
    found = []
    for figure in figures:
        one = read.words.parts.one_of.search(plain, max(0, figure.start - 20), figure.start)
        if one and figure.kind == "number" and figure.value and figure.value > 1:
            found.append(replace(figure, start=one.start(), rounding_start=one.start(), kind="fraction", value=1 / figure.value))
        else:
            found.append(figure)
    return found


def _nine_in_ten(figures: list[Figure], plain: str, read: Reader) -> list[Figure]:
    """Ratios of two numbers (nine in ten, 1 in 3) as the fractions they are."""
    found: list[Figure] = []
    for figure in figures:
        last = found[-1] if found else None
        if last and last.value and figure.value and _is_ratio(last, figure, plain, read):
            found[-1] = replace(last, end=figure.end, kind="fraction", value=last.value / figure.value, decimals=0)
        else:
            found.append(figure)
    return found


def _is_ratio(part: Figure, whole: Figure, plain: str, read: Reader) -> bool:
    """Whether two numbers tell a part of a whole; some words join only spelled ones so (neun von zehn, but not 9 von 10)."""
    told = (part.value or 0) < (whole.value or 0) and part.kind == whole.kind == "number" and not whole.rounding
    between, spelled = plain[part.end : whole.start], part.spelled and whole.spelled
    joints = (read.words.parts.joint, read.words.parts.spelled_joint) if spelled else (read.words.parts.joint,)
    return told and any(joint.fullmatch(between) for joint in joints)


def _unrounded(figure: Figure) -> Figure:
    return replace(figure, rounding_start=figure.start)


def _dated(found: Iterable[Found]) -> Iterator[Figure]:
    return (Figure(one.start, one.end, "", "date", day=one.day) for one in found)


def _ordinals(plain: str, known: Vocabulary) -> Iterator[Figure]:
    for pattern in known.ordinals:
        for match in pattern.finditer(plain):
            number = next(group for group in match.groups() if group)
            yield Figure(match.start(), match.end(), "", "ordinal", level_number(number))


def level_number(digits_only: str) -> Fraction:
    """A run of plain digits as an exact number."""
    return Fraction(int(digits_only[:40]))


def _shared(figures: list[Figure], plain: str, read: Reader) -> list[Figure]:
    """Both ends of `3 to 5 weeks`, `10–12 %` and `$10–12` have the unit that is told once."""
    shared = list(figures)
    for at in range(len(shared) - 1):
        left, right = shared[at], shared[at + 1]
        if left.kind == right.kind or read.joint.fullmatch(plain[left.end : right.start]) is None:
            continue
        if left.kind == "number" and right.kind in ("span", "share", "money"):
            shared[at] = _like(left, right)
        elif right.kind == "number" and left.kind == "money":
            shared[at + 1] = _like(right, left)
    return shared


def _like(bare: Figure, told: Figure) -> Figure:
    value = bare.value / 100 if bare.value is not None and told.kind == "share" else bare.value
    return replace(bare, kind=told.kind, value=value, unit=told.unit, currencies=told.currencies)


def _joined(figures: list[Figure], text: str) -> list[Figure]:
    """Japanese scales one behind the other (1万2千) as one number."""
    joined: list[Figure] = []
    for figure in figures:
        last = joined[-1] if joined else None
        if last and last.end == figure.start and last.kind == "number" and last.decimals < 0 and last.value and figure.value:
            whole = replace(
                figure, start=last.start, text=text[last.start : figure.end], value=last.value + figure.value,
                rounding_start=last.rounding_start, rounding=last.rounding or figure.rounding,
            )  # fmt: skip
            joined[-1] = whole
        else:
            joined.append(figure)
    return joined
