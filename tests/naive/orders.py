"""Orders, counted row by row."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from statistics import median

from tests.naive.folder import Maker, Row, step


def facts(maker: Maker) -> dict[str, object]:
    """The family for all rows, each model that an order or a scan names, each market and each batch."""
    rows = maker.order_rows
    scanned = {unit.model for unit in maker.units.values() if unit.events}
    found = {f"orders.{name}": value for name, value in of(maker, rows).items()}
    for door, column in (("of", "model"), ("in_market", "market"), ("batch", "batch")):
        items = {row.get(column, "") for row in rows} | (scanned if door == "of" else set())
        for item in sorted(items - {""}):
            own = of(maker, [row for row in rows if row.get(column) == item])
            found |= {f"orders.{door}{step(item)}.{name}": value for name, value in own.items()}
    return found


def of(maker: Maker, rows: list[Row]) -> dict[str, object]:
    """All names of the family for some rows."""
    found: dict[str, object] = {
        status: sum(row["status"] == status for row in rows)
        for status in ("waiting", "boxed", "shipped", "delivered", "cancelled")
    }
    found["out"] = sum(row["status"] in ("shipped", "delivered") for row in rows)
    waiting = [row for row in rows if row["status"] == "waiting"]
    waits = [(maker.as_of - date.fromisoformat(row["placed"])).days for row in waiting]
    if waits:
        found["oldest_wait"] = max(waits)
        found["median_wait"] = float(median([Fraction(wait) for wait in waits]))
    found["past_promise"] = sum(past(maker, row) for row in waiting)
    if maker.raw("told") is not None:
        found["retold"] = sum(retold(maker, row) for row in waiting)
    return found | by_period(maker, rows)


def past(maker: Maker, row: Row) -> bool:
    """Whether the date told last lies before the day."""
    return any(told < maker.as_of for told in maker.dates_told(row)[-1:])


def retold(maker: Maker, row: Row) -> bool:
    """Whether a customer was told more than once."""
    return sum(each["told"] <= maker.as_of.isoformat() for each in maker.told.get(row["order"], [])) > 1


def by_period(maker: Maker, rows: list[Row]) -> dict[str, object]:
    """What was placed, left and was cancelled, by period."""
    found: dict[str, object] = {}
    for period, (first, last) in maker.periods().items():
        inside = [(row, str(first), str(last)) for row in rows]
        found[f"placed_{period}"] = sum(a <= row["placed"] <= z for row, a, z in inside)
        found[f"left_{period}"] = sum(
            row["status"] in ("shipped", "delivered") and a <= row.get("closed", "") <= z for row, a, z in inside
        )
        found[f"gone_{period}"] = sum(row["status"] == "cancelled" and a <= row.get("closed", "") <= z for row, a, z in inside)
    return found
