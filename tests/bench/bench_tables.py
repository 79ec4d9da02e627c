"""How long reading and checking a million orders and a million boxing rows takes, beside plain `pandas.read_csv`.

    python tests/bench/bench_tables.py [rows]

Each way runs in a process of its own, so that the peak of its memory is its own. The best of four runs
counts.
"""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pandas as pd

ROWS = 1_000_000
RUNS = 4
SETTINGS = '[maker]\nname = "Fennmoor Looms"\ntime_zone = "Europe/Vienna"\n'


def write_folder(folder: Path, rows: int) -> None:
    """Orders and boxing of a maker with as many customers, from a fixed seed."""
    random = np.random.default_rng(7)
    days = pd.date_range("2025-01-01", periods=420).strftime("%Y-%m-%d").to_numpy()
    placed = np.sort(random.integers(0, 300, rows))
    model = random.choice(["Heron 8", "Heron 12"], rows)
    numbers = np.arange(1_000_001, 1_000_001 + rows)
    boxed = random.random(rows) < 0.6
    serials = np.array([f"H-{number:07d}" for number in range(1, rows + 1)])
    shipped = boxed & (random.random(rows) < 0.9)
    orders = {
        "order": numbers,
        "line": 1,
        "placed": days[placed],
        "model": model,
        "market": random.choice(["AT", "DE", "US", "JP", "KW", "FR"], rows),
        "locale": random.choice(["de-AT", "de", "en", "ja", "ar", "fr"], rows),
        "currency": random.choice(["EUR", "USD"], rows),
        "amount": random.choice(["1290.00", "1490.00", "980.00"], rows),
        "status": np.where(shipped, "shipped", np.where(boxed, "boxed", "waiting")),
        "promised": days[placed + 60],
        "priority": random.integers(0, 3, rows),
        "batch": random.choice(["B-1", "B-2", "B-3"], rows),
        "serial": np.where(boxed, serials, ""),
        "closed": np.where(shipped, days[placed + 100], ""),
        "delivered": "",
    }
    pd.DataFrame(orders).to_csv(folder / "orders.csv", index=False)
    at = pd.Series(pd.date_range("2025-01-02 06:00", periods=rows, freq="31s", tz="Europe/Vienna"))
    boxing = {
        "serial": serials,
        "model": model,
        "revision": random.choice(["A", "B"], rows),
        "event": np.where(random.random(rows) < 0.02, "reopened", "boxed"),
        "at": at.map(lambda moment: moment.isoformat()),
        "order": np.where(boxed, numbers.astype(str), ""),
        "purpose": random.choice(["order", "stock", ""], rows, p=[0.8, 0.1, 0.1]),
    }
    pd.DataFrame(boxing).to_csv(folder / "boxing.csv", index=False)
    (folder / "bulletin.toml").write_text(SETTINGS, encoding="utf-8")


def read_plainly(folder: Path) -> None:
    """The same files by pandas alone."""
    pd.read_csv(folder / "orders.csv")
    pd.read_csv(folder / "boxing.csv")


def read_with_checks(folder: Path) -> None:
    """The files by the reader, every cell checked."""
    from bulletin.settings import read_settings
    from bulletin.tables.reading import read_tables

    settings, _ = read_settings(folder)
    if settings is None:
        raise SystemExit("the settings cannot be read")
    _, problems = read_tables(folder, settings)
    if problems:
        raise SystemExit(f"{len(problems)} problems in tables that should have none: {problems[:3]}")


WAYS: dict[str, Callable[[Path], None]] = {"plain": read_plainly, "checked": read_with_checks}


def measure(way: str, folder: Path) -> dict[str, float]:
    """The best of some runs by the clock and by the processor, in seconds, and the peak memory of this process, in MB."""
    clock, processor = [], []
    for _ in range(RUNS):
        start, worked = time.perf_counter(), time.process_time()
        WAYS[way](folder)
        clock.append(time.perf_counter() - start)
        processor.append(time.process_time() - worked)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {"clock": min(clock), "processor": min(processor), "peak": peak}


def main() -> None:
    """Measure both ways side by side and print a table."""
    if len(sys.argv) > 2:
        print(json.dumps(measure(sys.argv[1], Path(sys.argv[2]))))
        return
    rows = int(sys.argv[1]) if len(sys.argv) > 1 else ROWS
    with tempfile.TemporaryDirectory() as name:
        write_folder(Path(name), rows)
        found = {way: _in_own_process(way, name) for way in WAYS}
    for way, figures in found.items():
        told = f"{figures['clock']:7.3f} s by the clock {figures['processor']:7.3f} s of processor"
        print(f"{way:8} {told} {figures['peak']:7.0f} MB at most")
    ratios = {kind: found["checked"][kind] / found["plain"][kind] for kind in ("clock", "processor")}
    told = f"{ratios['clock']:.2f} times by the clock, {ratios['processor']:.2f} times of processor"
    print(f"{rows:,} orders and {rows:,} boxing rows: {told}")


def _in_own_process(way: str, folder: str) -> dict[str, float]:
    command = [sys.executable, __file__, way, folder]
    told = subprocess.run(command, check=True, capture_output=True, text=True)
    figures: dict[str, float] = json.loads(told.stdout)
    return figures


if __name__ == "__main__":
    main()
