"""Store credit as the maker booked it: by the policy on each anniversary, one order forgotten once."""

from __future__ import annotations

import calendar
from datetime import date, timedelta
from decimal import Decimal
from random import Random
from typing import Any

from tests.demo.ordering import FIRST_TOLD, Book, Unit
from tests.demo.world import AS_OF

Row = tuple[date, str, str, str, str]
"""date, order, kind, amount, currency"""

PLACES = {"EUR": 2, "GBP": 2, "JPY": 0, "KWD": 3, "PLN": 2, "USD": 2}


def anniversary(first: date, months: int) -> date:
    """The n-th monthly anniversary, on the last day of shorter months."""
    month = first.month - 1 + months
    year, month = first.year + month // 12, month % 12 + 1
    return date(year, month, min(first.day, calendar.monthrange(year, month)[1]))


def steps(policy: dict[str, Any], currency: str, first: date, last: date) -> list[tuple[date, Decimal]]:
    """The days up to the last on which waiting earned something, and how much."""
    cap, earned, found = Decimal(policy["cap"][currency]), Decimal(0), []
    for number in range(1, 25):
        day = anniversary(first, number)
        tiers = [tier for tier in policy["tiers"] if tier["from_month"] <= number]
        if day > last or not tiers or earned >= cap:
            break
        amount = min(Decimal(tiers[-1]["amount"][currency]), cap - earned)
        earned += amount
        found.append((day, amount))
    return found


def waited_until(unit: Unit) -> date:
    """The last day on which waiting still earned."""
    if unit.status == "cancelled" and unit.closed is not None:
        return unit.closed
    return unit.boxed if unit.boxed is not None and unit.status != "waiting" else AS_OF


def spent(rng: Random, booked: list[Row], head: Unit) -> list[Row]:
    """What became of an order's credit once its loom had left: a third is spent in the shop, some is given up."""
    balance = sum((Decimal(row[3]) for row in booked), Decimal(0))
    if head.status == "cancelled" and head.closed is not None and rng.random() < 0.6:
        return [(head.closed, head.order, "expiry", str(balance), head.market.currency)]
    if head.delivered is not None and head.delivered < AS_OF - timedelta(9) and rng.random() < 0.34:
        day = max(head.delivered, booked[-1][0]) + timedelta(1 + rng.randrange(9))
        return [(day, head.order, "redemption", str(balance), head.market.currency)] if day <= AS_OF else []
    return []


def earned(units: list[Unit], policy: dict[str, Any]) -> list[Row]:
    """The credits of one order, as the policy gives them."""
    head = units[0]
    first, currency = date.fromisoformat(FIRST_TOLD[head.batch - 1]), head.market.currency
    found = sorted(step for unit in units for step in steps(policy, currency, first, waited_until(unit)))
    return [(day, head.order, "credit", f"{amount:.{PLACES[currency]}f}", currency) for day, amount in found]


def credit_rows(book: Book, policy: dict[str, Any]) -> list[list[str]]:
    """The rows of credits.csv, by day. The last waiting order in euros that earned a credit was forgotten, and is owed it."""
    rng = Random(1031)
    orders = book.orders()
    booked = {order: earned(units, policy) for order, units in orders.items()}
    waiting = [order for order, rows in booked.items() if rows and orders[order][0].status == "waiting"]
    forgotten = [order for order in waiting if orders[order][0].market.currency == "EUR"][-1]
    booked[forgotten].pop()
    rows: list[Row] = []
    for order, own in booked.items():
        rows += own
        if own:
            rows += spent(rng, own, orders[order][0])
    rows += corrections(rng, rows)
    return [[order, day.isoformat(), kind, amount, currency] for day, order, kind, amount, currency in sorted(rows)]


def corrections(rng: Random, rows: list[Row]) -> list[Row]:
    """Four credits booked twice and taken back the day after."""
    doubled = []
    for day, order, _, amount, currency in rng.sample([row for row in rows if row[2] == "credit" and row[0] < AS_OF], 4):
        doubled.append((day, order, "credit", amount, currency))
        doubled.append((day + timedelta(1), order, "correction", f"-{amount}", currency))
    return doubled
