"""Records at random: bulletins that promised what a random maker's bulletins may have promised."""

from __future__ import annotations

import csv
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

from bulletin.model import Draft, Header, Place, Range, Value, Window
from bulletin.record.entry import Entry, Pledge, Told
from bulletin.record.ledger import add
from bulletin.values import freeze


def random_ledger(seed: int, folder: Path) -> None:
    """Write `issued.db` beside a maker's tables: a few bulletins, one of them corrected, each with some promises."""
    rng = Random(seed)
    orders, promises = (rows_of(folder / f"{name}.csv") for name in ("orders", "promises"))
    for number in range(1, rng.randint(2, 5)):
        corrects = number - 1 if number > 1 and rng.random() < 0.2 else None
        name = f"week-{number - 1}" if corrects else f"week-{number}"
        if corrects and corrects != number - 1:
            corrects = None
        as_of = date(2025, 8, 1) + timedelta(rng.randrange(200))
        said = [one for _ in range(rng.randint(0, 5)) for one in random_fact(rng, as_of, orders, promises)]
        number_added, problems = add(folder / "issued.db", entry(name, as_of, said, corrects))
        if number_added is None and corrects:
            add(folder / "issued.db", entry(f"other-{number}", as_of, said, None))
        elif problems:
            raise ValueError(problems)


def rows_of(path: Path) -> list[dict[str, str]]:
    """A table, empty where it is missing."""
    if not path.exists():
        return []
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


Said = tuple[str, str, Value, date, str]
"""How a draft writes a fact, its key, its value, the day it is due, its basis."""


def random_fact(rng: Random, as_of: date, orders: list[dict[str, str]], promises: list[dict[str, str]]) -> list[Said]:
    """A fact that promises something; none where the tables hold nothing to promise."""
    first = as_of + timedelta(rng.randrange(60))
    window = Window(first, first + timedelta(rng.randrange(80)))
    model = rng.choice(sorted({row["model"] for row in orders})) if orders and rng.random() < 0.3 else ""
    draft, key = (f'forecast.of("{model}")', f"forecast.of.{model}") if model else ("forecast", "forecast")
    month_end = (as_of.replace(day=1) + timedelta(32)).replace(day=1) - timedelta(1)
    kind = rng.choice(("cleared", "new_order", "place", "month", "next_month", "chance", "order", "promise"))
    if kind in ("cleared", "new_order"):
        return [(f"{draft}.{kind}", f"{key}.{kind}", window, window.last, "forecast")]
    if kind == "place":
        place = rng.randint(1, 6)
        return [(f'{draft}.place("{place}")', f"{key}.place.{place}", window, window.last, "forecast")]
    if kind == "month":
        return [(f"{draft}.month | units", f"{key}.month", Range(rng.randrange(6), 9), month_end, "forecast")]
    if kind == "next_month":
        later = (month_end + timedelta(32)).replace(day=1) - timedelta(1)
        return [(f"{draft}.next_month", f"{key}.next_month", Range(rng.randrange(6), 9), later, "forecast")]
    if kind == "chance":
        told = f'{draft}.chance_cleared_by("{window.last}") > 0.8'
        return [(told, f"{key}.chance_cleared_by.{window.last}", Fraction(9, 10), window.last, "forecast")]
    if kind == "order" and orders:
        number = rng.choice(orders)["order"]
        return [(f'forecast.order["{number}"]', f"forecast.order.{number}", window, window.last, "forecast")]
    if kind == "promise" and promises:
        row = rng.choice(promises)
        due = date.fromisoformat(row["due"]) + timedelta(rng.choice((0, 0, -3)))
        return [(f'promises["{row["promise"]}"].due', f"promises.{row['promise']}.due", due, due, "commitment")]
    return []


def entry(name: str, as_of: date, said: list[Said], corrects: int | None) -> Entry:
    """A bulletin that made some promises; what one key came to is the same throughout it."""
    values = {key: value for _, key, value, _, _ in reversed(said)}
    pledges = tuple(
        Pledge(f"{name}.{at}", f"promise {at}", due, basis, draft) for at, (draft, _, _, due, basis) in enumerate(said, 1)
    )
    return Entry(
        name=name,
        as_of=as_of,
        published=datetime(as_of.year, as_of.month, as_of.day, 16, tzinfo=UTC),
        sources=(),
        facts=(),
        drafts=(Draft(name, "en", f"drafts/{name}.en.md", f"Title: {name}\n\nHello.\n", 12, Header(name, Place("d"))),),
        documents=(),
        told=tuple(Told("en", key, freeze(value)) for key, value in sorted(values.items())),
        pledges=pledges,
        orders=(),
        corrects=corrects,
    )
