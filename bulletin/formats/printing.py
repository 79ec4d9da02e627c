"""Facts as a reader of a locale sees them, each piece with its exact value for machines beside it.

Numbers, dates, currencies, lists and plurals come from CLDR through Babel. A value is rounded once, before Babel sees it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal, localcontext
from fractions import Fraction
from functools import cache
from typing import Any

from babel import Locale
from babel.dates import format_date
from babel.lists import format_list
from babel.numbers import NumberPattern, format_compact_decimal, parse_pattern

from bulletin.formats.exact import Exact, half_up, machine_number, share_decimals, shown
from bulletin.formats.filters import FORMS, Length, length_of, misfit, unfitting
from bulletin.formats.locales import groups_four_digits, locale_of, nouns
from bulletin.formats.printed import Piece, Printed
from bulletin.formats.spelling import spelled_out
from bulletin.formats.vocabulary import load
from bulletin.formats.windows import Use, window_pieces
from bulletin.model import Call, Fact, Money, Name, Names, Range, Value, Window
from bulletin.settings.codes import minor_digits

NO_BREAK = "\u00a0"
FIGURE = "{}"
"""Where the figure stands in what is counted."""
CODE_BESIDE_DIGIT = re.compile(r"(?<=[A-Z])(?=\d)|(?<=\d)(?=[A-Z])")
"""CLDR's currency spacing, which Babel leaves out: a code in letters does not touch the amount (`KWD 3.500`)."""


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
        """A fact in pieces. A filter that does not fit it changes nothing; `misfit` says so."""
        asked = {call.name: call for call in filters if not unfitting(fact, call, self.names)}
        value = fact.value
        if "date" in asked and isinstance(value, date):
            return Printed((Piece(self.day(value, length_of(asked["date"])), "time", (value.isoformat(),)),))
        pieces = self._pieces(fact, value, next((name for name in FORMS if name in asked), ""))
        if "units" not in asked or not isinstance(value, int | Decimal | Fraction | Range):
            return Printed(pieces)
        shown = value.high if isinstance(value, Range) else shown_number(fact, value)
        around = self._noun(fact.unit, shown, next(iter(asked["units"].arguments), ""))
        return Printed(_counted(pieces, around))

    def misfit(self, fact: Fact, filters: tuple[Call, ...]) -> str:
        """Why the filters do not fit a fact, as a clause; empty where they do."""
        return misfit(fact, filters, self.names)

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
        """All amounts that are not zero, joined as the locale joins a list; never empty."""
        return "".join(piece.text for piece in self._money(money))

    def day(self, day: date, length: Length = "long") -> str:
        """A date; lengths are CLDR's: short, medium, long, full (with the name of the day)."""
        if (day, length) not in self._days:
            self._days[day, length] = format_date(day, length, locale=self.babel)
        return self._days[day, length]

    def window(self, window: Window, as_of: date, use: Use = "printed") -> Printed:
        """A window as it is told on a day: `March 5 – 9, 2026`, `early May to mid-June 2026`, `between ... and ...`."""
        return Printed(window_pieces(window, as_of, self.babel, use))

    def listing(self, items: list[str]) -> str:
        """Items joined as the locale joins them: `a, b, and c`; the locale's word for none where there are none."""
        return format_list(items, locale=self.babel) if items else self._word("none")

    def yes_no(self, answer: bool) -> str:
        """Yes or no in the locale's language, English where we have none."""
        return self._word("yes" if answer else "no")

    def name(self, name: Name) -> str:
        """What a thing is called in the locale, or the tables' own name of it."""
        return self.names.find((name.kind, name.id), self.locale) or name.text

    def plural(self, value: Exact) -> str:
        """The CLDR plural category of a number as shown: `one`, `few`, `other` ..."""
        return str(self.babel.plural_form(value if isinstance(value, Decimal | int) else float(value)))

    def count(self, value: Exact, noun: str, case: str = "", decimals: int = 0) -> str:
        """A number and what it counts: `3 orders`; names.csv first, then nouns.toml. An unknown noun stands as it is."""
        shown = half_up(value, decimals)
        return self._noun(noun, shown, case).replace(FIGURE, self.number(shown, decimals))

    def _noun(self, noun: str, shown: Exact, case: str) -> str:
        """What is counted, with FIGURE where the number stands; without it the noun says the number itself (a dual)."""
        category = self.plural(shown)
        own = self.names.find(("unit", noun), self.locale, category, case)
        form = own or self._form(noun, category, case)
        if form.startswith("="):
            return form[1:]
        if own and category in self._told.get("categories_that_count", ()):
            return own
        if FIGURE in form:
            return form
        return f"{FIGURE}{form}" if own and self._told.get("counts_unspaced") else f"{FIGURE}{NO_BREAK}{form}"

    def _form(self, noun: str, category: str, case: str) -> str:
        own = nouns().get(self.language, {})
        forms = own.get(f"{noun} {case}".strip()) or own.get(noun) or nouns()["en"].get(noun) or {}
        return forms.get(category) or forms.get("other") or noun

    def _word(self, word: str) -> str:
        """Yes, no or none in the locale's language, English where we have none."""
        return nouns().get(self.language, nouns()["en"])[word]["other"]

    @property
    def _told(self) -> Mapping[str, Any]:
        """How the language tells figures; nothing where it has no data file."""
        return load(self.language)

    def _pieces(self, fact: Fact, value: Value, form: str = "") -> tuple[Piece, ...]:
        match value:
            case bool():
                return (Piece(self.yes_no(value), "data", ("yes" if value else "no",)),)
            case int() | Decimal() | Fraction():
                return (Piece(self._shown(fact, value, form), "data", (machine_number(value),)),)
            case Window():
                return window_pieces(value, fact.as_of, self.babel)
            case Range():
                return (self._bound(value.low), Piece(self._told.get("range_sign", "–")), self._bound(value.high))
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

    def _shown(self, fact: Fact, value: Exact, form: str) -> str:
        if fact.unit == "share":
            return self.percent(value, fact.decimals)
        number = shown_number(fact, value)
        spelled = spelled_out(number, self._told.get("spelling", "")) if form == "words" else None
        return spelled or (self._short(number) if form == "short" else self.number(number, fact.decimals))

    def _bound(self, value: int) -> Piece:
        return Piece(self.number(value), "data", (str(value),))

    def _money(self, money: Money) -> tuple[Piece, ...]:
        """Each amount a piece, with the glue of the locale's list pattern; zeros stand only where there is nothing else."""
        amounts = told_amounts(money)
        if not amounts:
            return (self._bound(0),)
        texts = [self.amount(currency, value) for currency, value in amounts]
        whole, at, pieces = self.listing(texts), 0, []
        for text, (currency, value) in zip(texts, amounts, strict=True):
            start = whole.index(text, at)
            pieces += [Piece(whole[at:start])] if start > at else []
            pieces.append(Piece(text, "data", (f"{half_up(value, minor_digits(currency)):f}",)))
            at = start + len(text)
        return tuple(pieces)

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
        with localcontext(prec=1000):
            return str(fitted.apply(value, self.babel, group_separator=self._is_grouped(value)))

    def _is_grouped(self, value: Decimal) -> bool:
        return abs(value) >= 10_000 or groups_four_digits(self.babel)


@cache
def with_decimals(pattern: str, decimals: int) -> NumberPattern:
    """A pattern of CLDR's that shows exactly so many decimals."""
    fitted = parse_pattern(pattern)
    fitted.frac_prec = (decimals, decimals)
    return fitted


def shown_number(fact: Fact, value: Exact) -> Decimal:
    """The number a fact shows, exact to its decimals."""
    return shown(value, fact.decimals, fact.rounding)


def told_amounts(money: Money) -> tuple[tuple[str, Decimal], ...]:
    """The amounts that are not zero; where all are, that of the first currency by code; none where there is no currency."""
    return tuple((currency, amount) for currency, amount in money.amounts if amount) or money.amounts[:1]


def _counted(pieces: tuple[Piece, ...], noun: str) -> tuple[Piece, ...]:
    """Figures with their noun around them, in the piece with the value where there is one: `41 looms`."""
    before, figure, behind = noun.partition(FIGURE)
    text = f"{before}{pieces[0].text}{behind}" if figure else noun
    if len(pieces) == 1:
        return (replace(pieces[0], text=text),)
    return (Piece(before), *pieces, Piece(behind)) if figure else pieces
