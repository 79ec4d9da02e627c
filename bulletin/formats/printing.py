"""Facts as a reader of a locale sees them, each piece with its exact value for machines beside it.

Numbers, dates, currencies, lists and plurals come from CLDR through Babel. A value is rounded once, before Babel sees it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Literal

from babel import Locale
from babel.dates import format_date
from babel.lists import format_list
from babel.numbers import NumberPattern, format_compact_decimal, parse_pattern

from bulletin.formats.exact import Exact, half_up, machine_number, round_down, round_up, share_decimals
from bulletin.formats.intervals import interval
from bulletin.formats.locales import RANGE_SIGNS, groups_four_digits, locale_of, nouns
from bulletin.formats.spelling import spelled_out
from bulletin.model import Call, Fact, Money, Name, Names, Range, Rounding, Value, Window
from bulletin.settings.codes import minor_digits

PieceKind = Literal["data", "time", "text"]
NO_BREAK = "\u00a0"
Length = Literal["short", "medium", "long", "full"]
LENGTHS: dict[str, Length] = {"short": "short", "medium": "medium", "long": "long", "full": "full"}
CODE_BESIDE_DIGIT = re.compile(r"(?<=[A-Z])(?=\d)|(?<=\d)(?=[A-Z])")
"""CLDR's currency spacing, which Babel leaves out: a code in letters does not touch the amount (`KWD 3.500`)."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of printed text. `machine` holds its exact value (`data`) or ISO 8601 date (`time`); glue has none."""

    text: str
    kind: PieceKind = "text"
    machine: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Printed:
    """A fact as printed, in pieces: windows, ranges and money in several currencies have several with a value."""

    pieces: tuple[Piece, ...]

    @property
    def text(self) -> str:
        """What the reader sees."""
        return "".join(piece.text for piece in self.pieces)

    @property
    def kind(self) -> PieceKind:
        """The kind of its pieces with a value; `text` where none has one."""
        return next((piece.kind for piece in self.pieces if piece.machine), "text")

    @property
    def machine(self) -> tuple[str, ...]:
        """The exact values of all its pieces, in order."""
        return tuple(value for piece in self.pieces for value in piece.machine)


@dataclass(frozen=True)
class Format:
    """Bound to a locale (BCP 47) and to the names of things in it."""

    locale: str
    names: Names
    _days: dict[tuple[date, str], str] = field(default_factory=dict, repr=False, compare=False)

    @property
    def language(self) -> str:
        """The language of the locale it prints in."""
        return self.babel.language

    @property
    def babel(self) -> Locale:
        """The locale as Babel knows it."""
        return locale_of(self.locale)

    def figure(self, fact: Fact) -> str:
        """A fact's value as text, with its decimals."""
        return self.print_fact(fact).text

    def print_fact(self, fact: Fact, filters: tuple[Call, ...] = ()) -> Printed:
        """A fact in pieces. Filters are applied where they make sense for the value, others change nothing."""
        for call in filters:
            printed = self._filtered(fact, call)
            if printed is not None:
                return printed
        return Printed(self._pieces(fact, fact.value))

    def number(self, value: Exact, decimals: int = 0) -> str:
        """A number at so many decimals, ties away from zero."""
        return self._apply(self.babel.decimal_formats[None], half_up(value, decimals), decimals)

    def percent(self, share: Exact, decimals: int = 1) -> str:
        """A share of one as a percentage, with as many more decimals as keep 0 % and 100 % for exactly none and all."""
        decimals = share_decimals(share, decimals)
        rounded = half_up(Fraction(share) * 100, decimals) / 100
        return self._apply(self.babel.percent_formats[None], rounded, decimals)

    def amount(self, currency: str, value: Decimal) -> str:
        """An amount of one currency in major units, with all its minor units (ISO 4217)."""
        digits = minor_digits(currency)
        pattern = with_decimals(self.babel.currency_formats["standard"].pattern, digits)
        grouped = self._is_grouped(value)
        rounded = half_up(value, digits)
        text = pattern.apply(rounded, self.babel, currency=currency, currency_digits=False, group_separator=grouped)
        return CODE_BESIDE_DIGIT.sub(NO_BREAK, text)

    def money(self, money: Money) -> str:
        """All amounts, joined as the locale joins a list."""
        return self.listing([self.amount(currency, value) for currency, value in money.amounts])

    def day(self, day: date, length: Length = "long") -> str:
        """A date; lengths are CLDR's: short, medium, long, full (with the name of the day)."""
        if (day, length) not in self._days:
            self._days[day, length] = format_date(day, length, locale=self.babel)
        return self._days[day, length]

    def window(self, window: Window) -> str:
        """Two days as one interval: `March 5 – 9, 2026`."""
        return "".join(piece.text for piece in self._window(window))

    def listing(self, items: list[str]) -> str:
        """Items joined as the locale joins them: `a, b, and c`."""
        return format_list(items, locale=self.babel) if items else ""

    def yes_no(self, answer: bool) -> str:
        """Yes or no in the locale's language, English where we have none."""
        own = nouns().get(self.language, nouns()["en"])
        return own["yes" if answer else "no"]["other"]

    def name(self, name: Name) -> str:
        """What a thing is called in the locale, or the tables' own name of it."""
        return self.names.find((name.kind, name.id), self.locale) or name.text

    def plural(self, value: Exact) -> str:
        """The CLDR plural category of a number as shown: `one`, `few`, `other` ..."""
        return str(self.babel.plural_form(value if isinstance(value, Decimal | int) else float(value)))

    def count(self, value: Exact, noun: str, case: str = "", decimals: int = 0) -> str:
        """A number and what it counts: `3 orders`; names.csv first, then nouns.toml. An unknown noun stands as it is."""
        shown = half_up(value, decimals)
        category, figure = self.plural(shown), self.number(shown, decimals)
        own = self.names.find(("unit", noun), self.locale, category, case)
        form = own or self._noun(noun, category, case)
        if form.startswith("="):
            return form[1:]
        if own and self.language == "ar" and category == "two":
            return own
        if own and self.language in ("ja", "zh", "th"):
            return f"{figure}{own}"
        return form.replace("{}", figure) if "{}" in form else f"{figure}{NO_BREAK}{form}"

    def _noun(self, noun: str, category: str, case: str) -> str:
        own = nouns().get(self.language, {})
        forms = own.get(f"{noun} {case}".strip()) or own.get(noun) or nouns()["en"].get(noun) or {}
        return forms.get(category) or forms.get("other") or noun

    def _pieces(self, fact: Fact, value: Value) -> tuple[Piece, ...]:
        match value:
            case bool():
                return (Piece(self.yes_no(value), "data", ("yes" if value else "no",)),)
            case int() | Decimal() | Fraction():
                return (Piece(self._shown(fact, value), "data", (machine_number(value),)),)
            case Window():
                return self._window(value)
            case Range():
                sign = RANGE_SIGNS.get(self.language, "–")
                return (self._bound(value.low), Piece(sign), self._bound(value.high))
            case date():
                return (Piece(self.day(value), "time", (value.isoformat(),)),)
            case Money():
                return self._money(value)
            case Name():
                return (Piece(self.name(value)),)
            case str():
                return (Piece(value),)
            case _:
                return (Piece(self.listing([self.name(item) if isinstance(item, Name) else item for item in value])),)

    def _shown(self, fact: Fact, value: Exact) -> str:
        if fact.unit == "share":
            return self.percent(value, fact.decimals)
        return self.number(shown_number(fact, value), fact.decimals)

    def _bound(self, value: int) -> Piece:
        return Piece(self.number(value), "data", (str(value),))

    def _window(self, window: Window) -> tuple[Piece, ...]:
        if window.first == window.last:
            return (Piece(self.day(window.first), "time", (window.first.isoformat(),)),)
        first, glue, last = interval(window, self.babel)
        return Piece(first, "time", (window.first.isoformat(),)), Piece(glue), Piece(last, "time", (window.last.isoformat(),))

    def _money(self, money: Money) -> tuple[Piece, ...]:
        """Each amount a piece; the locale's list pattern is the glue between them."""
        texts = [self.amount(currency, value) for currency, value in money.amounts]
        whole, at, pieces = self.listing(texts), 0, []
        for text, (currency, value) in zip(texts, money.amounts, strict=True):
            start = whole.index(text, at)
            pieces += [Piece(whole[at:start])] if start > at else []
            pieces.append(Piece(text, "data", (f"{half_up(value, minor_digits(currency)):f}",)))
            at = start + len(text)
        return tuple(pieces)

    def _filtered(self, fact: Fact, call: Call) -> Printed | None:
        """What a filter makes of a fact, or None where it has nothing to say about such a value."""
        value = fact.value
        if call.name == "date" and isinstance(value, date):
            length = LENGTHS.get(call.arguments[0] if call.arguments else "", "full")
            return Printed((Piece(self.day(value, length), "time", (value.isoformat(),)),))
        if isinstance(value, bool) or not isinstance(value, int | Decimal | Fraction):
            return None
        exact = machine_number(value)
        if call.name == "share":
            return Printed((Piece(self.percent(value, max(fact.decimals, 1)), "data", (exact,)),))
        shown = shown_number(fact, value)
        if call.name == "units":
            text = self.count(shown, fact.unit, call.arguments[0] if call.arguments else "", fact.decimals)
        elif call.name == "words" and fact.unit != "share":
            text = spelled_out(shown, self.language) or self.number(shown, fact.decimals)
        elif call.name == "short" and fact.unit != "share":
            text = self._short(shown)
        else:
            return None
        return Printed((Piece(text, "data", (exact,)),))

    def _short(self, value: Decimal) -> str:
        """Compact (`1.3K`), rounded half-up to one decimal of the word that is used; as it is where there is no such word."""
        digits = len(str(int(abs(value))))
        pattern = self.babel.compact_decimal_formats["short"]["other"].get(str(10 ** (digits - 1)))
        if pattern is None or set(pattern.pattern) == {"0"}:
            return self.number(value)
        dropped = digits - pattern.pattern.count("0")
        rounded = int(half_up(value, 1 - dropped))
        return str(format_compact_decimal(rounded, format_type="short", locale=self.babel, fraction_digits=1))

    def _apply(self, pattern: NumberPattern, value: Decimal, decimals: int) -> str:
        fitted = with_decimals(pattern.pattern, decimals)
        return str(fitted.apply(value, self.babel, group_separator=self._is_grouped(value)))

    def _is_grouped(self, value: Decimal) -> bool:
        return abs(value) >= 10_000 or groups_four_digits(self.babel)


ROUNDED: Mapping[Rounding, Callable[[Exact, int], Decimal]] = {"nearest": half_up, "up": round_up, "down": round_down}


@cache
def with_decimals(pattern: str, decimals: int) -> NumberPattern:
    """A pattern of CLDR's that shows exactly so many decimals."""
    fitted = parse_pattern(pattern)
    fitted.frac_prec = (decimals, decimals)
    return fitted


def shown_number(fact: Fact, value: Exact) -> Decimal:
    """The number a fact shows, exact to its decimals."""
    return ROUNDED[fact.rounding](value, fact.decimals)
