"""Parts and what they go into: the structure, and what one loom takes of each part."""

from __future__ import annotations

from datetime import date

Step = tuple[str, str, str, str, str, str]
"""parent, component, quantity, scrap, from, until"""

LEAD = {"P-104": 35, "P-108": 40, "P-109": 40, "P-118": 56, "P-124": 63}
SAFETY = {"P-104": 40, "P-109": 60, "P-118": 200, "P-124": 30, "P-139": 50}

TREE = """
Heron 8: P-201 1, P-203 1, P-207 1, P-118 2, P-124 1 0.01, P-133 1, P-134 2, P-135 1, P-137 8 until 2026-05-31
Heron 8: P-138 8 from 2026-06-01
Heron 12: P-202 1, P-204 1, P-207 1, P-118 3, P-124 1 0.01, P-133 1, P-134 2, P-136 1, P-137 8 until 2026-05-31
Heron 12: P-138 8 from 2026-06-01
P-201: P-101 4 0.03, P-102 4 0.03, P-103 2 0.05, P-104 1 0.02, P-105 1 0.02, P-106 1, P-107 1, P-206 2, P-128 16, P-130 16
P-201: P-131 4, P-132 0.12
P-202: P-101 4 0.03, P-102 6 0.03, P-103 2 0.05, P-104 1 0.02, P-105 1 0.02, P-106 1, P-107 1, P-206 2, P-128 18, P-130 18
P-202: P-131 4, P-132 0.15
P-203: P-205 8, P-120 8, P-121 1, P-122 8 0.02, P-123 8, P-129 6, P-119 4.8
P-204: P-205 12, P-120 12, P-121 1, P-122 12 0.02, P-123 12, P-129 8, P-119 7.2
P-205: P-116 2 0.04, P-117 2
P-206: P-108 1 0.015, P-109 1 0.01, P-110 1 until 2026-01-31, P-111 1 from 2026-02-01, P-112 0.5, P-113 0.5, P-114 1
P-206: P-115 1.75
P-207: P-125 2, P-126 2 0.03, P-127 1
"""
"""parent: component quantity scrap, with the first or last day of effect; two models, three levels, frames share the bracket."""


def structure() -> list[Step]:
    """The rows of structure.csv."""
    return [
        step(parent, words.split())
        for line in TREE.strip().splitlines()
        for parent, words in ((line.split(": ")[0], words) for words in line.split(": ")[1].split(", "))
    ]


def step(parent: str, words: list[str]) -> Step:
    """One component of a parent, read from `P-104 1 0.02 from 2026-02-01`."""
    days = {words[-2]: words[-1]} if len(words) > 3 and words[-2] in ("from", "until") else {}
    scrap = words[2] if len(words) in (3, 5) else ""
    return (parent, words[0], words[1], scrap, days.get("from", ""), days.get("until", ""))


def of_one(model: str, day: date) -> dict[str, float]:
    """What one loom takes of each part, bought or made, scrap included, near enough to plan stock by."""
    taken: dict[str, float] = {}
    for parent, component, quantity, scrap, first, last in structure():
        if parent != model or not (first or "0") <= day.isoformat() <= (last or "9"):
            continue
        share = float(quantity) / (1 - float(scrap or 0))
        taken[component] = taken.get(component, 0.0) + share
        for part, more in of_one(component, day).items():
            taken[part] = taken.get(part, 0.0) + share * more
    return taken


def part_rows(names: dict[str, str]) -> list[list[str]]:
    """The rows of parts.csv, lead time and safety stock where somebody cared to write them down."""
    return [
        [part, name, str(LEAD.get(part, 21 if part < "P-2" else "")), str(SAFETY.get(part, ""))] for part, name in names.items()
    ]
