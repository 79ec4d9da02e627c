"""What went wrong and what was done: defects, the looms they touch, inspections, changes."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

from tests.demo.line import Loom
from tests.demo.world import AS_OF

DEFECTS = """
D-1|function|P-122||2025-09-22|closed|2025-11-03|repair||complete||
D-2|cosmetic|P-103||2025-10-06|closed|2025-11-14|none||no||
D-3|function|P-108|L-2511|2025-11-18|fixed||replace|P-108|complete||
D-4|function|P-125||2025-11-26|fixed||repair||partly||
D-5|function|P-119||2025-11-10|fixed||replace|P-119|complete||
D-6|cosmetic|P-135||2025-12-03|closed|2025-12-19|none||complete||
D-7|function|P-126||2026-01-19|closed|2026-03-25|repair||complete||
D-8|function|P-117||2026-01-28|contained||replace|P-117|partly||
D-9|cosmetic|P-130||2026-02-16|open||none||no||
D-10|function|P-112||2026-02-24|open||replace|P-112|partly||
D-11|safety|P-106||2025-12-09|closed|2026-02-20|repair||complete|A splinter can cut a hand.|Cover the edge with tape.
D-12|safety|P-109|L-2602|2026-03-10|open||retrofit|P-139|partly|The pawl can let go; the crank spins back and can hit a hand.|\
Stop winding and weaving. Loosen the warp and leave it loose until the pawl guard is fitted.
""".replace("\\\n", "")

TOUCHED = {
    "D-1": ("", "2025-09-01", "2025-09-19", 0.30, 1.0),
    "D-3": ("", "2025-11-03", "2025-11-17", 0.35, 1.0),
    "D-4": ("", "2025-10-06", "2025-11-28", 0.06, 0.8),
    "D-5": ("Heron 12", "2025-09-08", "2025-11-14", 0.20, 0.9),
    "D-6": ("Heron 8", "2025-11-24", "2025-12-02", 0.25, 1.0),
    "D-7": ("", "2025-12-15", "2026-01-16", 0.12, 1.0),
    "D-8": ("Heron 12", "2026-01-12", "2026-02-06", 0.22, 0.5),
    "D-10": ("", "2026-02-02", "2026-03-20", 0.03, 0.4),
    "D-11": ("", "2025-11-24", "2025-12-05", 0.13, 1.0),
    "D-12": ("", "2026-02-09", "2026-03-09", 0.34, 0.25),
}
"""Model, first and last day of boxing, share of the looms touched, share of those remedied by now."""

INSPECTIONS = """
I-1|P-108|L-2511|60|9|2025-11-20||
I-2|P-108|L-2601|125|1|2026-01-15|1400|1.0
I-3|P-109|L-2602|80|7|2026-03-09|900|1.0
I-4|P-109|L-2512|200|0|2026-03-11|5000|0.65
I-5|P-104|L-2509|40|0|2026-02-24||
I-6|P-124|L-2603|50|3|2026-03-18|300|2.5
I-7|P-122||30|1|2025-10-30||
I-8|P-136||12|2|2025-11-05||
I-9|P-138||12|1|2026-03-04||
I-10|P-119||20|2|2025-12-02||
"""


def cells(table: str) -> list[list[str]]:
    """A table written with bars, as rows."""
    return [line.split("|") for line in table.strip().splitlines()]


def defect_rows(titles: dict[str, str]) -> list[list[str]]:
    """The rows of defects.csv."""
    return [[name, titles[name], *rest] for name, *rest in cells(DEFECTS)]


def affected_rows(looms: list[Loom]) -> list[list[str]]:
    """The rows of affected.csv: looms boxed in the days of the fault, and how far their remedy has come."""
    rng = Random(36)
    opened = {row[0]: date.fromisoformat(row[4]) for row in cells(DEFECTS)}
    rows = []
    for defect, (model, first, last, share, remedied) in TOUCHED.items():
        for loom in looms:
            inside = model in ("", loom.model) and first <= loom.first_day.isoformat() <= last and loom.purpose != "sample"
            if inside and rng.random() < share:
                rows.append([defect, loom.serial, loom.order, *remedy(rng, opened[defect], remedied)])
    rows.append(["D-5", first_of(looms, "Heron 12", date(2026, 1, 12)), "", "", "", ""])
    return rows


def remedy(rng: Random, opened: date, share: float) -> list[str]:
    """The days on which an owner's address was confirmed, the kit sent and the loom put right, as far as they have come."""
    day, days = opened, []
    for chance in (min(1.0, share + 0.45), min(1.0, share + 0.2), share):
        day += timedelta(1 + rng.randrange(5))
        if rng.random() >= chance or day > AS_OF:
            break
        days.append(day.isoformat())
    return days + [""] * (3 - len(days))


def first_of(looms: list[Loom], model: str, day: date) -> str:
    """The first serial of a model boxed on or after a day."""
    return next(loom.serial for loom in looms if loom.model == model and loom.first_day >= day)


def inspection_rows(titles: dict[str, str]) -> list[list[str]]:
    """The rows of inspections.csv."""
    return [[name, titles[name], *rest] for name, *rest in cells(INSPECTIONS)]


def change_rows(titles: dict[str, str], looms: list[Loom]) -> list[list[str]]:
    """The rows of changes.csv: one by serial, the others by day."""
    rows = [
        ["C-1", "Heron 12", first_of(looms, "Heron 12", date(2025, 11, 17)), "", "D-5", "released"],
        ["C-2", "Heron 8", "", "2026-02-02", "", "released"],
        ["C-3", "Heron 12", "", "2026-02-02", "", "released"],
        ["C-4", "Heron 8", "", "2026-06-01", "", "planned"],
        ["C-5", "Heron 8", "", "2026-04-13", "D-12", "planned"],
    ]
    return [[name, titles[name], *rest] for name, *rest in rows]
