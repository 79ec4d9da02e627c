"""What customers were told: a first date with the order, notices when it moved, and what they answered."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

from tests.demo.ordering import FIRST_TOLD, Book, Unit
from tests.demo.world import AS_OF

Row = tuple[date, str, str, str, str, str]
"""told, order, due, kind, answer, answered"""


def next_due(rng: Random, due: date, kind: str) -> date:
    """A new date seven weeks or so later, on a Friday."""
    day = due + timedelta(40 + rng.randrange(14) if kind == "notice" else 54 + rng.randrange(20))
    return day + timedelta((4 - day.weekday()) % 7)


def ends_waiting(units: list[Unit]) -> date:
    """The day from which an order needs no more notices."""
    if any(unit.status == "waiting" and not unit.serial for unit in units):
        return date.max
    return max(unit.boxed or unit.closed or date.max for unit in units)


def answer(rng: Random, head: Unit, told: date, kind: str) -> tuple[str, str]:
    """What a customer says to a new date, if anything."""
    if head.status == "cancelled" and head.closed is not None and told < head.closed <= told + timedelta(30):
        return "cancel", head.closed.isoformat()
    day = told + timedelta(1 + rng.randrange(8))
    chance = 0.75 if head.market.code == "US" or kind == "renewed" else 0.35
    return ("consent", day.isoformat()) if rng.random() < chance and day <= AS_OF else ("", "")


def tell(rng: Random, units: list[Unit]) -> list[Row]:
    """All that one order was told; its last date is written on its units."""
    head = units[0]
    due = date.fromisoformat(FIRST_TOLD[head.batch - 1])
    rows: list[Row] = [(head.placed, head.order, due.isoformat(), "order", "", "")]
    kind, last = "notice", due
    while True:
        told = last - timedelta(2 + rng.randrange(5))
        if rng.random() < 0.1:
            told = last + timedelta(3 + rng.randrange(40))
        if told > AS_OF or ends_waiting(units) <= told:
            break
        new = next_due(rng, last, kind)
        dateless = rng.random() < 0.015
        rows.append((told, head.order, "" if dateless else new.isoformat(), kind, *answer(rng, head, told, kind)))
        due = due if dateless else new
        kind, last = "renewed", new
    for unit in units:
        unit.promised = due
    return rows


def told_rows(book: Book) -> list[list[str]]:
    """The rows of told.csv, by day."""
    rng = Random(4352)
    rows = sorted(row for units in book.orders().values() for row in tell(rng, units))
    return [[order, told.isoformat(), due, kind, said, answered] for told, order, due, kind, said, answered in rows]
