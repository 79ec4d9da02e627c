"""Windows of days in words: whole days for near ones, parts of months for far ones, never a bare date, never a day gone by.

The words are data, `[windows]` in the file of each language under words/: the same in drafts and in answers about orders, and the
reader of figures knows them (`[month_parts]`). A language without such data has whole days by CLDR's own patterns.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

from babel.dates import format_date, parse_pattern

from bulletin.formats.intervals import interval
from bulletin.formats.printed import Piece
from bulletin.formats.told_days import THIRDS, third_of
from bulletin.formats.vocabulary import load
from bulletin.model import Window

if TYPE_CHECKING:
    from babel import Locale

FAR = timedelta(weeks=8)
"""A window that ends later than this is told in parts of months: two months ahead nobody plans by the day, and an end told to the
day sounds surer than four in five."""
WIDE = timedelta(weeks=2)
"""A window narrower than this keeps its days however far it lies: a third of a month at either end would double it."""
SIGNS: Mapping[str, str] = MappingProxyType({"around": "~{first}", "by": "≤{last}", "between": "{first} – {last}"})
"""CLDR's signs (miscPatterns `approximately`, `atMost`; intervalFormatFallback), where a language has no words."""
BLANK = re.compile(r"(\{first\}|\{last\})")

Use = Literal["printed", "between"]
"""`printed` stands alone, as an interval does (`early May to mid-June 2026`), `between` in a sentence (`between ... and ...`)."""
Manner = Literal["printed", "between", "around", "by"]
"""How it comes to be told: a single day and what has begun are told their own way."""


def window_pieces(window: Window, as_of: date, locale: Locale, use: Use = "printed") -> tuple[Piece, ...]:
    """A window as it is told on a day, its ends with their exact days.

    One that has begun is told by its end alone, one of a single day as around that day. One that is wholly past is told as it
    was: whoever speaks of what lies ahead leaves it out (`is_ahead`).
    """
    manner: Manner = use
    if window.first <= as_of <= window.last:
        manner = "by"
    elif window.first == window.last:
        manner = "around"
    if is_far(window, as_of) and _has_parts(locale):
        return tuple(_filled(_pattern((f"{manner}_parts", manner), locale), _parts(window, locale, manner), window))
    if manner == "printed":
        first, glue, last = interval(window, locale)
        return tuple(_filled(f"{{first}}{glue}{{last}}", (first, last), window))
    days = format_date(window.first, "long", locale=locale), format_date(window.last, "long", locale=locale)
    return tuple(_filled(_pattern((manner,), locale), days, window))


def is_ahead(window: Window, as_of: date) -> bool:
    """Whether any of a window is still to come."""
    return window.last >= as_of


def is_far(window: Window, as_of: date) -> bool:
    """Whether parts of months tell it: it ends far off, is wide enough for them, and the part it begins in is not begun yet."""
    begins = window.first.replace(day=10 * (third_of(window.first) - 1) + 1)
    ahead = begins > as_of or window.first <= as_of
    return window.last - as_of > FAR and window.last - max(window.first, as_of) >= WIDE and ahead


def _parts(window: Window, locale: Locale, manner: Manner) -> tuple[str, str]:
    """The parts of months of both ends, with the year once where it is the same: the first's in languages that begin with it."""
    same = window.first.year == window.last.year and manner != "by"
    leads = _words(locale)["year"].startswith("{year}")
    first = part_of_month(window.first, locale, manner, year=leads or not same)
    return first, part_of_month(window.last, locale, manner, year=not (leads and same))


def part_of_month(day: date, locale: Locale, manner: Manner = "printed", *, year: bool = True) -> str:
    """The third of the month that holds a day (up to the 10th, the 20th, its end): `early May 2026`; needs words for it.

    Some languages have other forms of it for some manners (`early_by`).
    """
    words, third = _words(locale), THIRDS[third_of(day) - 1]
    pattern = words.get(f"{third}_{manner}") or words[third]
    # As it stands within dates: Babel's names for months alone are those of whichever locale was loaded first.
    part = pattern.format(month=parse_pattern("MMMM").apply(day, locale))
    return words["year"].format(part=part, year=format_date(day, "y", locale=locale)) if year else part


def _words(locale: Locale) -> Mapping[str, str]:
    found: Mapping[str, str] = load(locale.language).get("windows", {})
    return found


def _has_parts(locale: Locale) -> bool:
    return set(THIRDS) <= _words(locale).keys()


def _pattern(manners: tuple[str, ...], locale: Locale) -> str:
    """The pattern of the first of some manners that the language has, else CLDR's sign for the last of them."""
    words = _words(locale)
    return next((words[manner] for manner in manners if manner in words), SIGNS.get(manners[-1], ""))


def _filled(pattern: str, ends: tuple[str, str], window: Window) -> Iterator[Piece]:
    for text in filter(None, BLANK.split(pattern)):
        match text:
            case "{first}":
                yield Piece(ends[0], "time", (window.first.isoformat(),))
            case "{last}":
                yield Piece(ends[1], "time", (window.last.isoformat(),))
            case glue:
                yield Piece(glue)
