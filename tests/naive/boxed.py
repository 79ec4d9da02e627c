"""Units boxed, counted one by one."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from fractions import Fraction

from tests.naive.folder import Maker, Unit, step


def counted_on(maker: Maker, unit: Unit) -> date | None:
    """The day a unit counts on, if it stands boxed and is no sample."""
    if not unit.stands or unit.purpose == "sample":
        return None
    return unit.boxed_days(maker.zone)[0]


def facts(maker: Maker) -> dict[str, object]:
    """The family for all units, and for each model."""
    known = {unit.model for unit in maker.units.values() if unit.events}
    models = sorted(known | {row["model"] for row in maker.order_rows})
    found = {f"boxed.{name}": value for name, value in of(maker, list(maker.units.values())).items()}
    for model in models:
        own = of(maker, [unit for unit in maker.units.values() if unit.model == model])
        found |= {f"boxed.of{step(model)}.{name}": value for name, value in own.items()}
    return found


def of(maker: Maker, units: list[Unit]) -> dict[str, object]:
    """All names of the family for some units."""
    days = [day for day in (counted_on(maker, unit) for unit in units) if day is not None]
    found: dict[str, object] = {
        name: sum(first <= day <= last for day in days) for name, (first, last) in maker.periods().items()
    }
    found["total"] = len(days)
    found["for_orders"] = sum(counted_on(maker, unit) is not None and is_for_order(unit) for unit in units)
    found["reboxed_week"] = sum(reboxed(maker, unit) for unit in units)
    if any(at.astimezone(maker.zone).date() < maker.as_of for unit in maker.units.values() for at, _ in unit.events):
        found["rate"] = float(rate(maker, days))
    for name, period in (("best_day", "today"), ("best_week", "week"), ("best_month", "month")):
        record = best(maker, days, period)
        if record is not None:
            found[name] = record
    return found


def is_for_order(unit: Unit) -> bool:
    """Whether a unit was boxed for an order: said so, or nothing said and an order named."""
    return unit.purpose == "order" or (unit.purpose == "" and unit.order != "")


def reboxed(maker: Maker, unit: Unit) -> bool:
    """Whether a unit that stands boxed was boxed again since the week began."""
    first, last = maker.periods()["week"]
    again = unit.boxed_days(maker.zone)[1:]
    return unit.stands and unit.purpose != "sample" and any(first <= day <= last for day in again)


def rate(maker: Maker, days: list[date]) -> Fraction:
    """Units from the first to the last of the 20 working days that ended before the day, a working day."""
    day, worked = maker.as_of, 0
    last: date | None = None
    while worked < 20:
        day -= timedelta(1)
        if maker.is_working(day):
            worked += 1
            last = last or day
    return Fraction(sum(day <= each <= (last or day) for each in days), 20)


def best(maker: Maker, days: list[date], period: str) -> int | None:
    """The most units in a completed period before the current one."""
    begins = maker.periods()[period][0]
    counts: Counter[date] = Counter()
    for day in days:
        if day < begins:
            start = {"today": day, "week": maker.week_of(day), "month": day.replace(day=1)}[period]
            counts[start] += 1
    return max(counts.values()) if counts else None
