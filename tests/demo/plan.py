"""The plan: looms a day and model from March to the end of June, somewhat above what the line does."""

from __future__ import annotations

from datetime import date

from tests.demo.world import working_days

FIRST, LAST = date(2026, 3, 2), date(2026, 6, 30)


def plan_rows() -> list[list[str]]:
    """The rows of plan.csv; on Mondays, when the line is set up anew, one loom less."""
    rows = []
    for day in working_days(FIRST, LAST):
        eight, twelve = (6, 4) if day < date(2026, 5, 4) else (7, 4)
        for model, units in (("Heron 8", eight - (day.weekday() == 0)), ("Heron 12", twelve)):
            rows.append([day.isoformat(), model, str(units)])
    return rows
