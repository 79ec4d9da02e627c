"""Promises, one by one."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from statistics import median

from tests.naive.folder import Maker, Row, step

NAMES = ("open", "kept", "late", "kept_share", "slip")


def facts(maker: Maker) -> dict[str, object]:
    """The family, and each promise by itself."""
    rows = maker.rows("promises")
    if rows is None:
        return {}
    stand = [(row, *standing(maker, row)) for row in rows]
    counted = [(state, days) for _, state, days in stand if state in ("kept", "late")]
    found: dict[str, object] = {
        "promises.open": sum(not is_done(row) and state != "withdrawn" for row, state, _ in stand),
        "promises.kept": sum(state == "kept" for _, state, _ in stand),
        "promises.late": sum(state == "late" for _, state, _ in stand),
    }
    if counted:
        kept = sum(state == "kept" for state, _ in counted)
        found["promises.kept_share"] = float(Fraction(kept, len(counted)))
        found["promises.slip"] = float(median([Fraction(days) for _, days in counted]))
    for row, state, days in stand:
        item = f"promises{step(row['promise'], NAMES)}"
        found |= {f"{item}.{column}": row[column] for column in ("made", "text", "due", "done", "withdrawn") if row.get(column)}
        found[f"{item}.state"] = state
        if state in ("kept", "late"):
            found[f"{item}.late_by"] = days
    return found


def is_done(row: Row) -> bool:
    """Whether it was done by the day, on a day on record or not."""
    return bool(row.get("done")) or (row["state"] == "kept" and not row.get("done later"))


def standing(maker: Maker, row: Row) -> tuple[str, int]:
    """The state of one promise, and the days it is late."""
    due = date.fromisoformat(row["due"])
    if row.get("withdrawn") or (row["state"] == "withdrawn" and not row.get("withdrawn later")):
        return "withdrawn", 0
    if is_done(row):
        ended = date.fromisoformat(row["done"]) if row.get("done") else due
        return ("late", (ended - due).days) if ended > due else ("kept", 0)
    return ("late", (maker.as_of - due).days) if maker.as_of > due else ("open", 0)
