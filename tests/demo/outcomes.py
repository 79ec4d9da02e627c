"""What became of each order: left, arrived, cancelled, or still waiting."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

from tests.demo.line import Loom
from tests.demo.ordering import Book, Unit
from tests.demo.world import AS_OF, after_working_days, price, working


def settle(book: Book, looms: list[Loom]) -> None:
    """Give each unit its status and the days that bear it out."""
    rng = Random(77)
    by_serial = {loom.serial: loom for loom in looms}
    for unit in book.units:
        if unit.cancels is not None and not unit.serial:
            unit.status, unit.closed = "cancelled", unit.cancels
        elif unit.serial:
            send(rng, unit, by_serial[unit.serial])


def send(rng: Random, unit: Unit, loom: Loom) -> None:
    """Boxed looms leave with the next lorry, on Tuesday or Friday, and arrive within the lane's days."""
    if not loom.boxed:
        return
    unit.status, unit.boxed = "boxed", loom.events[-1][1].date()
    leaves = lorry(unit.boxed + timedelta(1))
    if leaves > AS_OF:
        return
    unit.status, unit.closed = "shipped", leaves
    low, high = unit.market.lane
    arrives = after_working_days(leaves, rng.randint(max(1, low - 1), high))
    if arrives < AS_OF:
        unit.status, unit.delivered = "delivered", arrives


def lorry(day: date) -> date:
    """The next day, from this one on, on which a lorry comes."""
    while not (working(day) and day.weekday() in (1, 4)):
        day += timedelta(1)
    return day


def order_rows(book: Book) -> list[list[str]]:
    """The rows of orders.csv, as they came in."""
    rows = []
    for unit in book.units:
        days = [day.isoformat() if day else "" for day in (unit.promised, unit.closed, unit.delivered)]
        currency = unit.market.currency
        rows.append([
            unit.order, str(unit.line), unit.placed.isoformat(), unit.model, unit.market.code, unit.locale, currency,
            price(unit.model, currency), unit.status, days[0], str(unit.priority or ""), f"B{unit.batch}", unit.serial,
            days[1], days[2],
        ])  # fmt: skip
    return rows
