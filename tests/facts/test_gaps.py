"""Gaps told honestly: what a missing or empty table, a first week, one model or nobody waiting leave of each family.

A fact is right or absent with a reason: never zero by accident, never a division by zero.
"""

from typing import Any

import pytest

from bulletin.facts.book import facts_of
from bulletin.facts.families import FAMILIES
from bulletin.model import Absent, Fact
from tests.facts.builders import CREDIT, REQUIRED, Row, boxed, day_of, order, value, why

DAY = "2026-03-27"
SAFETY = {"severity": "safety"}
NOTHING_TOLD = "forecast"
"""Tests of its own tell what a forecast does without history."""


def maker(**tables: list[Row] | None) -> dict[str, list[Row]]:
    """Every table with a row or two; None takes one away."""
    usual: dict[str, list[Row]] = {
        "orders": [order("A-1"), order("A-2", status="boxed")],
        "boxing": [boxed("H-1", "2026-03-12", order="A-2"), boxed("H-2", "2026-03-26")],
        "told": [{"order": "A-1", "told": "2026-01-05", "due": "2026-03-01", "kind": "order"}],
        "parts": [{"part": "hook", "name": "hook"}, {"part": "kit", "name": "kit"}],
        "structure": [{"parent": "Heron 8", "component": "hook", "quantity": 2}],
        "stock": [{"part": part, "state": "usable", "quantity": 1, "counted": "2026-03-20"} for part in ("hook", "kit")],
        "supply": [{"purchase": "P-1", "part": "hook", "quantity": 9, "due": "2026-04-01", "state": "ordered"}],
        "reserved": [{"part": "hook", "use": "shop", "quantity": 1}],
        "plan": [{"date": "2026-03-30", "model": "Heron 8", "units": 4}],
        "stops": [{"from": "2026-05-01", "cause": "fair"}],
        "defects": [{"defect": "D-1", "title": "pawl", **SAFETY, "opened": "2026-03-01", "state": "open", "remedy_part": "kit"}],
        "affected": [{"defect": "D-1", "serial": "H-1"}],
        "inspections": [{"inspection": "I-1", "title": "pull", "checked": 8, "failed": 0, "at": "2026-03-20T10:00"}],
        "changes": [
            {"change": "C-1", "title": "pin", "model": "Heron 8", "from_serial": "H-2", "defect": "D-1", "state": "released"}
        ],
        "credits": [{"order": "A-1", "date": "2026-03-01", "kind": "credit", "amount": "10.00", "currency": "EUR"}],
        "promises": [{"promise": "R-1", "made": "2026-03-01", "text": "news", "due": "2026-03-20", "state": "kept"}],
        "policies": [{"policy": "Q-1", "title": "repair", "state": "in_force"}],
        "attested": [{"statement": "T-1", "text": "by hand", "by": "A. Weaver", "on": "2026-03-01"}],
        "holds": [{"order": "A-1", "reason": "away", "from": "2026-03-01", "until": "2026-03-05"}],
        "refunds": [{"order": "A-1", "asked": "2026-03-26", "amount": "9.00", "currency": "EUR"}],
    }
    return {name: rows for name, rows in (usual | tables).items() if rows is not None}


def found(**tables: list[Row] | None) -> dict[str, Fact | Absent]:
    families = {name: family for name, family in FAMILIES.items() if name != NOTHING_TOLD}
    book = facts_of(day_of(DAY, CREDIT, **maker(**tables)), families)
    facts = [book.find(path) for path in book.countable()]
    return {fact.key: fact for fact in facts}


MISSING = {
    "told": ["orders.retold"],
    "structure": ["coverage.buildable", "coverage.days", "coverage.part.hook.needed", "coverage.part.hook.held_up"],
    "stock": [
        "coverage.buildable", "coverage.parts_in_house", "coverage.short_parts", "coverage.short_names", "coverage.tightest",
        "coverage.days", "coverage.part.hook.usable", "coverage.part.hook.held", "coverage.part.hook.short",
        "coverage.part.hook.shop", "coverage.part.hook.days", "coverage.part.hook.held_up", "defects.D-1.kits",
        "coverage.of.Heron 8.buildable",
    ],
    "supply": ["coverage.part.hook.next_arrival", "coverage.part.hook.overdue", "coverage.part.hook.usual_lateness"],
    "reserved": ["coverage.part.hook.reserved"],
    "plan": ["plan.week", "plan.next_month", "coverage.days", "coverage.part.hook.days"],
    "defects": ["defects.open", "changes.C-1.rate", "changes.C-1.rate_fell"],
    "affected": ["defects.affected", "defects.D-1.unremedied", "changes.C-1.rate_before"],
    "credits": ["credits.balance", "credits.owed"],
    "promises": ["promises.open", "promises.kept_share"],
    "refunds": ["refunds.open", "refunds.late"],
}  # fmt: skip
"""What each table feeds; a fact of an item that only the table itself knows is not there at all."""
POINTING: dict[str, tuple[str, ...]] = {
    "defects": ("affected", "changes"),
    "parts": ("structure", "stock", "supply", "reserved", "defects", "affected", "changes"),
    "boxing": ("affected",),
    "orders": ("boxing", "told", "credits", "holds", "refunds", "affected", "structure", "plan", "changes"),
}
"""Tables whose rows would point nowhere if these had none: they go too."""


@pytest.mark.parametrize(("table", "key"), [(table, key) for table, keys in MISSING.items() for key in keys])
def test_what_a_missing_table_would_feed_names_the_table(table: str, key: str) -> None:
    """It is absent, and the reason is the file."""
    actual = found(**{table: None})[key]

    assert isinstance(actual, Absent)
    assert f"{table}.csv" in actual.why


EMPTY: dict[str, dict[str, Any]] = {
    "told": {"orders.retold": 0, "orders.past_promise": 0},
    "structure": {f"coverage.{key}": "the structure tells of no part" for key in ("buildable", "days", "part.hook.needed")},
    "stock": dict.fromkeys(MISSING["stock"], "no stock was counted up to this day"),
    "supply": {"coverage.part.hook.next_arrival": "nothing of it is on order and still due", "coverage.part.hook.overdue": 0},
    "reserved": {"coverage.part.hook.reserved": 0},
    "plan": {
        "plan.week": "plan.csv says nothing of 2026-03-23 to 2026-03-29", "coverage.days": "nothing is planned after this day",
    },
    "affected": {
        "defects.affected": "not known: tracing is not complete",
        "changes.C-1.rate": "not known: tracing of the defect is not complete",
    },
    "promises": {
        "promises.open": 0, "promises.kept_share": "no promise was kept or late yet",
        "promises.slip": "no promise was kept or late yet",
    },
    "refunds": {"refunds.open": 0, "refunds.late": 0},
}  # fmt: skip


@pytest.mark.parametrize("table", sorted(EMPTY))
def test_an_empty_table_says_that_there_was_nothing_or_says_nothing(table: str) -> None:
    """Nobody asked for money, nothing was reserved: zero. Nothing counted, planned or traced: absent, with a reason."""
    facts = found(**{table: []})
    expected = EMPTY[table]

    actual = {key: fact.value if isinstance(fact, Fact) else fact.why for key, fact in facts.items() if key in expected}

    assert expected == actual


@pytest.mark.parametrize("table", sorted(REQUIRED))
def test_no_gap_breaks_a_fact(table: str) -> None:
    """With any table empty, or missing if it may be, each fact is found or says why not."""
    gone: dict[str, list[Row] | None] = dict.fromkeys(POINTING.get(table, ()))
    ways: list[list[Row] | None] = [[]] if table in ("orders", "boxing") else [[], None]
    kept = {"boxing": [], **gone} if table == "orders" else gone

    absent = [fact for rows in ways for fact in found(**{**kept, table: rows}).values() if isinstance(fact, Absent)]

    assert [] == [fact.key for fact in absent if not fact.why]
    assert absent


def test_a_first_week_has_nothing_to_be_held_against() -> None:
    """Two units in the first week: counts are whole, records and a rate of weeks before are absent."""
    day = day_of("2026-03-24", boxing=[boxed("H-1", "2026-03-23"), boxed("H-2", "2026-03-24")], orders=[order("A-1")])

    assert [2, 0, 2] == [value(day, f"boxed.{key}") for key in ("week", "last_week", "total")]
    assert "no unit was boxed in a week before this one" == why(day, "boxed.best_week")
    assert "no unit was boxed in a month before this one" == why(day, "boxed.best_month")
    assert why(day, "boxed.unusual")


def test_a_first_scan_on_the_day_itself_has_no_rate() -> None:
    """Nothing was scanned before the day, so that there is no working day to tell of."""
    day = day_of("2026-03-24", boxing=[boxed("H-1", "2026-03-24")])

    assert why(day, "boxed.rate")


def test_one_model_is_the_whole() -> None:
    """Facts of the only model are those of all."""
    facts = found()
    whole = {key: fact for key, fact in facts.items() if key.split(".")[0] in ("boxed", "orders", "coverage")}
    of_model = {key: facts.get(key.replace(".", ".of.Heron 8.", 1)) for key in whole}
    expected = {key: fact.value for key, fact in whole.items() if isinstance(fact, Fact) and of_model[key]}

    actual = {key: getattr(of_model[key], "value", None) for key in expected}

    assert expected == actual
    assert len(expected) > 40


def test_nobody_waiting_has_no_wait() -> None:
    """Without a waiting order there is no oldest and no median wait, and none past its promise."""
    day = day_of(DAY, **maker(orders=[order("A-1", status="shipped", closed="2026-03-02"), order("A-2", status="boxed")]))

    assert [0, 0] == [value(day, f"orders.{key}") for key in ("waiting", "past_promise")]
    assert {"no order is waiting"} == {why(day, f"orders.{key}_wait") for key in ("oldest", "median")}
    assert "no order is waiting" == why(day, "coverage.buildable")


def test_no_working_day_in_the_period_is_no_zero() -> None:
    """A plan of Sundays alone covers no working day, and so says nothing of working days."""
    sundays = [{"date": day, "model": "Heron 8", "units": 1} for day in ("2026-03-29", "2026-04-05")]
    day = day_of(DAY, **maker(plan=sundays))

    assert ["no planned day is a working day"] * 2 == [why(day, f"coverage.{key}") for key in ("days", "part.hook.days")]


def test_a_count_after_the_day_is_no_count_yet() -> None:
    """On the day before the first count of stock nothing is told of shelves, and needs are told as ever."""
    day = day_of("2026-03-19", **maker())

    assert "no stock was counted up to this day" == why(day, "coverage.part.hook.short")
    assert 2 == value(day, "coverage.part.hook.needed")
