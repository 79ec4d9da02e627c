"""Planned units, added up row by row."""

from __future__ import annotations

from datetime import date, timedelta

from tests.naive.folder import Maker, Row, step

Span = tuple[date, date]
ASKED = -45, -1, 0, 1, 6, 40
"""Days from the as-of date for which single days are asked."""


def facts(maker: Maker) -> dict[str, object]:
    """The family for the whole plan, and for each model in it."""
    rows = maker.raw("plan")
    if rows is None:
        return {}
    found = {f"plan.{name}": units for name, units in of(maker, rows, rows).items()}
    for model in sorted({row["model"] for row in rows}):
        own = of(maker, rows, [row for row in rows if row["model"] == model])
        found |= {f"plan.of{step(model)}.{name}": units for name, units in own.items()}
    return found


def of(maker: Maker, plan: list[Row], rows: list[Row]) -> dict[str, object]:
    """Every period of some rows; None where the plan lies wholly before or after it."""
    days = sorted(row["date"] for row in plan)
    found: dict[str, object] = {}
    for name, (first, last) in spans(maker).items():
        told = bool(days) and days[0] <= str(last) and str(first) <= days[-1]
        found[name] = sum(int(row["units"]) for row in rows if str(first) <= row["date"] <= str(last)) if told else None
    return found


def spans(maker: Maker) -> dict[str, Span]:
    """Whole weeks and months, this one and the next, and some single days."""
    week = maker.week_of(maker.as_of)
    month = maker.as_of.replace(day=1)
    next_month = first_of_next(month)
    whole = {
        "week": (week, week + timedelta(6)),
        "next_week": (week + timedelta(7), week + timedelta(13)),
        "month": (month, next_month - timedelta(1)),
        "next_month": (next_month, first_of_next(next_month) - timedelta(1)),
    }
    single = [maker.as_of + timedelta(ahead) for ahead in ASKED]
    return whole | {f"on.{day}": (day, day) for day in single}


def first_of_next(month: date) -> date:
    """The first day of the month after one."""
    return (month + timedelta(31)).replace(day=1)
