"""Who ordered what and when: the orders as they came in, before anything was built."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from random import Random

from tests.demo.world import AS_OF, LAUNCH, MARKETS, MODELS, Market

MONTHLY = (230, 140, 110, 100, 90, 85, 95, 130, 150, 200, 190, 132, 136, 112)
"""Orders placed a month from February 2025: a launch, a quiet summer, presents for Christmas."""

FIRST_TOLD = (
    "2025-07-31 2025-08-31 2025-09-26 2025-10-31 2025-11-28 2025-12-19 2026-01-31 2026-01-31 2026-02-20 "
    "2026-04-15 2026-05-31 2026-06-30 2026-07-31 2026-08-31"
).split()
"""The day of leaving that each month's batch was first told; many are month ends."""


@dataclass
class Unit:
    """One row of orders.csv: one loom somebody paid for, and what became of it."""

    order: str
    line: int
    placed: date
    model: str
    market: Market
    locale: str
    batch: int
    priority: int = 0
    cancels: date | None = None
    serial: str = ""
    boxed: date | None = None
    closed: date | None = None
    delivered: date | None = None
    status: str = "waiting"
    promised: date | None = None

    @property
    def queue(self) -> tuple[int, date, int, int]:
        """Its place among the waiting: priority, then day, then number."""
        return (-self.priority, self.placed, int(self.order[2:]), self.line)


@dataclass
class Book:
    """The order book: all units, and the same by order."""

    units: list[Unit] = field(default_factory=list)

    def orders(self) -> dict[str, list[Unit]]:
        """Units by order, in the order they came in."""
        book: dict[str, list[Unit]] = {}
        for unit in self.units:
            book.setdefault(unit.order, []).append(unit)
        return book


def month_start(number: int) -> date:
    """The first day of the n-th month since the launch month."""
    month = LAUNCH.month - 1 + number
    return date(LAUNCH.year + month // 12, month % 12 + 1, 1)


def placing_days(rng: Random, number: int) -> list[date]:
    """The days on which a month's orders came in, in order."""
    first = max(month_start(number), LAUNCH)
    last = min(month_start(number + 1) - timedelta(1), AS_OF)
    span = (last - first).days + 1
    skew = 1.7 if number == 0 else 1.0
    return sorted(first + timedelta(int(span * rng.random() ** skew)) for _ in range(MONTHLY[number]))


def cancel_day(rng: Random, placed: date) -> date | None:
    """The day a customer will give up, if the loom is not boxed before."""
    if rng.random() > 0.105:
        return None
    day = placed + timedelta(3 + int(230 * rng.random()))
    return day if day <= AS_OF else None


def take_order(rng: Random, number: int, placed: date, batch: int) -> list[Unit]:
    """One order of one to three looms."""
    market = rng.choices(MARKETS, [m.weight for m in MARKETS])[0]
    locale = rng.choice(market.locales)
    lines = rng.choices((1, 2, 3), (95, 4, 1))[0]
    priority = rng.choices((0, 1, 2), (970, 24, 6))[0]
    cancels = cancel_day(rng, placed)
    return [
        Unit(f"F-{number}", line, placed, MODELS[rng.random() < 0.37], market, locale, batch, priority, cancels)
        for line in range(1, lines + 1)
    ]


def order_book() -> Book:
    """All orders placed up to the day of the demo."""
    rng = Random(20250203)
    book = Book()
    number = 1001
    for month in range(len(MONTHLY)):
        for placed in placing_days(rng, month):
            book.units += take_order(rng, number, placed, month + 1)
            number += 1
    return book
