"""Changes: the units built with them, and the defect's units on either side, one by one."""

from __future__ import annotations

from fractions import Fraction

from tests.naive.boxed import counted_on
from tests.naive.folder import Maker, Row, Unit, natural, step
from tests.naive.inspections import confidence, fisher

COLUMNS = ("title", "model", "from_serial", "from_date", "defect", "state")


def facts(maker: Maker) -> dict[str, object]:
    """Each change."""
    found: dict[str, object] = {}
    for row in maker.raw("changes") or []:
        item = f"changes{step(row['change'])}"
        found |= {f"{item}.{name}": value for name, value in of_one(maker, row).items()}
    return found


def of_one(maker: Maker, row: Row) -> dict[str, object]:
    """Columns, units with the change, and rates where the row names a defect that is known."""
    found: dict[str, object] = {column: row[column] for column in COLUMNS if row.get(column)}
    if not row.get("from_serial") and not row.get("from_date"):
        return found
    units = [unit for unit in maker.units.values() if unit.model == row["model"] and counted_on(maker, unit)]
    new = [unit for unit in units if is_with(maker, row, unit)]
    old = [unit for unit in units if not is_with(maker, row, unit)]
    return found | {"boxed_with": len(new)} | rates(maker, row, new, old)


def is_with(maker: Maker, row: Row, unit: Unit) -> bool:
    """Whether a unit was built with the change: by its serial, else by the day it counts on."""
    if row.get("from_serial"):
        return natural(unit.serial) >= natural(row["from_serial"])
    return str(counted_on(maker, unit)) >= row["from_date"]


def rates(maker: Maker, row: Row, new: list[Unit], old: list[Unit]) -> dict[str, object]:
    """Affected units a hundred units on either side, and whether they became fewer beyond chance."""
    affected = maker.rows("affected")
    defects = [each for each in maker.rows("defects") or [] if each["defect"] == row.get("defect")]
    if affected is None or not defects:
        return {}
    traced = defects[0].get("traced") == "complete"
    touched = {each["serial"] for each in affected if each["defect"] == row["defect"]}
    counts = [(sum(unit.serial in touched for unit in side), len(side)) for side in (new, old)]
    found: dict[str, object] = {
        name: float(Fraction(100 * failed, units))
        for name, (failed, units) in zip(("rate", "rate_before"), counts, strict=True)
        if units and (failed or traced)
    }
    if traced and new and old:
        found["rate_fell"] = fisher(*counts[0], *counts[1]) <= 1 - confidence(maker)
    return found
