"""Orders outside the queue: held at the customer's wish, or with a refund asked for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from random import Random

from tests.demo.ordering import Book, Unit
from tests.demo.world import AS_OF, after_working_days, price

REASONS = (
    "moving house, asked us to wait",
    "address not confirmed",
    "import papers missing",
    "asked to wait until the studio is built",
)


@dataclass(frozen=True)
class Hold:
    """An order out of the queue for a while, or until further notice."""

    order: str
    reason: str
    first: date
    last: date | None


def holds(book: Book) -> list[Hold]:
    """Six that have stood outside since last summer, and two dozen shorter ones."""
    rng = Random(311)
    found: list[Hold] = []
    for unit in (unit for unit in book.units if unit.batch == 1 and unit.line == 1 and unit.cancels is None):
        if rng.random() < 0.03 and len(found) < 6:
            found.append(Hold(unit.order, REASONS[len(found) % 4], date(2025, 8, 4) + timedelta(rng.randrange(20)), None))
    late = [unit for unit in book.units if 7 <= unit.batch <= 13 and unit.line == 1 and unit.cancels is None]
    for unit in rng.sample(late, 24):
        first = max(unit.placed + timedelta(2), date(2025, 11, 3)) + timedelta(rng.randrange(60))
        if first <= AS_OF:
            last = first + timedelta(14 + rng.randrange(50))
            found.append(Hold(unit.order, rng.choice(REASONS), first, rng.choice((last, last, None))))
    return sorted(found, key=lambda hold: (hold.first, hold.order))


@dataclass(frozen=True)
class Refund:
    """Money asked back, and paid or not yet."""

    order: str
    asked: date
    paid: date | None
    amount: str
    currency: str


def asked_before(book: Book, kept_away: set[str]) -> dict[str, date]:
    """Orders still waiting whose refund was asked and isn't paid; two of them more than seven working days ago."""
    rng = Random(435)
    late = [u for u in book.units if u.batch in (10, 11) and u.line == 1 and u.cancels is None and u.order not in kept_away]
    days = (date(2026, 3, 10), date(2026, 3, 12), date(2026, 3, 20), date(2026, 3, 24), date(2026, 3, 25))
    return dict(zip((unit.order for unit in rng.sample(late, len(days))), days, strict=True))


def refunds(book: Book, asked: dict[str, date]) -> list[Refund]:
    """A refund for each cancelled order, most paid within a week, and those still open."""
    rng = Random(436)
    found: list[Refund] = []
    for order, units in book.orders().items():
        head = units[0]
        if order in asked:
            found.append(Refund(order, asked[order], None, total(units), head.market.currency))
        elif head.closed is not None and head.status == "cancelled":
            paid = after_working_days(head.closed, rng.randrange(2, 7))
            found.append(Refund(order, head.closed, paid if paid <= AS_OF else None, total(units), head.market.currency))
    return sorted(found, key=lambda refund: (refund.asked, refund.order))


def total(units: list[Unit]) -> str:
    """What an order cost."""
    first = price(units[0].model, units[0].market.currency)
    places = len(first.partition(".")[2])
    minor = sum(int(price(unit.model, unit.market.currency).replace(".", "")) for unit in units)
    return f"{minor // 10**places}.{minor % 10**places:0{places}}" if places else str(minor)
