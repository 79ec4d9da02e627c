"""The stores: what was counted when, in which lot and state, what is kept for what, and what was bought."""

from __future__ import annotations

from datetime import date, timedelta
from math import ceil
from random import Random

from tests.demo.line import Loom
from tests.demo.ordering import Book
from tests.demo.parts import of_one, structure
from tests.demo.world import AS_OF, MODELS, after_working_days

FULL_COUNTS = (date(2026, 1, 30), date(2026, 2, 27), date(2026, 3, 26))
CYCLE_COUNTS = (date(2026, 3, 5), date(2026, 3, 12), date(2026, 3, 19))

SCARCE = {"P-104": 0.262, "P-118": 0.71, "P-124": 0.55, "P-109": 0.87}
"""How much of what the waiting orders need lies in the stores; of all other parts there is enough."""

HELD = {
    "P-108": ("L-2511", "quarantine", 84, date(2025, 11, 20)),
    "P-109": ("L-2602", "quarantine", 310, date(2026, 3, 9)),
    "P-124": ("L-2603", "inspection", 120, date(2026, 3, 18)),
}
RESERVED = (
    ("P-104", "service", "10"),
    ("P-109", "service", "40"),
    ("P-110", "service", "60"),
    ("P-118", "shop", "180"),
    ("P-124", "shop", "24"),
    ("P-133", "shop", "60"),
    ("P-134", "shop", "40"),
    ("P-139", "retrofit", "61"),
)

LATE_BY = {"P-104": (9, 14, 12, 17), "P-118": (3, 8, 5), "P-124": (0, 6, 11), "P-109": (2, 2, 4)}
"""How many days after their due day past purchases arrived; others came within two days."""

OPEN = (
    ("P-104", 120, "2026-03-20", "confirmed", "2026-01-26", "turner's lathe was down in February"),
    ("P-104", 200, "2026-04-10", "in_transit", "2026-02-16", ""),
    ("P-104", 400, "2026-05-08", "ordered", "2026-03-16", ""),
    ("P-108", 400, "2026-04-24", "confirmed", "2026-03-02", ""),
    ("P-109", 500, "2026-04-03", "in_transit", "2026-02-20", "replaces lot L-2602"),
    ("P-118", 400, "2026-03-24", "in_transit", "2026-01-20", "held at customs"),
    ("P-118", 900, "2026-05-04", "confirmed", "2026-02-24", ""),
    ("P-124", 260, "2026-04-17", "confirmed", "2026-02-09", ""),
    ("P-124", 300, "2026-06-12", "ordered", "2026-03-18", ""),
    ("P-139", 240, "2026-04-08", "confirmed", "2026-03-12", "retrofit kits"),
    ("P-138", 4000, "2026-05-22", "ordered", "2026-03-09", ""),
    ("P-137", 3000, "2026-04-20", "cancelled", "2026-02-02", "paper corners instead"),
    ("P-110", 1000, "2026-02-20", "cancelled", "2025-12-01", "replaced by the stainless spring"),
)


def used(looms: list[Loom], part: str, first: date, last: date) -> int:
    """About what the line took of a part on the days after the first up to the last."""
    taken = 0.0
    for model in MODELS:
        built = sum(first < loom.first_day <= last and loom.model == model for loom in looms)
        taken += built * of_one(model, last).get(part, 0.0)
    return round(taken)


def on_hand(book: Book) -> dict[str, int]:
    """What was counted last of each part, by what the waiting orders need of it."""
    rng = Random(104)
    waiting = [unit.model for unit in book.units if unit.status == "waiting"]
    takes = {model: of_one(model, AS_OF) for model in MODELS}
    made = {parent for parent, *_ in structure()}
    found = {}
    for part in sorted({component for _, component, *_ in structure()}):
        need = sum(waiting.count(model) * takes[model].get(part, 0.0) for model in MODELS)
        reach = SCARCE.get(part, 1.06 + 0.5 * rng.random())
        found[part] = 12 + rng.randrange(30) if part in made else ceil(need * reach)
    return found | {"P-110": 310, "P-138": 0, "P-139": 96}


def received(supply: list[list[str]], part: str, first: date, last: date) -> int:
    """What arrived of a part on the days after the first up to the last."""
    rows = [row for row in supply if row[1] == part and row[6]]
    return sum(int(row[2]) for row in rows if first < date.fromisoformat(row[6]) <= last)


def stock_rows(book: Book, looms: list[Loom], supply: list[list[str]]) -> list[list[str]]:
    """The rows of stock.csv: three full counts, and the scarce parts each week, worked back from the last."""
    rows = []
    for part, last in on_hand(book).items():
        days = sorted(FULL_COUNTS + CYCLE_COUNTS) if part in SCARCE or part == "P-139" else FULL_COUNTS
        for day in days:
            rows += lots(part, day, counted((looms, supply), part, day, last))
    return sorted(rows, key=lambda row: (row[4], row[0], row[2], row[1]))


def counted(known: tuple[list[Loom], list[list[str]]], part: str, day: date, last: int) -> int:
    """A count worked back from the last one; of made parts there is always about the same, they are made as they are used."""
    if part >= "P-2":
        return last + day.day % 7
    looms, supply = known
    until = AS_OF - timedelta(1)
    return max(0, last + used(looms, part, day, until) - received(supply, part, day, until))


def lots(part: str, day: date, count: int) -> list[list[str]]:
    """A count by lot and state: the turned and cast parts come in lots, some stand aside."""
    counted = day.isoformat()
    if part not in HELD:
        return [[part, "L-2509" if part == "P-104" else "", "usable", str(count), counted]]
    lot, state, held, since = HELD[part]
    older = count // 3
    rows = [[part, "L-2512", "usable", str(older), counted], [part, "L-2601", "usable", str(count - older), counted]]
    if day >= since:
        rows.append([part, lot, state, str(held), counted])
    elif state == "quarantine":
        rows.append([part, lot, "usable", str(held), counted])
    return rows


def supply_rows(book: Book) -> list[list[str]]:
    """The rows of supply.csv: what came, with the days it came late, and what is still to come."""
    rng = Random(35)
    rows = []
    for part, count in on_hand(book).items():
        if part >= "P-2" or part in ("P-138", "P-139"):
            continue
        lateness = LATE_BY.get(part, (rng.choice((-1, 0, 0, 1)), rng.choice((0, 0, 1, 2))))
        for place, late in enumerate(lateness):
            due = date(2025, 9, 15) + timedelta(int(150 * place / len(lateness)) + rng.randrange(20))
            ordered = due - timedelta(40 + rng.randrange(20))
            came = after_working_days(due + timedelta(late - 1), 1)
            quantity = max(10, 10 * round(count / SCARCE.get(part, 1.2) * 0.07 / len(lateness)))
            rows.append([part, str(quantity), due.isoformat(), "received", ordered.isoformat(), came.isoformat(), ""])
    rows.append(["P-104", "140", "2026-03-06", "received", "2026-01-12", "2026-03-17", "turner's lathe was down in February"])
    rows.append(["P-139", "120", "2026-03-13", "received", "2026-03-11", "2026-03-16", "first retrofit kits"])
    rows += [[part, str(quantity), due, state, ordered, "", reason] for part, quantity, due, state, ordered, reason in OPEN]
    rows.sort(key=lambda row: (row[4], row[0], row[2]))
    return [[f"PO-{501 + number}", *row] for number, row in enumerate(rows)]
