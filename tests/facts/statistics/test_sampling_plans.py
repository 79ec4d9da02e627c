"""MIL-STD-105E as a table, cell by cell."""

from decimal import Decimal

import pytest

from bulletin.facts.statistics.sampling_plans import SamplingPlan, sampling_plan

LIMITS = ("0.65", "1.0", "1.5", "2.5", "4.0", "6.5")
PUBLISHED = """
2-8         20/0,1 13/0,1 8/0,1   5/0,1   3/0,1   2/0,1
9-15        20/0,1 13/0,1 8/0,1   5/0,1   3/0,1   2/0,1
16-25       20/0,1 13/0,1 8/0,1   5/0,1   3/0,1   8/1,2
26-50       20/0,1 13/0,1 8/0,1   5/0,1   13/1,2  8/1,2
51-90       20/0,1 13/0,1 8/0,1   20/1,2  13/1,2  13/2,3
91-150      20/0,1 13/0,1 32/1,2  20/1,2  20/2,3  20/3,4
151-280     20/0,1 50/1,2 32/1,2  32/2,3  32/3,4  32/5,6
281-500     80/1,2 50/1,2 50/2,3  50/3,4  50/5,6  50/7,8
501-1200    80/1,2 80/2,3 80/3,4  80/5,6  80/7,8  80/10,11
1201-3200   125/2,3 125/3,4 125/5,6 125/7,8 125/10,11 125/14,15
3201-10000  200/3,4 200/5,6 200/7,8 200/10,11 200/14,15 200/21,22
10001-35000 315/5,6 315/7,8 315/10,11 315/14,15 315/21,22 200/21,22
"""
"""MIL-STD-105E (1989), Tables I and II-A, General Level II, normal, single, arrows followed, as sources.md has it."""


def cells() -> list[tuple[int, str, int, int]]:
    """(lot, limit, n, Ac) for the first and the last lot of each row."""
    found = []
    for line in PUBLISHED.strip().splitlines():
        lots, *plans = line.split()
        for limit, plan in zip(LIMITS, plans, strict=True):
            sample, accept = plan.split(",")[0].split("/")
            found += [(int(lot), limit, int(sample), int(accept)) for lot in lots.split("-")]
    return found


@pytest.mark.parametrize(("lot", "limit", "sample", "accept"), cells())
def test_every_cell(lot: int, limit: str, sample: int, accept: int) -> None:
    """Each plan is the published one; where the sample reaches the lot, all are inspected."""
    actual = sampling_plan(lot, Decimal(limit))

    assert SamplingPlan(min(sample, lot), accept) == actual


@pytest.mark.parametrize(
    ("lot", "limit", "sample", "accept"),
    [
        (500, "0.40", 32, 0), (1000, "0.40", 125, 1), (5000, "0.40", 200, 2), (10_000, "0.25", 200, 1), (8000, "0.10", 125, 0),
        (20_000, "0.10", 500, 1), (8, "10", 5, 1), (200, "10", 32, 7), (3200, "10", 125, 21), (35_001, "1.0", 500, 10),
        (200_000, "0.65", 800, 10), (500_001, "0.65", 1250, 14), (900_000, "0.025", 2000, 1), (900_000, "0.015", 800, 0),
    ],
)  # fmt: skip
def test_cells_beyond(lot: int, limit: str, sample: int, accept: int) -> None:
    """MIL-STD-105E (1989), Table II-A, other limits up to 10 per cent and larger lots (from memory; the same diagonals)."""
    assert SamplingPlan(sample, accept) == sampling_plan(lot, Decimal(limit))


@pytest.mark.parametrize(("lot", "limit"), [(1, "1.0"), (500, "0.5"), (500, "3"), (500, "15")])
def test_what_the_table_does_not_hold(lot: int, limit: str) -> None:
    """A lot of one has no plan, nor has another limit, nor one above 10, where several defects a unit are counted."""
    assert sampling_plan(lot, Decimal(limit)) is None
