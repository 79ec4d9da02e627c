"""Published values through the facts themselves, from tables in and out of the book; each source stands beside its case.

Some published values have no fact of ours to hold them against, and stand with the functions that come nearest or nowhere: the
one-sided z test and Wilson's limits (NIST/SEMATECH 7.2.4, Newcombe's second table), since `upper` is the exact limit; charts of
counts and of proportions (6.3.3.1, 6.3.3.2), since `unusual` is a chart of individuals; two-sided p values; L = lambda W, since
no fact multiplies a rate by a wait; 17/31 of an amount, since credit is in whole steps.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from bulletin.model import Fact, Money
from tests.facts.builders import CREDIT, Row, boxed, day_of, find, order, value, why

DAY = "2026-03-27"


def inspections(*counts: tuple[int, int], **columns: Any) -> list[Row]:
    """Failed of checked, numbered I-1, I-2 ..."""
    usual = {"title": "pull test", "at": "2026-03-20T10:00"}
    return [
        {"inspection": f"I-{number}", "failed": failed, "checked": checked, **usual, **columns}
        for number, (failed, checked) in enumerate(counts, 1)
    ]


def upper(failed: int, checked: int, confidence: str) -> float:
    """`inspections.I-1.upper` of a sample at a confidence of the settings."""
    settings = f"[checks]\nconfidence = {confidence}\n"
    found = value(day_of(DAY, settings, inspections=inspections((failed, checked))), "inspections.I-1.upper")
    assert isinstance(found, Fraction)
    return float(found)


@pytest.mark.parametrize(
    ("failed", "checked", "limit"),
    [(81, 263, ".3676"), (0, 20, ".1684")],
)
def test_newcombe(failed: int, checked: int, limit: str) -> None:
    """Newcombe, Statistics in Medicine 17 (1998) 857-872, Table I, Clopper-Pearson 95 % two-sided: one-sided at 97.5 %."""
    actual = round(upper(failed, checked, "0.975"), 4)

    assert float(limit) == actual


@pytest.mark.parametrize(("checked", "limit"), [(50, 0.058155), (1000, 0.0029912)])
def test_rule_of_three(checked: int, limit: float) -> None:
    """Hanley & Lippman-Hand, JAMA 249 (1983) 1743-1745: none failed of n is about 3/n; exact values computed with scipy."""
    actual = upper(0, checked, "0.95")

    assert pytest.approx(limit, abs=5e-7) == actual
    assert pytest.approx(3 / checked, rel=0.04) == actual


@pytest.mark.parametrize(("share", "enough"), [(0.10, 29), (0.05, 59), (0.01, 299)])
def test_how_many_without_a_failure_show_a_share(share: float, enough: int) -> None:
    """Exact binomial (computed): 29, 59 and 299 without a failure show at most 10 %, 5 % and 1 % at 95 %; one fewer does not."""
    actual = [upper(0, checked, "0.95") <= share for checked in (enough - 1, enough)]

    assert [False, True] == actual


def test_a_lot_that_passes_may_still_be_poor() -> None:
    """MIL-STD-105E (1989): 2 of 80 pass a lot of 1000 at AQL 1.0; at 90 % confidence that is still only "at most 6.5 %"."""
    rows = inspections((2, 80), lot_size=1000, quality_limit="1.0")
    day = day_of(DAY, "[checks]\nconfidence = 0.90\n", inspections=rows)

    passed, limit = value(day, "inspections.I-1.accepted"), value(day, "inspections.I-1.upper")

    assert passed is True
    assert isinstance(limit, Fraction)
    assert pytest.approx(0.065, abs=5e-4) == float(limit)


@pytest.mark.parametrize(
    ("lot", "limit", "plan"),
    [
        (281, "1.0", (50, 1)), (500, "2.5", (50, 3)), (501, "1.0", (80, 2)), (1200, "2.5", (80, 5)), (1201, "1.0", (125, 3)),
        (3200, "2.5", (125, 7)),
    ],
)  # fmt: skip
def test_sampling_plans(lot: int, limit: str, plan: tuple[int, int]) -> None:
    """MIL-STD-105E (1989, public domain), Tables I and II-A, General Level II, normal, single, at both ends of lots."""
    day = day_of(DAY, inspections=inspections((0, 1), lot_size=lot, quality_limit=limit))

    actual = tuple(value(day, f"inspections.I-1.{key}") for key in ("needed", "accept_at_most"))

    assert plan == actual


def test_a_share_of_failures() -> None:
    """NIST/SEMATECH e-Handbook 7.2.4: 26 defective of 200 are 0.13. Its z test has no fact of ours (see above)."""
    day = day_of(DAY, inspections=inspections((26, 200)))

    assert Fraction(13, 100) == value(day, "inspections.I-1.share")


def fisher_by_changes(failed: int, checked: int, other_failed: int, other_checked: int) -> tuple[Any, Any, Any]:
    """The same counts as units built with a change and before it."""
    total = checked + other_checked
    scans = [boxed(f"H8-{number}", "2026-03-02") for number in range(1, total + 1)]
    defect = {
        "defect": "D-1", "title": "pawl", "severity": "function", "opened": "2026-03-03", "state": "open", "traced": "complete",
    }  # fmt: skip
    touched = [*range(1, other_failed + 1), *range(other_checked + 1, other_checked + failed + 1)]
    change = {
        "change": "C-1", "title": "pin", "model": "Heron 8", "from_serial": f"H8-{other_checked + 1}", "defect": "D-1",
        "state": "released",
    }  # fmt: skip
    affected = [{"defect": "D-1", "serial": f"H8-{number}"} for number in touched]
    day = day_of(DAY, boxing=scans, defects=[defect], affected=affected, changes=[change])
    rate, before, fell = (value(day, f"changes.C-1.{key}") for key in ("rate", "rate_before", "rate_fell"))
    return rate, before, fell


def test_tea_tasting_between_changes() -> None:
    """Fisher, The Design of Experiments (1935), [[3,1],[1,3]] (from memory): one-sided p = 17/70 shows no fall."""
    actual = fisher_by_changes(1, 4, 3, 4)

    assert (25, 75, False) == actual


def test_a_perfect_taster_shows_a_fall() -> None:
    """The same design with every cup right, [[4,0],[0,4]]: p = 1/70 (computed), below 0.05."""
    day = day_of(DAY, inspections=inspections((0, 4), (4, 4)))

    assert Fraction(1, 70) == value(day, "inspections.I-1.better_than.I-2.p")
    assert (0, 100, True) == fisher_by_changes(0, 4, 4, 4)


def test_scipy_documentation_example() -> None:
    """The documentation of scipy's `fisher_exact`, [[8,2],[1,5]]: ours is the side of fewer failures alone.

    Two-sided 0.0349650 there; the one-sided part (computed with scipy, alternative "less") is 0.0244755.
    """
    day = day_of(DAY, inspections=inspections((1, 6), (8, 10)))

    found = value(day, "inspections.I-1.better_than.I-2.p")

    assert isinstance(found, Fraction)
    assert pytest.approx(0.0244755, abs=5e-8) == float(found)
    assert value(day, "inspections.I-1.better_than.I-2") is True


def needs(uses: str, count: int) -> dict[str, int]:
    """What `count` waiting orders of A need of every part; `uses` reads `A: 2 B, 4 C; B: 3 D`."""
    rows = []
    for line in uses.split(";"):
        parent, components = line.split(":")
        for component in components.split(","):
            quantity, part = component.split()
            rows.append({"parent": parent.strip(), "component": part, "quantity": quantity})
    orders = [order(f"{number}", model="A") for number in range(count)]
    day = day_of(DAY, orders=orders, structure=rows)
    found = {row["component"]: value(day, f"coverage.part.{row['component']}.needed") for row in rows}
    return {part: int(need) for part, need in found.items() if isinstance(need, int)}


def test_a_planning_exercise_of_textbooks() -> None:
    """A materials-planning exercise printed in several textbooks: 100 A."""
    actual = needs("A: 2 B, 4 C; B: 3 D, 2 E; C: 2 F, 2 E", 100)

    assert {"B": 200, "C": 400, "D": 600, "E": 1200, "F": 800} == actual


def test_speaker_kits() -> None:
    """Heizer & Render, Operations Management, speaker-kit example (from memory; arithmetic recomputed): 50 A."""
    actual = needs("A: 2 B, 3 C; B: 2 D, 2 E; C: 2 E, 2 F; F: 2 D, 1 G", 50)

    assert {"B": 100, "C": 150, "D": 800, "E": 500, "F": 300, "G": 300} == actual


def test_speaker_kits_with_stock_on_hand() -> None:
    """The same example with stock on hand, its net requirements (from memory; arithmetic recomputed): 40 A are still to be made.

    On hand: B 15, C 20, D 10, E 10, F 5, G none. Net: B 65, C 100, D 510, E 320, F 195, G 195; ours is the net of bought parts.
    """
    tree = {"A": {"B": 2, "C": 3}, "B": {"D": 2, "E": 2}, "C": {"E": 2, "F": 2}, "F": {"D": 2, "G": 1}}
    uses = [{"parent": made, "component": part, "quantity": n} for made, parts in tree.items() for part, n in parts.items()]
    hand = {"B": 15, "C": 20, "D": 10, "E": 10, "F": 5, "G": 0}
    stock = [{"part": part, "state": "usable", "quantity": count, "counted": DAY} for part, count in hand.items()]
    day = day_of(DAY, orders=[order(f"{n}", model="A") for n in range(40)], structure=uses, stock=stock)

    gross = {part: value(day, f"coverage.part.{part}.needed") for part in hand}
    net = {part: value(day, f"coverage.part.{part}.short") for part in ("D", "E", "G")}

    assert {"B": 80, "C": 120, "D": 520, "E": 330, "F": 200, "G": 195} == gross
    assert {"D": 510, "E": 320, "G": 195} == net


@pytest.mark.parametrize(("lot", "limit"), [("50000", "0.65"), ("5000", "0.40")])
def test_sampling_plans_of_other_limits_and_larger_lots(lot: str, limit: str) -> None:
    """MIL-STD-105E (1989), Table II-A (from memory): 7 of 500 at 0.65 for letter N, 2 of 200 at 0.40 for letter L."""
    day = day_of(DAY, inspections=inspections((2, 200), (7, 500), lot_size=lot, quality_limit=limit))
    enough = {"0.65": "I-2", "0.40": "I-1"}[limit]

    assert value(day, f"inspections.{enough}.accepted") is True


@pytest.mark.parametrize(
    ("day", "week"),
    [
        ("2020-12-31", ("2020-12-28", "2020-12-27")), ("2024-12-30", ("2024-12-30", "2024-12-29")),
        ("2026-12-28", ("2026-12-28", "2026-12-27")), ("2027-01-03", ("2026-12-28", "2026-12-27")),
    ],
)  # fmt: skip
def test_weeks_of_iso_8601(day: str, week: tuple[str, str]) -> None:
    """ISO 8601 weeks (Python `isocalendar`), 2020-W53, 2025-W01, 2026-W53: a Monday belongs to it, the Sunday before does not."""
    monday, sunday = week
    scans = [boxed("H-1", monday), boxed("H-2", sunday)]

    actual = [value(day_of(day, boxing=scans), f"boxed.{key}") for key in ("week", "last_week")]

    assert [1, 1] == actual


@pytest.mark.parametrize(
    ("first", "as_of", "steps"),
    [
        ("2003-01-31", "2003-02-27", 0), ("2003-01-31", "2003-02-28", 1), ("2003-01-31", "2003-03-30", 1),
        ("2003-01-31", "2003-03-31", 2), ("2026-01-31", "2026-03-28", 1), ("2026-01-31", "2026-03-31", 2),
    ],
)  # fmt: skip
def test_months_of_waiting(first: str, as_of: str, steps: int) -> None:
    """python-dateutil documentation, relativedelta: 2003-01-31 + 1 month is 02-28, + 2 months 03-31, from the first date."""
    day = day_of(as_of, CREDIT, orders=[order("A-1", first)])

    found = find(day, "credits.so_far.A-1")
    assert isinstance(found, Fact)
    assert isinstance(found.value, Money)
    actual = sum((amount for _, amount in found.value.amounts), Decimal())

    assert steps * Decimal("10.00") == actual


@pytest.mark.parametrize(("currency", "places"), [("JPY", 0), ("KRW", 0), ("EUR", 2), ("USD", 2), ("KWD", 3), ("BHD", 3)])
def test_minor_units(currency: str, places: int) -> None:
    """ISO 4217 minor units: JPY and KRW none, EUR and USD two, KWD and BHD three."""
    credit = {"order": "A-1", "date": "2026-02-01", "kind": "credit", "amount": "7", "currency": currency}
    day = day_of(DAY, orders=[order("A-1", currency=currency)], credits=[credit])

    found = value(day, "credits.balance")

    assert isinstance(found, Money)
    assert Money(((currency, Decimal(7)),)) == found
    assert [-places] == [amount.as_tuple().exponent for _, amount in found.amounts]


def test_days_of_supply_need_a_demand() -> None:
    """Days of supply, common practice, no source: without demand it is undefined, not infinite."""
    stock = [{"part": "a", "state": "usable", "quantity": 930, "counted": DAY}]
    structure = [{"parent": "Heron 8", "component": "a", "quantity": 1}]
    plan = [{"date": "2026-03-30", "model": "Heron 12", "units": 31}]
    orders = [order("A-1"), order("A-2", model="Heron 12")]
    day = day_of(DAY, orders=orders, structure=structure, stock=stock, plan=plan)

    actual = why(day, "coverage.part.a.days")

    assert "the plan does not use it" == actual
