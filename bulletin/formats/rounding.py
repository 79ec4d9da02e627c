"""Whether a figure in words agrees with an exact value: the rounding that words admit, the same in each language.

No word: equal at the typed decimals, and 0 and 100 % exactly. About: within half a unit of the last non-zero digit and 5 %.
Nearly: below, by 5 % at most. More than: strictly above. At least: not below. Under, at most: the mirror. Fractions: within
one point. Days may be told in weeks or months where 5 % hold them.

Equal numbers of different things never agree: eight weeks are not eight looms, and a doubling is not two of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType

from bulletin.formats.exact import half_up, shown
from bulletin.formats.figures import Figure
from bulletin.formats.told_days import Today, is_day
from bulletin.model import Fact, Money, Range, Rounding, Value, Window

TOLERANCE = Fraction(1, 20)
POINT = Fraction(1, 100)
DAYS_IN: Mapping[str, Fraction] = MappingProxyType(
    {
        "minute": Fraction(1, 1440), "hour": Fraction(1, 24), "day": Fraction(1), "week": Fraction(7),
        "month": Fraction(146097, 4800),
    }
)  # fmt: skip
"""Calendar days in a unit of time; months are those of the Gregorian calendar's 400 years. Years are too coarse for days."""
WHOLE = MappingProxyType({"share": 1, "ratio": 1, "unit a hundred units": 100})
"""Units of what is told as a part of something, and what the whole of it is."""
PARTS = frozenset({"share", "fraction"})


@dataclass(frozen=True, slots=True)
class Measured:
    """A value that is no fact's own, with its unit as facts have it: what a condition comes to. A `ratio` has none."""

    value: Value
    unit: str
    decimals: int = 0
    rounding: Rounding = "nearest"


def agrees(figure: Figure, told: Fact | Measured, today: Today | None = None) -> bool:
    """Whether a figure agrees with a value of the same kind within the rounding that its words admit, or with what it shows.

    Shares are fractions of one, money is in major units. A window or range is told by either of its ends. Dates counted from
    today ("next week", "in three weeks") need that day; without it they agree with nothing.
    """
    if isinstance(told.value, Window | Range):
        ends = (Measured(end, "date" if isinstance(end, date) else told.unit) for end in told.value)
        return any(agrees(figure, end, today) for end in ends)
    if figure.kind == "date":
        return figure.day is not None and isinstance(told.value, date) and is_day(figure.day, told.value, today)
    if figure.value is None:
        return False
    return any(_fits(figure, ours, exact) for ours, exact in _comparable(figure, figure.value, told, today))


def is_of_kind(figure: Figure, told: Fact | Measured) -> bool:
    """Whether a figure can tell such a value at all, whatever the two come to."""
    value, unit = told.value, told.unit
    if isinstance(value, Window | Range):
        value = value[0]
    if isinstance(value, bool):
        return False
    match figure.kind:
        case "date":
            return isinstance(value, date)
        case "ordinal":
            return isinstance(value, date)
        case "span" if isinstance(value, date):
            return figure.unit in DAYS_IN
    if isinstance(value, Money):
        return figure.kind == "money"
    return _number(value) is not None and _is_number_of_kind(figure, unit)


def _is_number_of_kind(figure: Figure, unit: str) -> bool:
    match figure.kind:
        case "span":
            return unit == "working day" if figure.unit == "working day" else unit == "day" and figure.unit in DAYS_IN
        case "share" | "fraction":
            return unit in WHOLE
        case "multiple":
            return unit == "ratio"
        case "number":
            # A whole number is never a share: "1 part" is not told by all parts being there.
            return unit != "share" or figure.decimals > 0
        case "vague":
            return unit not in WHOLE
        case _:
            return False


def _comparable(
    figure: Figure, told: Fraction, measured: Fact | Measured, today: Today | None
) -> Iterator[tuple[Fraction, Fraction]]:
    """The figure and the value as numbers of the same kind (shares in percent); nothing where they are of different kinds."""
    value = measured.value
    if not is_of_kind(figure, measured):
        return
    if isinstance(value, Money):
        yield from ((told, Fraction(amount)) for currency, amount in value.amounts if currency in figure.currencies)
    elif isinstance(value, date):
        if figure.kind == "ordinal":
            yield told, Fraction(value.day)
        elif today is not None:
            yield told, Fraction((value - today.day).days) / DAYS_IN[figure.unit]
    else:
        scale = Fraction(100 if figure.kind == "share" else 1)
        yield from ((told * scale, number * scale / _one(figure, measured.unit)) for number in _numbers(measured))


def _one(figure: Figure, unit: str) -> Fraction:
    """What one of the figure's unit is in that of the value: seven days of a week, a hundred of a share by the hundred."""
    if figure.kind == "span":
        return DAYS_IN.get(figure.unit, Fraction(1))
    return Fraction(WHOLE[unit]) if figure.kind in PARTS else Fraction(1)


def _numbers(measured: Fact | Measured) -> Iterator[Fraction]:
    """The exact number and, where it is not rounded to the nearest, the one that is shown: a need of 11.1 parts is 12 parts."""
    exact = _number(measured.value)
    if exact is not None:
        yield exact
        if measured.rounding != "nearest":
            yield Fraction(shown(exact, measured.decimals, measured.rounding))


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
    if figure.kind == "span" and "day" not in figure.unit and abs(exact - told) > abs(told) * TOLERANCE:
        return False
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
