"""Refunds that were asked for and are not paid."""

from __future__ import annotations

from datetime import timedelta

from tests.naive.folder import Maker


def facts(maker: Maker) -> dict[str, object]:
    """How many wait for their money, and how many longer than seven working days."""
    rows = maker.rows("refunds")
    if rows is None:
        return {}
    unpaid = [row for row in rows if not row.get("paid")]
    day, working = maker.as_of, int(maker.is_working(maker.as_of))
    while working < 8:
        day -= timedelta(1)
        working += maker.is_working(day)
    return {"refunds.open": len(unpaid), "refunds.late": sum(row["asked"] < day.isoformat() for row in unpaid)}
