"""The world of Fennmoor Looms: its days, its markets, its prices. Everything here is invented."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

AS_OF = date(2026, 3, 27)
LAUNCH = date(2025, 2, 3)
FIRST_WEEK = date(2025, 9, 1)

MODELS = ("Heron 8", "Heron 12")

HOLIDAYS = frozenset(
    date.fromisoformat(day)
    for day in (
        "2025-10-26 2025-11-01 2025-12-08 2025-12-25 2025-12-26 2026-01-01 2026-01-06 "
        "2026-04-06 2026-05-01 2026-05-14 2026-05-25 2026-06-04"
    ).split()
)
"""Austrian public holidays while the line runs and is planned; common knowledge, no source."""

STOPS = (
    (date(2025, 12, 24), date(2026, 1, 6), "Christmas closure"),
    (date(2026, 2, 12), date(2026, 2, 13), "boring machine down, spindle bearing"),
    (date(2026, 5, 15), None, "bridge day after Ascension"),
)


@dataclass(frozen=True)
class Market:
    """Where looms go: how often, how they are paid, what people read there, how long the way is in working days."""

    code: str
    weight: int
    currency: str
    locales: tuple[str, ...]
    lane: tuple[int, int]


MARKETS = (
    Market("AT", 12, "EUR", ("de-AT",) * 19 + ("en-GB",), (1, 2)),
    Market("DE", 29, "EUR", ("de-DE",), (2, 4)),
    Market("ES", 6, "EUR", ("es-ES",), (4, 7)),
    Market("FR", 11, "EUR", ("fr-FR",), (3, 5)),
    Market("GB", 9, "GBP", ("en-GB",), (4, 8)),
    Market("JP", 5, "JPY", ("ja-JP",), (8, 14)),
    Market("KW", 3, "KWD", ("ar-KW",), (9, 15)),
    Market("PL", 7, "PLN", ("pl-PL",), (3, 5)),
    Market("US", 18, "USD", ("en-US",) * 24 + ("es-US",), (7, 12)),
)

PRICES = {
    "EUR": ("890.00", "1290.00"),
    "GBP": ("780.00", "1130.00"),
    "JPY": ("145000", "210000"),
    "KWD": ("298.500", "432.000"),
    "PLN": ("3890.00", "5640.00"),
    "USD": ("980.00", "1420.00"),
}


def stopped(day: date) -> bool:
    """Whether the workshop stands still by a known stop."""
    return any(first <= day <= (last or first) for first, last, _ in STOPS)


def working(day: date) -> bool:
    """Whether looms may be boxed on a day."""
    return day.weekday() < 5 and day not in HOLIDAYS and not stopped(day)


def working_days(first: date, last: date) -> list[date]:
    """All working days from first to last, both included."""
    days = [first + timedelta(n) for n in range((last - first).days + 1)]
    return [day for day in days if working(day)]


def after_working_days(day: date, count: int) -> date:
    """The day that lies a number of working days after another."""
    while count > 0:
        day += timedelta(1)
        count -= working(day)
    return day


def price(model: str, currency: str) -> str:
    """The price of one loom in the decimals of its currency."""
    return PRICES[currency][MODELS.index(model)]
