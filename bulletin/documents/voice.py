"""How one order is spoken of: phrases, figures and names of a locale together, each figure with its exact value."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from bulletin.documents.marks import data, mark_words, moment
from bulletin.documents.phrases import Speaker, spoken_locale
from bulletin.documents.reader import Reader
from bulletin.formats.printing import Format
from bulletin.model import Names

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from bulletin.model import Maker, Money, Name, Window


STOPPED_TWICE = re.compile(r"(\.\u200f?</data>)\.")
"""A sentence that ends with a currency's sign in letters (`د.ك.`) has its full stop already."""

UNSPACED = frozenset({"ja", "th", "zh"})
"""Languages that write no space between sentences."""


@dataclass(frozen=True, slots=True)
class Voice:
    """A locale's phrases, figures and names, and the day it speaks on: what lies before that is not told as still to come."""

    speaker: Speaker
    figures: Format
    names: Names
    today: date
    contact: str = ""

    def say(self, phrase: str, /, **fill: object) -> Markup:
        """A phrase with its blanks filled."""
        return self.speaker.say(phrase, **fill)

    def say_count(self, one: str, several: str, count: int, /, **fill: object) -> Markup:
        """A phrase whose form follows a count."""
        return self.speaker.say_count(one, several, count, **fill)

    def day(self, day: date) -> Markup:
        """A date, written long."""
        return moment(self.figures.day(day), day.isoformat())

    def when(self, window: Window) -> Markup:
        """A window as it lies ahead of today: between two days or parts of months, around one day, or by its end."""
        pieces = self.figures.window(window, self.today, "between").pieces
        return Markup("").join(moment(piece.text, piece.machine[0]) if piece.machine else escape(piece.text) for piece in pieces)

    def number(self, number: int) -> Markup:
        """A count."""
        return data(self.figures.number(number), str(number))

    def money(self, money: Money) -> Markup:
        """Amounts, one behind the other where there are several currencies."""
        amounts = [data(self.figures.amount(currency, value), f"{value:f}") for currency, value in money.amounts]
        return Markup(" + ").join(amounts)

    def words(self, text: str, as_of: date) -> Markup:
        """The maker's own words from a table, in whatever language they were written, their figures marked."""
        return mark_words(" ".join(text.split()), Reader(self.speaker.locale, as_of, self.names))

    def joined(self, sentences: Sequence[Markup]) -> Markup:
        """Sentences one behind the other, with a space between them where the language writes one; no full stop twice."""
        together = Markup("" if self.figures.language in UNSPACED else " ").join(sentences)
        return Markup(STOPPED_TWICE.sub(r"\1", together))

    def model(self, model: str) -> str:
        """What a model is called."""
        return self.names.find(("model", model), self.speaker.locale) or model

    def called(self, thing: Name) -> str:
        """What a thing is called."""
        return self.figures.name(thing)

    def counted(self, count: int, noun: str) -> Markup:
        """A count with its noun: `3 looms`, `12 days`; names.csv first."""
        return data(self.figures.count(count, noun), str(count))

    def listing(self, items: Sequence[str]) -> Markup:
        """Items, marked or not, as a list in words."""
        return Markup(self.figures.listing([str(escape(item)) for item in items]))


def voice_for(maker: Maker, locale: str, names: Names, today: date) -> Voice:
    """The voice for a reader's locale, or for the maker's first where there are no phrases in it; `today` is when it speaks."""
    tag = spoken_locale(locale, maker.locales)
    return Voice(Speaker(tag), Format(tag, names), names, today, maker.contact)
