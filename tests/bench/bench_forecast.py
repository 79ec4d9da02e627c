"""How long windows for a million waiting orders take, beside drawing the paths of output alone, and beside simulating each order.

    python tests/bench/bench_forecast.py [orders] [futures]

Three models, each with a line of its own and 250 working days ahead. The best of three runs counts. Simulating each order finds
for every order and future the day it is done; it is measured on a thousand orders, and told for all of them.
"""

from __future__ import annotations

import resource
import sys
import time
from collections.abc import Callable
from typing import TypeVar

import numpy as np

from bulletin.forecast.line import Line, Paths, draw_paths, line_of
from bulletin.forecast.output import Integers, Output
from bulletin.forecast.windows import HALF, curves_of

ORDERS, FUTURES = 1_000_000, 10_000
AHEAD, HISTORY, MODELS = 250, 200, 3
RUNS, FEW = 3, 1000
Told = TypeVar("Told")


def lines(orders: int) -> list[Line]:
    """Lines that make their share of the orders in about 200 working days."""
    random = np.random.default_rng(7)
    weekday = np.arange(HISTORY) % 5
    rate = orders / MODELS / 200
    histories = [random.poisson(random.gamma(20, rate / 20, HISTORY)) for _ in range(MODELS)]
    found = [line_of(Output(units, weekday), AHEAD, f"line {number}") for number, units in enumerate(histories)]
    return [line for line in found if line is not None]


def draw(drawn: list[Line], futures: int) -> list[Paths]:
    """Paths of output of each model."""
    return [draw_paths(line, np.arange(AHEAD) % 5, futures) for line in drawn]


def windows(paths: list[Paths], orders: int) -> list[tuple[Integers, Integers]]:
    """The window of every order."""
    places = np.arange(1, orders // MODELS + 1)
    return [curves_of(model).windows(places) for model in paths]


def each_order(paths: Paths, places: Integers) -> tuple[Integers, Integers]:
    """The same by the day on which each order is done in each future."""
    days = np.array([np.searchsorted(future, places - HALF) for future in np.ascontiguousarray(paths.T)])
    low, high = np.percentile(days, (10, 90), axis=0, method="inverted_cdf")
    return low.astype(np.int64), high.astype(np.int64)


def best(work: Callable[[], Told]) -> tuple[float, Told]:
    """Seconds of the best of some runs, and what came of it."""
    told, seconds = work(), []
    for _ in range(RUNS):
        start = time.perf_counter()
        told = work()
        seconds.append(time.perf_counter() - start)
    return min(seconds), told


def main() -> None:
    """Measure and print."""
    orders = int(sys.argv[1]) if len(sys.argv) > 1 else ORDERS
    futures = int(sys.argv[2]) if len(sys.argv) > 2 else FUTURES
    drawn = lines(orders)
    drawing, paths = best(lambda: draw(drawn, futures))
    reading, found = best(lambda: windows(paths, orders))
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    few = np.linspace(1, orders // MODELS, min(FEW, orders // MODELS)).astype(np.int64)
    simulating, expected = best(lambda: each_order(paths[0], few))
    same = all(np.array_equal(told[few - 1], wanted) for told, wanted in zip(found[0], expected, strict=True))
    print(f"drawing {MODELS} models, {futures:,} futures, {AHEAD} days: {drawing:.3f} s")
    ratio = (drawing + reading) / drawing
    print(f"windows of {orders:,} orders: {reading:.3f} s; both {ratio:.2f} times drawing alone; {peak:.0f} MB at most")
    all_orders = simulating * orders / len(few)
    print(f"simulating each order: {all_orders:.0f} s, {all_orders / reading:.0f} times as long")
    print(f"windows of the {len(few)} orders simulated one by one are the same: {same}")


if __name__ == "__main__":
    main()
