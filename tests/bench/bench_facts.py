"""How long all facts of a large maker take, beside reading and checking the tables, and beside counting row by row.

    python -m tests.bench.bench_facts [rows]

As many orders and boxing rows, a tenth as many affected units, a part for every 500 of them. Reading and telling run one after
the other in a process of their own, three times; the best of each counts, in processor time. Facts are told of the day of the
newest row, and of an earlier one. The row-by-row computation runs once, on a tenth. The forecast has a benchmark of its own.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.facts.book import facts_of
from bulletin.facts.families import FAMILIES
from bulletin.facts.scopes.day import Day
from bulletin.model import Fact
from bulletin.settings import Settings, read_settings
from bulletin.tables.as_of import as_of
from bulletin.tables.reading import read_tables
from bulletin.tables.table import Tables
from tests import naive
from tests.bench.bench_tables import SETTINGS, write_folder

ROWS = 1_000_000
FIRST_ORDER = 1_000_001
RUNS = 3
DAY, BEFORE = date(2026, 2, 6), date(2025, 12, 19)
"""A day on which nothing in the tables lies ahead, and one to which many states must be read back."""
SHORT = 0.1
"""The share of lots that hold too little for all who wait."""
LEVELS = 4
DEFECTS = 12
CREDIT = """
[credit]
months_from = "promised"
until = "boxed"
tiers = [ { from_month = 1, amount = { EUR = "10.00", USD = "11.00" } },
          { from_month = 4, amount = { EUR = "15.00", USD = "16.50" } } ]
cap = { EUR = "120.00", USD = "132.00" }
"""
"""Waiting credit; amounts invented."""


def write_maker(folder: Path, rows: int) -> None:
    """All tables of a maker with so many orders and boxing rows, from a fixed seed."""
    write_folder(folder, rows)
    (folder / "bulletin.toml").write_text(SETTINGS + CREDIT, encoding="utf-8")
    random = np.random.default_rng(11)
    currencies = pd.read_csv(folder / "orders.csv", usecols=["currency"])["currency"].to_numpy()
    tables = {**materials(random, rows // 500), **customers(random, currencies), **defects(random, rows), **words()}
    for name, columns in tables.items():
        pd.DataFrame(columns).to_csv(folder / f"{name}.csv", index=False)


def materials(random: np.random.Generator, count: int) -> dict[str, dict[str, object]]:
    """Parts on four levels, each made of some of the next level; shelves, supply and a plan."""
    parts = np.array([f"P-{number:05}" for number in range(count)])
    level = np.arange(count) * LEVELS // count
    uses = [(model, part) for model in ("Heron 8", "Heron 12") for part in parts[level == 0]]
    for above in range(LEVELS - 1):
        below = parts[level == above + 1]
        for parent in parts[level == above]:
            uses += [(parent, part) for part in random.choice(below, min(3, len(below)), replace=False)]
    uses += [("Heron 8", part) for part in parts[level > 0]]
    pairs = np.array(sorted(set(uses)))
    days = pd.bdate_range("2025-11-03", "2026-03-31").strftime("%Y-%m-%d").to_numpy()
    bought = parts[level == LEVELS - 1]
    return {
        "parts": {"part": parts, "name": parts, "lead_days": 20},
        "structure": {
            "parent": pairs[:, 0], "component": pairs[:, 1], "quantity": random.choice(["1", "2", "0.5"], len(pairs)),
            "scrap": random.choice(["", "0.02"], len(pairs)),
        },
        "stock": {
            "part": parts.repeat(2), "lot": np.tile(["L1", "L2"], count), "state": np.tile(["usable", "quarantine"], count),
            "quantity": np.where(random.random(2 * count) < SHORT, 40_000, 10**8), "counted": "2025-12-15",
        },
        "supply": {
            "purchase": np.arange(4 * count), "part": random.choice(bought, 4 * count), "quantity": 500,
            "due": random.choice(days, 4 * count), "state": random.choice(["ordered", "in_transit", "cancelled"], 4 * count),
        },
        "reserved": {"part": parts[::5], "use": "service", "quantity": 3},
        "plan": {"date": days.repeat(2), "model": np.tile(["Heron 8", "Heron 12"], len(days)), "units": 900},
    }  # fmt: skip


def customers(random: np.random.Generator, currencies: NDArray[np.object_]) -> dict[str, dict[str, object]]:
    """What some customers were told and given, who is away, who wants the money back; a currency an order."""
    rows = len(currencies)
    chosen = np.sort(random.choice(rows, rows // 5, replace=False))
    numbers, of_order = chosen + FIRST_ORDER, currencies[chosen]
    days = pd.date_range("2025-03-01", "2025-12-10").strftime("%Y-%m-%d").to_numpy()
    away, asking = slice(0, rows // 500), slice(rows // 500, rows // 250)
    return {
        "told": {"order": numbers, "told": "2025-11-20", "due": random.choice(days, len(numbers)), "kind": "notice"},
        "credits": {
            "order": numbers, "date": random.choice(days, len(numbers)), "kind": "correction", "amount": "10.00",
            "currency": of_order,
        },
        "holds": {"order": numbers[away], "reason": "away", "from": "2025-12-01"},
        "refunds": {
            "order": numbers[asking], "asked": "2025-12-01", "amount": "1290.00", "currency": of_order[asking],
        },
    }  # fmt: skip


def defects(random: np.random.Generator, rows: int) -> dict[str, dict[str, object]]:
    """Defects, a tenth as many affected units, changes against some of them, inspections."""
    serials = np.array([f"H-{number:07d}" for number in np.sort(random.choice(rows, rows // 10, replace=False)) + 1])
    names = [f"D-{number}" for number in range(DEFECTS)]
    return {
        "defects": {
            "defect": names, "title": names, "severity": "function", "opened": "2025-06-01", "state": "contained",
            "traced": "complete", "remedy_part": "P-00001",
        },
        "affected": {
            "defect": random.choice(names, len(serials)), "serial": serials,
            "remedied": random.choice(["", "2025-10-01"], len(serials)),
        },
        "changes": {
            "change": [f"C-{number}" for number in range(DEFECTS)], "title": names, "model": "Heron 8",
            "from_serial": f"H-{rows // 2:07}", "defect": names, "state": "released",
        },
        "inspections": {
            "inspection": [f"I-{number}" for number in range(20)], "title": "torque", "checked": 80, "failed": range(20),
            "at": "2025-11-03T10:00:00", "lot_size": 1000, "quality_limit": "1.0",
        },
    }  # fmt: skip


def words() -> dict[str, dict[str, object]]:
    """Promises, policies and statements of a maker who speaks every week."""
    weeks = pd.date_range("2025-01-06", periods=50, freq="7D").strftime("%Y-%m-%d")
    return {
        "promises": {"promise": weeks, "made": weeks, "text": "we will", "due": weeks, "state": "kept"},
        "policies": {"policy": ["Q-1"], "title": "repair for life", "state": "in_force"},
        "attested": {"statement": ["S-1"], "text": "no loom is like another", "by": "A. Weaver", "on": "2025-02-03"},
    }


def tell(folder: Path) -> dict[str, float]:
    """Seconds of processor of reading and checking, of telling all facts of two days, and their number; the best of some runs."""
    runs = [_tell_once(folder) for _ in range(RUNS)]
    return {name: min(run[name] for run in runs) for name in runs[0]}


def _tell_once(folder: Path) -> dict[str, float]:
    settings, _ = read_settings(folder)
    if settings is None:
        raise SystemExit("the settings cannot be read")
    begin = time.process_time()
    tables, problems = read_tables(folder, settings)
    if problems:
        raise SystemExit(f"{len(problems)} problems in tables that should have none: {problems[:3]}")
    read = time.process_time() - begin
    told, facts = _told(tables, settings, DAY)
    return {"read": read, "told": told, "facts": facts, "earlier": _told(tables, settings, BEFORE)[0]}


def _told(tables: Tables, settings: Settings, day: date) -> tuple[float, int]:
    """Seconds of all facts of a day, and how many could be told."""
    families = {name: family for name, family in FAMILIES.items() if name != "forecast"}
    begin = time.process_time()
    book = facts_of(Day(day, as_of(tables, day), settings), families)
    found = [book.find(path) for path in book.countable()]
    return time.process_time() - begin, sum(isinstance(fact, Fact) for fact in found)


def main() -> None:
    """Measure and print."""
    if len(sys.argv) > 2:
        print(json.dumps(tell(Path(sys.argv[2]))))
        return
    rows = int(sys.argv[1]) if len(sys.argv) > 1 else ROWS
    whole, tenth = _in_own_process(rows), _in_own_process(rows // 10, counted=True)
    read, counted = whole["read"], tenth["counted"]
    print(f"{rows:,} orders: read and checked in {read:.2f} s of processor")
    for name, day in (("told", DAY), ("earlier", BEFORE)):
        print(f"{whole['facts']:,} facts told as of {day} in {whole[name]:.2f} s: {whole[name] / read:.2f} of that")
    print(f"{rows // 10:,} orders: row by row {counted:.1f} s, {counted / tenth['earlier']:.0f} times {tenth['earlier']:.2f} s")


def _in_own_process(rows: int, *, counted: bool = False) -> dict[str, float]:
    with tempfile.TemporaryDirectory() as name:
        write_maker(Path(name), rows)
        command = [sys.executable, "-m", "tests.bench.bench_facts", "tell", name]
        told = subprocess.run(command, check=True, capture_output=True, text=True)
        figures: dict[str, float] = json.loads(told.stdout)
        if counted:
            begin = time.process_time()
            naive.facts(Path(name), BEFORE)
            figures["counted"] = time.process_time() - begin
    return figures


if __name__ == "__main__":
    main()
