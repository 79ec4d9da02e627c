"""Figures with their exact values beside them: `<data value>` and `<time datetime>`, and the last check that none stands bare.

Printed facts carry their exact values already. Figures in an author's own words ("Week 13", "about 1,300") are found by the
same reading that the rules use; what it does not read as a quantity ("3D") is marked as the word it is.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from html.parser import HTMLParser
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from bulletin.documents.reader import Reader, known_names
from bulletin.formats.exact import machine_number
from bulletin.formats.figures import Day
from bulletin.formats.reading import ADDRESSES, find_figures
from bulletin.formats.rounding import agrees
from bulletin.formats.told_days import Today

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from bulletin.formats.figures import Figure
    from bulletin.formats.printed import Piece, Printed
    from bulletin.model import Fact, Names

JOINED = r"[\dA-Za-z_\u00c0-\u052f]"
"""Digits and the letters of scripts that part words by spaces: Japanese and Arabic write names and particles without one."""
WITH_DIGIT = re.compile(rf"{JOINED}*\d{JOINED}*(?:[-./:,]{JOINED}*\d{JOINED}*)*")
BOUNDS = frozenset({"above", "at_least", "below", "at_most"})
UNREAD = frozenset({"head", "title", "style", "script", "svg", "data", "time"})
"""Elements whose text needs no mark: figures of a chart stand again in its table, the others are not read or marked."""


def data(shown: str, value: str) -> Markup:
    """A quantity: what the reader sees and its exact value."""
    return Markup('<data value="{}">{}</data>').format(value, shown)


def moment(shown: str, datetime: str) -> Markup:
    """A date or duration: what the reader sees and its ISO 8601 form."""
    return Markup('<time datetime="{}">{}</time>').format(datetime, shown)


def mark_printed(printed: Printed, reader: Reader) -> Markup:
    """A printed fact with its exact values; a name or text of the tables keeps its words, its figures marked."""
    return Markup("").join(_piece(piece, reader) for piece in printed.pieces)


def _piece(piece: Piece, reader: Reader) -> Markup:
    if not piece.machine:
        return mark_words(piece.text, reader)
    return moment(piece.text, piece.machine[0]) if piece.kind == "time" else data(piece.text, piece.machine[0])


def mark_words(text: str, reader: Reader, facts: Sequence[Fact] = ()) -> Markup:
    """Plain words with every figure in them marked."""
    pieces, at = [], 0
    for start, end, mark in mark_figures(text, reader, facts):
        pieces += [escape(text[at:start]), mark]
        at = end
    return Markup("").join([*pieces, escape(text[at:])])


def mark_figures(text: str, reader: Reader, facts: Sequence[Fact] = ()) -> list[tuple[int, int, Markup]]:
    """Where figures stand in an author's words, and each with its mark; sorted, not overlapping.

    `facts` are those a claim touches: a figure that rounds one of them carries the fact's exact value, a bound ("more
    than 1,200") its own. Names with digits in them stay words.
    """
    taken = [*_named(text, reader.known), *(found.span() for found in ADDRESSES.finditer(text))]
    read = [
        (figure.start, figure.end, _mark(figure, reader, facts))
        for figure in find_figures(text, reader.locale, reader.known)
        if _counts(figure, bool(facts)) and not _meets(taken, figure.start, figure.end)
    ]
    taken += [(start, end) for start, end, _ in read]
    unread = [
        (found.start(), found.end(), data(found[0], found[0]))
        for found in WITH_DIGIT.finditer(text)
        if not _meets(taken, found.start(), found.end())
    ]
    return sorted([*read, *unread])


def _counts(figure: Figure, bound: bool) -> bool:
    """Whether to mark it: figures in digits and dates everywhere, figures in words only where a claim binds them."""
    if figure.kind == "vague":
        return False
    return bound or figure.kind == "date" or not figure.spelled


def _mark(figure: Figure, reader: Reader, facts: Sequence[Fact]) -> Markup:
    if figure.kind == "date":
        day = _datetime(figure.day or Day(), reader.as_of)
        return moment(figure.text, day) if day else escape(figure.text)
    if figure.kind == "span" and (length := _duration(figure)):
        return moment(figure.text, length)
    fact = next((fact for fact in facts if figure.rounding not in BOUNDS and agrees(figure, fact, Today(reader.as_of))), None)
    if fact is not None and isinstance(fact.value, int | Decimal | Fraction) and not isinstance(fact.value, bool):
        return data(figure.text, machine_number(fact.value))
    return data(figure.text, figure.text if figure.value is None else machine_number(figure.value))


def _datetime(day: Day, as_of: date) -> str:
    """The ISO 8601 form of a written date, as much of it as HTML's `datetime` can hold; a year left out is the as-of date's.

    Empty for what is no day, week, month or year, such as "on Mondays".
    """
    if day.shift is not None:
        return (as_of + timedelta(days=day.shift)).isoformat()
    year = day.year or as_of.year
    if day.week:
        return f"{year:04}-W{day.week:02}"
    if day.month:
        return f"{year:04}-{day.month:02}-{day.day:02}" if day.day else f"{year:04}-{day.month:02}"
    return f"{day.year:04}" if day.year else ""


def _duration(figure: Figure) -> str:
    """A span as HTML's `datetime` can hold it: whole days, weeks, hours or minutes; empty for months and working days."""
    if figure.value is None or figure.value.denominator != 1:
        return ""
    count = figure.value.numerator
    lengths = {"day": f"P{count}D", "week": f"P{7 * count}D", "hour": f"PT{count}H", "minute": f"PT{count}M"}
    return lengths.get(figure.unit, "")


def _named(text: str, known: frozenset[str]) -> list[tuple[int, int]]:
    """Where names that hold digits stand in a text, the longest first, none within another."""
    found: list[tuple[int, int]] = []
    for name in (name for name in numbered_names(known) if name in text):
        for place in re.finditer(rf"(?<!{JOINED}){re.escape(name)}(?!{JOINED})", text):
            if not _meets(found, place.start(), place.end()):
                found.append(place.span())
    return found


@lru_cache(maxsize=8)
def numbered_names(known: frozenset[str]) -> tuple[str, ...]:
    """The names that hold a digit, the longest first."""
    return tuple(sorted((name for name in known if any(map(str.isdecimal, name))), key=lambda name: (-len(name), name)))


def _meets(spans: Iterable[tuple[int, int]], start: int, end: int) -> bool:
    return any(start < taken_end and taken_start < end for taken_start, taken_end in spans)


@dataclass(frozen=True, slots=True)
class Bare:
    """A figure without its value: the digits, and the words around them."""

    figure: str
    around: str


def bare_figures(html: str, names: Names) -> list[Bare]:
    """Figures in an HTML document's text that stand in neither `<data>` nor `<time>`, in the order they stand.

    The last check before a document goes out. Names that hold digits and addresses are no figures; the text of a head and of
    a drawing is not looked at.
    """
    text = _Unmarked()
    text.feed(html)
    text.close()
    known = known_names(names)
    bare = []
    for run in text.runs:
        named = [*_named(run, known), *(found.span() for found in ADDRESSES.finditer(run))]
        bare += [
            Bare(found[0], run[max(0, found.start() - 30) : found.end() + 30].strip())
            for found in WITH_DIGIT.finditer(run)
            if not _meets(named, found.start(), found.end())
        ]
    return bare


@dataclass
class _Unmarked(HTMLParser):
    """Gathers the text outside the elements that need no mark."""

    runs: list[str] = field(default_factory=list)
    within: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002
        if tag in UNREAD:
            self.within.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if self.within and self.within[-1] == tag:
            self.within.pop()

    def handle_data(self, text: str) -> None:
        if not self.within:
            self.runs.append(text)
