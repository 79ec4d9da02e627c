"""Whether a figure in words agrees with an exact value: the rounding that words admit, the same in each language.

No word: equal at the typed decimals, and 0 and 100 % exactly. About: within half a unit of the last non-zero digit and 5 %.
Nearly: below, by 5 % at most. More than: strictly above. At least: not below. Under, at most: the mirror. Fractions: within
one point. Days may be told in weeks or months.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

from bulletin.formats.exact import half_up, round_up
from bulletin.formats.figures import Day, Figure
from bulletin.model import Fact, Money, Range, Value, Window

TOLERANCE = Fraction(1, 20)
POINT = Fraction(1, 100)
DAYS_IN: dict[str, Fraction] = {
    "minute": Fraction(1, 1440), "hour": Fraction(1, 24), "day": Fraction(1), "working day": Fraction(1), "week": Fraction(7),
    "month": Fraction(146097, 4800), "year": Fraction(146097, 400),
}  # fmt: skip
"""Days in a unit of time; months and years are those of the Gregorian calendar's 400 years."""


def agrees_with(figure: Figure, fact: Fact) -> bool:
    """Whether a figure agrees with a fact: with its value, or with what it shows where a need of parts is rounded up."""
    if agrees(figure, fact.value, fact.as_of):
        return True
    exact = _number(fact.value)
    return fact.unit == "part" and exact is not None and agrees(figure, round_up(exact, fact.decimals), fact.as_of)


def agrees(figure: Figure, value: Value, as_of: date | None = None) -> bool:
    """Whether a figure agrees with an exact value within the rounding that its words admit.

    Shares are fractions of one, durations days, money is in major units. A window or range is told by either of its ends. Dates
    counted from today ("next week", "in three weeks") need the as-of date; without it they agree with nothing.
    """
    if isinstance(value, Window | Range):
        return any(agrees(figure, end, as_of) for end in value)
    if figure.kind == "date":
        return figure.day is not None and isinstance(value, date) and _same_day(figure.day, value, as_of)
    if figure.value is None:
        return False
    return any(_fits(figure, told, exact) for told, exact in _comparable(figure, value, as_of))


def _comparable(figure: Figure, value: Value, as_of: date | None) -> Iterator[tuple[Fraction, Fraction]]:
    """The figure and the value as numbers of the same kind; nothing where they are of different kinds."""
    told = figure.value or Fraction(0)
    if isinstance(value, Money):
        yield from _amounts(figure, told, value)
        return
    if isinstance(value, date):
        if figure.kind == "span" and as_of is not None:
            yield told, Fraction((value - as_of).days) / DAYS_IN[figure.unit]
        elif figure.kind == "ordinal":
            yield told, Fraction(value.day)
        return
    exact = _number(value)
    if exact is None or figure.kind == "money":
        return
    if figure.kind == "span":
        yield told, exact / DAYS_IN[figure.unit]
    elif figure.kind == "share":
        yield told * 100, exact * 100
    else:
        yield told, exact


def _amounts(figure: Figure, told: Fraction, money: Money) -> Iterator[tuple[Fraction, Fraction]]:
    """Amounts of the figure's currency; a figure without one fits money in a single currency."""
    for currency, amount in money.amounts:
        if currency in figure.currencies or (figure.kind == "number" and len(money.amounts) == 1):
            yield told, Fraction(amount)


def _number(value: Value) -> Fraction | None:
    return Fraction(value) if isinstance(value, int | Decimal | Fraction) and not isinstance(value, bool) else None


def _fits(figure: Figure, told: Fraction, exact: Fraction) -> bool:
    """The rounding words of the design, on numbers of the same kind (shares in percent)."""
    if figure.kind == "vague":
        return told <= exact <= (figure.upto or told)
    match figure.rounding:
        case "about":
            return _is_about(figure, told, exact)
        case "nearly":
            return told * (1 - TOLERANCE) <= exact < told
        case "above":
            return exact > told
        case "at_least":
            return exact >= told
        case "below":
            return exact < told
        case "at_most":
            return exact <= told
        case _:
            return _is_told_plainly(figure, told, exact)


def _is_about(figure: Figure, told: Fraction, exact: Fraction) -> bool:
    if figure.kind in ("fraction", "multiple"):
        return abs(exact - told) <= abs(told) * TOLERANCE
    return abs(exact - told) <= min(last_digit(told) / 2, abs(told) * TOLERANCE)


def _is_told_plainly(figure: Figure, told: Fraction, exact: Fraction) -> bool:
    if figure.kind == "fraction":
        return abs(exact - told) <= POINT
    if figure.kind == "multiple" and figure.spelled:
        return abs(exact - told) <= told * POINT * 2
    if told == 0 or exact == 0 or (figure.kind == "share" and 100 in (told, exact)):
        return exact == told
    return Fraction(half_up(exact, figure.decimals)) == told


def last_digit(told: Fraction) -> Fraction:
    """One unit of the last digit of a number that is not zero: 100 of 1,300, 1/10 of 2.5; 0 of zero itself."""
    if told == 0:
        return Fraction(0)
    unit = Fraction(1)
    while (told / unit).denominator != 1 and unit > Fraction(1, 10**12):
        unit /= 10
    while (told / (unit * 10)).denominator == 1:
        unit *= 10
    return unit


def _same_day(told: Day, value: date, as_of: date | None) -> bool:
    """Whether all that the words say of a day is so, and they say anything at all."""
    week = value.isocalendar().week
    parts = (
        (told.year, value.year),
        (told.month, value.month),
        (told.day, value.day),
        (told.weekday, value.weekday()),
        (told.week, week),
        (told.quarter, (value.month + 2) // 3),
    )
    said = [(ours, theirs) for ours, theirs in parts if ours is not None]
    said += list(_shifted(told, value, as_of))
    return bool(said) and all(ours == theirs for ours, theirs in said)


def _shifted(told: Day, value: date, as_of: date | None) -> Iterator[tuple[int, int]]:
    """What words like tomorrow or next week say, counted from the as-of date; never so without one."""
    shifts = (told.shift, told.week_shift, told.month_shift, told.quarter_shift, told.year_shift)
    if as_of is None:
        yield from ((0, 1) for shift in shifts if shift is not None)
        return
    monday, as_of_monday = (day - timedelta(days=day.weekday()) for day in (value, as_of))
    months = (value.year - as_of.year) * 12 + value.month - as_of.month
    quarters = (value.year - as_of.year) * 4 + (value.month + 2) // 3 - (as_of.month + 2) // 3
    counted = ((value - as_of).days, (monday - as_of_monday).days // 7, months, quarters, value.year - as_of.year)
    yield from ((shift, count) for shift, count in zip(shifts, counted, strict=True) if shift is not None)
