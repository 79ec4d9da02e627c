"""What frees a figure in prose: names, idioms, addresses, versions, the as-of date's own week, month and year.

Known names are blotted out, as long as before, so that whatever is found afterwards stands where it stood.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from babel import Locale

from bulletin.draft.sentences import Span, sentences
from bulletin.draft.visible import FORM

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from bulletin.draft.language import FreeShape, Language
    from bulletin.formats.figures import Day
    from bulletin.scrutiny.known_names import KnownNames

NAME_WITH_FIGURES = re.compile(
    r"(?<![\w\ufffc])([A-Z][\w'\u2019-]*[a-z][\w'\u2019-]*) (\d{1,4}(?:\.\d{1,4})*)(?![\w%]|[.,:]\d|\s?[%\u20ac$\u00a3])"
)
NEXT_WORDS = re.compile(r"\s+(?:[a-z][\w-]*\s+)?([a-z][\w-]*s|of)(?!\w)")
ELIDED = re.compile(r"[A-Z]['\u2019](?=[A-Z])")
"""An article that has lost its vowel ("L'Heron 12"): the capital behind it is a name's, though the sentence begins there."""
WORD_BEFORE = re.compile(r"[\w\ufffc,)'\u2019\"\u201d]\s+(?:[a-z]['\u2019])?\Z")


def free_names(text: str, names: KnownNames) -> str:
    """The text without the names that tables and settings know."""
    return blot(text, [Span(name.start, name.end) for name in names.find(text)])


def free_shapes(text: str, language: Language, locale: str) -> list[Span]:
    """Where idioms, addresses, versions and what looks like a name stand: figures in them count nothing."""
    idioms = (Span(*idiom.span()) for idiom in language.idioms.finditer(text))
    shaped = (span for shape in language.free for span in _shapes(text, shape, locale))
    return [*idioms, *shaped, *_guessed_names(text, language, locale)]


def is_of_as_of(day: Day, as_of: date) -> bool:
    """Whether a date in words is the as-of date, its week, month or year, or one that has facts ("last week", "yesterday")."""
    if day.weekday is not None and day.day is None:
        return False
    shifts = [shift for shift in _shifts(day) if shift is not None]
    if shifts:
        return day.weekday is None and all(shift in (0, -1) for shift in shifts)
    calendar = as_of.isocalendar()
    own = (
        (day.year, calendar.year if day.week is not None else as_of.year),
        (day.month, as_of.month),
        (day.day, as_of.day),
        (day.week, calendar.week),
        (day.quarter, (as_of.month + 2) // 3),
        (day.weekday, as_of.weekday()),
    )
    said = [(told, true) for told, true in own if told is not None]
    return bool(said) and all(told == true for told, true in said)


def _shifts(day: Day) -> tuple[int | None, ...]:
    return day.shift, day.week_shift, day.month_shift, day.quarter_shift, day.year_shift


def blot(text: str, spans: list[Span]) -> str:
    """The text with spans replaced by signs that are no words."""
    parts, at = [], 0
    for start, end in sorted(spans):
        if end > at:
            parts += [text[at : max(at, start)], FORM * (end - max(at, start))]
            at = end
    return "".join([*parts, text[at:]])


def _shapes(text: str, shape: FreeShape, locale: str) -> Iterator[Span]:
    found = [Span(*match.span()) for match in shape.pattern.finditer(text)]
    near = [span for span in sentences(text, locale) if shape.near.search(text, *span)] if found else []
    yield from (span for span in found if any(sentence.holds(span.start) for sentence in near))


@cache
def calendar_words(locale: str) -> frozenset[str]:
    """Names of months and weekdays in a locale, long and short, in lower case, by CLDR."""
    babel = Locale.parse(locale, sep="-" if "-" in locale else "_")
    named = (*babel.months["format"].values(), *babel.days["format"].values())
    return frozenset(str(name).lower().rstrip(".") for width in named for name in width.values())


def _guessed_names(text: str, language: Language, locale: str) -> Iterator[Span]:
    """A capital word inside a sentence with a number behind it, unless the number counts what follows it."""
    for match in NAME_WITH_FIGURES.finditer(text):
        opens = WORD_BEFORE.search(text[max(0, match.start() - 60) : match.start()]) is None and not ELIDED.match(match[1])
        counted = NEXT_WORDS.match(text, match.end())
        counts = counted is not None and not language.classes["verbs_in_s"].fullmatch(counted[1])
        common = language.classes["no_names"].fullmatch(match[1]) or match[1].lower() in calendar_words(locale)
        if not opens and not counts and not common:
            yield Span(*match.span())
