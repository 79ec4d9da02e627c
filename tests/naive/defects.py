"""Defects and the units they touch, row by row."""

from __future__ import annotations

from fractions import Fraction

from tests.naive.coverage import newest
from tests.naive.folder import Maker, Row, step

COLUMNS = (
    "title", "severity", "part", "lot", "opened", "closed", "remedy", "remedy_part", "traced", "hazard", "do_now",
)  # fmt: skip
FAMILY = ("open", "open_safety", "closed_week", "affected", "remedied", "unremedied")


def facts(maker: Maker) -> dict[str, object]:
    """The family, and each defect by itself."""
    defects = maker.rows("defects")
    if defects is None:
        return {}
    for row in defects:
        if row.get("closed later"):
            row["state"] = "open"
    standing = [row for row in defects if row["state"] in ("open", "contained")]
    week, today = (day.isoformat() for day in maker.periods()["week"])
    found: dict[str, object] = {
        "defects.open": len(standing),
        "defects.open_safety": sum(row["severity"] == "safety" for row in standing),
        "defects.closed_week": sum(week <= row.get("closed", "") <= today for row in defects),
    }
    affected = maker.rows("affected")
    if affected is not None:
        known = {row["defect"] for row in defects}
        traced = all(row.get("traced") == "complete" for row in defects)
        counted = counts([row for row in affected if row["defect"] in known], traced)
        found |= {f"defects.{name}": count for name, count in counted.items() if name in FAMILY}
    for row in defects:
        item = f"defects{step(row['defect'], FAMILY)}"
        found |= {f"{item}.{name}": value for name, value in of_one(maker, row, affected).items()}
    return found


def counts(rows: list[Row], traced: bool) -> dict[str, int]:
    """How many units, and how far they have come; where not all is traced, none found is no count."""
    remedied = sum(bool(row.get("remedied")) for row in rows)
    found = {"affected": len(rows), "unremedied": len(rows) - remedied}
    if not traced:
        found = {name: count for name, count in found.items() if count > 0}
    return found | {"remedied": remedied, "address_confirmed": sum(bool(row.get("address_confirmed")) for row in rows)}


def of_one(maker: Maker, row: Row, affected: list[Row] | None) -> dict[str, object]:
    """State, columns and counts of one defect; no rows of one that is not wholly traced say nothing."""
    found: dict[str, object] = {"state": row["state"]}
    found |= {column: row[column] for column in COLUMNS if row.get(column)}
    if affected is not None:
        own = [each for each in affected if each["defect"] == row["defect"]]
        found |= counts(own, row.get("traced") == "complete")
    if row.get("remedy_part") and maker.rows("stock"):
        counted = [each for each in newest(maker.rows("stock") or []) if each["part"] == row["remedy_part"]]
        if counted:
            found["kits"] = float(sum(Fraction(each["quantity"]) for each in counted if each["state"] == "usable"))
    return found
