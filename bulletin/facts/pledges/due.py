"""By which day a fact of the forecast says that something will have come: the facts that make a promise of a sentence.

A window promises its last day, the units of a month the end of that month, a chance the day that it is the chance of, where it is
good enough to say "we expect". Other facts of the forecast, such as how many windows moved, promise nothing.
"""

from __future__ import annotations

from calendar import monthrange
from datetime import date
from decimal import Decimal
from fractions import Fraction

from bulletin.facts.scopes.spans import read_day
from bulletin.model import Range, Value, Window

FAMILY = "forecast"


def forecast_parts(names: tuple[str, ...]) -> tuple[str, str, tuple[str, ...]]:
    """The parts of a path of the family: the model it is of (empty: all), the fact's name, its item or arguments."""
    model, rest = (names[2], names[3:]) if names[1:2] == ("of",) and len(names) > 3 else ("", names[1:])
    return model, rest[0] if rest else "", rest[1:]


def due_of(names: tuple[str, ...], value: Value, as_of: date, least_chance: Decimal) -> date | None:
    """The day by which a fact, by the names and items of its path, says that it will have come; None where it promises nothing.

    `as_of` is the day of the fact, `least_chance` the least chance that is as good as an expectation.
    """
    if isinstance(value, Window):
        return value.last
    if isinstance(value, date):
        return value
    _, name, arguments = forecast_parts(names)
    if isinstance(value, Range):
        return {"month": month_end(as_of), "next_month": month_end(month_end(as_of, 1))}.get(name)
    if not isinstance(value, Fraction) or value < Fraction(least_chance):
        return None
    if name == "chance_cleared_by" and arguments:
        day = read_day(arguments[0])
        return day if isinstance(day, date) else None
    return month_end(as_of) if name == "chance_best_month" else None


def month_end(day: date, later: int = 0) -> date:
    """The last day of the calendar month a day lies in, or of one `later` months on."""
    months = day.year * 12 + day.month - 1 + later
    year, month = months // 12, months % 12 + 1
    return date(year, month, monthrange(year, month)[1])
