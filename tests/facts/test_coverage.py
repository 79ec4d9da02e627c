"""The `coverage` family, from small makers' tables."""

from datetime import date
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bulletin.facts.book import facts_of
from bulletin.facts.materials.queue_needs import QueueNeeds
from bulletin.model import Basis, Fact, Name
from tests.facts.builders import Row, day_of, find, order, value, why

DAY = "2026-03-27"


def part(name: str, **columns: Any) -> Row:
    return {"part": name, "name": f"{name} of oak", **columns}


def use(parent: str, component: str, quantity: Any = 1, **columns: Any) -> Row:
    return {"parent": parent, "component": component, "quantity": quantity, **columns}


def stock(name: str, quantity: Any, state: str = "usable", counted: str = "2026-03-26", **columns: Any) -> Row:
    return {"part": name, "quantity": quantity, "state": state, "counted": counted, **columns}


def supply(name: str, due: str, state: str = "ordered", quantity: Any = 10, **columns: Any) -> Row:
    return {"purchase": f"PO-{name}-{due}-{state}", "part": name, "quantity": quantity, "due": due, "state": state, **columns}


def orders(count: int, model: str = "Heron 8", **columns: Any) -> list[Row]:
    first = columns.get("status", "waiting")
    return [order(f"{first} {model} {number}", model=model, **columns) for number in range(count)]


def bench(**tables: list[Row]) -> dict[str, list[Row]]:
    """Ten waiting Heron 8 of a beam each (made of three slats) and two hooks."""
    usual = {
        "orders": orders(10),
        "parts": [part("beam"), part("slat"), part("hook")],
        "structure": [use("Heron 8", "beam"), use("beam", "slat", 3), use("Heron 8", "hook", 2)],
        "stock": [stock("beam", 4), stock("slat", 9), stock("hook", 100)],
    }
    return usual | tables


def test_made_parts_on_the_shelf_come_first() -> None:
    """Four beams and slats for three more: seven looms can be built, and 18 - 9 slats are short."""
    day = day_of(DAY, **bench())
    expected = [7, Fraction(1, 2), 1, Name("part", "slat", "slat of oak"), 10, 18, 9, 20]

    keys = ("buildable", "parts_in_house", "short_parts", "tightest", "part.beam.needed", "part.slat.needed", "part.slat.short")
    actual = [value(day, f"coverage.{key}") for key in (*keys, "part.hook.needed")]

    assert expected == actual


def test_clear_to_build_is_the_least_of_what_parts_cover() -> None:
    """Clear-to-build, common practice, no source: 930/1, 3500/8, 412/1, 900/2: 412 can be built."""
    uses = [use("Heron 8", "a", 1), use("Heron 8", "b", 8), use("Heron 8", "c", 1), use("Heron 8", "d", 2)]
    held = [stock("a", 930), stock("b", 3500), stock("c", 412), stock("d", 900)]

    actual = value(day_of(DAY, orders=orders(3), structure=uses, stock=held), "coverage.buildable")

    assert 412 == actual


def test_days_of_supply_are_counted_by_the_plan() -> None:
    """Days of supply, common practice, no source: 930 on hand, 31 a day last 30 days."""
    plan = [{"date": day, "model": "Heron 8", "units": 31} for day in planned_days(45)]
    day = day_of(DAY, orders=orders(1), structure=[use("Heron 8", "a")], stock=[stock("a", 930)], plan=plan)
    expected = (30, Basis.PLAN, 30)

    fact = find(day, "coverage.part.a.days")
    assert isinstance(fact, Fact)
    actual = (fact.value, fact.basis, value(day, "coverage.days"))

    assert expected == actual


def planned_days(count: int) -> list[str]:
    first = date(2026, 3, 30).toordinal()
    days = (date.fromordinal(first + later) for later in range(count * 2))
    return [day.isoformat() for day in days if day.weekday() < 5][:count]


def test_days_without_demand_are_undefined_not_infinite() -> None:
    """Days of supply, common practice, no source: without demand it is undefined: the part has no such fact."""
    plan = [{"date": "2026-03-30", "model": "Heron 8", "units": 1}]
    held = [stock("a", 930), stock("spare", 5)]
    day = day_of(DAY, orders=orders(1), structure=[use("Heron 8", "a")], stock=held, plan=plan)

    actual = (why(day, "coverage.part.spare.days"), why(day_of(DAY, **bench(plan=[])), "coverage.days"))

    assert ("the plan does not use it", "nothing is planned after this day") == actual


def test_days_count_working_days_and_use_made_shelves_first() -> None:
    """Four beams and slats for three more cover Friday's two, Saturday's three, and not Monday's three."""
    plan = [
        {"date": day, "model": "Heron 8", "units": units}
        for day, units in (("2026-04-03", 2), ("2026-04-04", 3), ("2026-04-06", 3))
    ]

    actual = [value(day_of(DAY, **bench(plan=plan)), f"coverage.{key}") for key in ("days", "part.beam.days", "part.hook.days")]

    assert [1, 1, 2] == actual


def test_only_usable_stock_of_the_newest_count_is_there() -> None:
    """Inspection and quarantine are held; an older count, and one of a later day, are not the stock."""
    held = [
        stock("hook", 7, counted="2026-03-20"),
        stock("hook", 3),
        stock("hook", "2.5", lot="L2"),
        stock("hook", 4, "inspection"),
        stock("hook", 5, "quarantine"),
        stock("hook", 90, counted="2026-03-28"),
    ]
    day = day_of(DAY, **bench(stock=held))

    actual = [value(day, f"coverage.part.hook.{key}") for key in ("usable", "held")]

    assert [Fraction("5.5"), 9] == actual


def test_a_part_that_nobody_counted_is_not_told_as_none() -> None:
    """Slats and hooks were counted, beams never: none is told of, none is built with, and none of the hooks stands held."""
    day = day_of(DAY, **bench(stock=[stock("slat", 9), stock("hook", 100)], reserved=[]))
    expected = [3, Fraction(1, 2), 100, 0, 0, 30, 21]

    keys = ("buildable", "parts_in_house", "part.hook.usable", "part.hook.held", "part.beam.reserved", "part.slat.needed")
    actual = [value(day, f"coverage.{key}") for key in (*keys, "part.slat.short")]

    assert expected == actual
    assert {"no stock of it was counted up to this day"} == {why(day, f"coverage.part.beam.{key}") for key in ("usable", "held")}


def test_what_nobody_counted_covers_nothing() -> None:
    """Of hooks none was counted: nothing can be built, and all of them are short, which `tightest` tells by name."""
    day = day_of(DAY, **bench(stock=[stock("beam", 4), stock("slat", 9)]))
    expected = [0, Name("part", "hook", "hook of oak"), 20, 10]

    actual = [value(day, f"coverage.{key}") for key in ("buildable", "tightest", "part.hook.short", "part.hook.held_up")]

    assert expected == actual


def test_the_shop_may_sell_what_nobody_else_needs() -> None:
    """Of 100 hooks 20 are needed, 30 reserved for service and retrofits, 10 for the shop itself."""
    reserved = [
        {"part": "hook", "use": purpose, "quantity": count}
        for purpose, count in (("shop", 10), ("service", 12), ("retrofit", 18))
    ]
    day = day_of(DAY, **bench(reserved=reserved))

    actual = [value(day, f"coverage.part.hook.{key}") for key in ("reserved", "shop", "short")]

    assert [40, 50, 0] == actual


def test_reservations_make_a_part_short() -> None:
    """Three usable, five reserved, none needed: two are missing."""
    day = day_of(
        DAY,
        **bench(
            stock=[stock("peg", 3)],
            parts=[*bench()["parts"], part("peg")],
            reserved=[{"part": "peg", "use": "service", "quantity": 5}],
        ),
    )

    actual = [value(day, f"coverage.part.peg.{key}") for key in ("needed", "short", "shop")]

    assert [0, 2, 0] == actual


@pytest.mark.parametrize(
    ("begins", "ends", "needed"), [("2026-03-27", "", 10), ("", DAY, 10), ("2026-03-28", "", 0), ("", "2026-03-26", 0)]
)
def test_structure_holds_from_and_until_inclusive(begins: str, ends: str, needed: int) -> None:
    """A row counts on its first and on its last day, and on none beside them."""
    uses = [use("Heron 8", "hook", **{"from": begins, "until": ends}), use("Heron 8", "beam")]

    actual = value(day_of(DAY, **bench(structure=uses)), "coverage.part.hook.needed")

    assert needed == actual


def test_a_mix_is_that_of_the_waiting_orders() -> None:
    """Two Heron 8 wait for each Heron 12, one of which takes the only scarce part, of which there are five: 15 units."""
    uses = [use("Heron 8", "hook"), use("Heron 12", "hook"), use("Heron 12", "pedal")]
    waiting = [*orders(4), *orders(2, "Heron 12"), *orders(9, "Heron 12", status="shipped")]
    day = day_of(DAY, orders=waiting, structure=uses, stock=[stock("hook", 100), stock("pedal", 5)])

    actual = [value(day, f"coverage.{key}") for key in ("buildable", "of.Heron 12.buildable", "of.Heron 8.buildable")]

    assert [15, 5, 100] == actual


def test_one_model_alone_has_its_own_needs() -> None:
    """The facts of a model speak of its waiting orders against all shelves, parts included."""
    uses = [use("Heron 8", "hook"), use("Heron 12", "hook", 4), use("Heron 12", "pedal")]
    day = day_of(DAY, orders=[*orders(4), *orders(2, "Heron 12")], structure=uses, stock=[stock("hook", 9), stock("pedal", 1)])
    expected = [2, 0, 1, 4, 8, 12, 3, 0, 0]

    keys = (
        "short_parts",
        "of.Heron 8.short_parts",
        "of.Heron 12.short_parts",
        "of.Heron 8.part.hook.needed",
        "of.Heron 12.part.hook.needed",
    )
    more = ("part.hook.needed", "part.hook.short", "of.Heron 8.part.hook.short", "of.Heron 8.part.pedal.needed")
    actual = [value(day, f"coverage.{key}") for key in (*keys, *more)]

    assert expected == actual


def test_tightest_is_the_first_id_of_equals() -> None:
    """Two parts cover the same share of their needs: the id decides."""
    uses = [use("Heron 8", "zip"), use("Heron 8", "cord", 2)]

    actual = value(day_of(DAY, orders=orders(4), structure=uses, stock=[stock("zip", 2), stock("cord", 4)]), "coverage.tightest")

    assert Name("part", "cord", "cord") == actual


def test_supply_that_comes_and_supply_that_is_late() -> None:
    """The next arrival is due today or later; what was due before and did not come is overdue; past supply came two days late."""
    coming = [
        supply("hook", "2026-04-09", "confirmed"),
        supply("hook", DAY, "in_transit"),
        supply("hook", "2026-03-30", "cancelled"),
        supply("hook", "2026-03-26", quantity="2.5"),
        supply("hook", "2026-03-20", "received", received="2026-03-28", quantity=3),
        supply("hook", "2026-03-02", "received", received="2026-03-03"),
        supply("hook", "2026-03-02", "received", received="2026-03-05", purchase="PO-2"),
        supply("hook", "2026-03-02", "received", received="2026-03-01", purchase="PO-3"),
        supply("hook", "2026-03-02", "received", received="2026-03-06", purchase="PO-4"),
    ]
    day = day_of(DAY, **bench(supply=coming))
    expected = [date(2026, 3, 27), Fraction("5.5"), Fraction(2), Basis.PLAN]

    facts = [find(day, f"coverage.part.hook.{key}") for key in ("next_arrival", "overdue", "usual_lateness")]
    actual = [fact.value for fact in facts if isinstance(fact, Fact)] + [
        facts[0].basis for _ in "1" if isinstance(facts[0], Fact)
    ]

    assert expected == actual


def test_no_supply_is_no_date() -> None:
    """A part that nobody ordered has no next arrival and no usual lateness, and nothing of it is overdue."""
    day = day_of(DAY, **bench(supply=[supply("slat", "2026-04-09")]))

    actual = [why(day, f"coverage.part.hook.{key}") for key in ("next_arrival", "usual_lateness")]

    assert ["nothing of it is on order and still due", "nothing of it was delivered yet"] == actual
    assert 0 == value(day, "coverage.part.hook.overdue")


def test_orders_are_held_up_in_the_order_of_the_queue() -> None:
    """Seven looms can be built, by priority and age: the three youngest are held up by slats, none by hooks."""
    waiting = [order(f"A-{number}", f"2026-01-{30 - number:02}") for number in range(10)]
    waiting[0]["priority"] = 1
    day = day_of(DAY, **bench(orders=waiting))
    queue = day.once(QueueNeeds)

    actual = (value(day, "coverage.part.slat.held_up"), value(day, "coverage.part.hook.held_up"))
    held = [number for number in range(10) if queue.awaited(number)]

    assert (3, 0) == actual
    assert [1, 2, 3] == held


def test_held_orders_are_served_last() -> None:
    """An order on hold leaves the hook to the one behind it in the queue."""
    waiting = [order("A-1", "2026-01-01"), order("A-2", "2026-01-02")]
    tables = bench(orders=waiting, structure=[use("Heron 8", "hook")], stock=[stock("hook", 1)])
    day = day_of(DAY, **tables, holds=[{"order": "A-1", "reason": "address", "from": "2026-03-01"}])

    actual = [day.once(QueueNeeds).awaited(position) for position in (0, 1)]

    assert [(Name("part", "hook", "hook of oak"),), ()] == actual


def test_an_order_whose_made_part_is_on_the_shelf_is_not_held_up() -> None:
    """Heron 12 takes frames of which two are made; only Heron 8, whose beams are gone, wait for the wood both are made of."""
    uses = [use("Heron 8", "beam"), use("beam", "wood"), use("Heron 12", "frame"), use("frame", "wood")]
    waiting = [
        order("1", "2026-01-01"),
        order("2", "2026-01-02", model="Heron 12"),
        order("3", "2026-01-03"),
        order("4", "2026-01-04", model="Heron 12"),
    ]
    day = day_of(DAY, orders=waiting, structure=uses, stock=[stock("frame", 2), stock("beam", 1)])

    actual = [
        value(day, f"coverage.{key}")
        for key in ("part.wood.held_up", "of.Heron 12.part.wood.held_up", "of.Heron 8.part.wood.held_up")
    ]

    assert [1, 0, 1] == actual


def test_made_parts_are_never_short_themselves() -> None:
    """What goes into a made part may be short; the part itself has no such fact."""
    day = day_of(DAY, **bench())
    expected = "it is made in house: what goes into it may be short, it is not"

    actual = {why(day, f"coverage.part.beam.{key}") for key in ("short", "held_up")}

    assert {expected} == actual


def test_columns_of_a_part_are_facts() -> None:
    """The row of parts.csv speaks under the names of its columns; an empty cell is no value."""
    day = day_of(DAY, **bench(parts=[part("hook", lead_days=12), part("beam"), part("slat", safety_stock="7.5")]))

    actual = [value(day, f"coverage.part.{key}") for key in ("hook.name", "hook.lead_days", "slat.safety_stock")]

    assert [Name("part", "hook", "hook of oak"), 12, Fraction(15, 2)] == actual
    assert "parts.csv leaves lead_days empty" == why(day, "coverage.part.beam.lead_days")


@pytest.mark.parametrize(
    ("missing", "key", "reason"),
    [
        ("structure", "coverage.buildable", "needs structure.csv, which the data folder lacks"),
        ("stock", "coverage.part.hook.usable", "needs stock.csv, which the data folder lacks"),
        ("plan", "coverage.days", "needs plan.csv, which the data folder lacks"),
        ("reserved", "coverage.part.hook.reserved", "needs reserved.csv, which the data folder lacks"),
        ("supply", "coverage.part.hook.overdue", "needs supply.csv, which the data folder lacks"),
    ],
)
def test_a_missing_table_is_named(missing: str, key: str, reason: str) -> None:
    """A fact that a missing table would feed is absent, and says which."""
    tables = {name: rows for name, rows in bench().items() if name != missing}

    actual = why(day_of(DAY, **tables), key)

    assert reason == actual


def test_nobody_waiting_needs_nothing() -> None:
    """Without waiting orders there is no mix, no part line and no share; a model alone can still be built."""
    day = day_of(DAY, **bench(orders=orders(2, status="shipped")))

    actual = {why(day, f"coverage.{key}") for key in ("buildable", "parts_in_house", "short_parts", "tightest")}

    assert {"no order is waiting"} == actual
    assert (7, 0) == (value(day, "coverage.of.Heron 8.buildable"), value(day, "coverage.part.hook.needed"))


def test_facts_name_their_rows() -> None:
    """What can be built rests on the waiting orders, the structure, and the usable stock of all its parts."""
    held = [*bench()["stock"], stock("hook", 5, "quarantine"), stock("peg", 1)]
    day = day_of(DAY, **bench(stock=held, parts=[*bench()["parts"], part("peg")]))
    expected = (
        {"orders.csv": 10, "structure.csv": 3, "stock.csv": 3},
        {"stock.csv": [4]},
        {"orders.csv": 3, "structure.csv": 2, "stock.csv": 2},
    )

    facts = [find(day, f"coverage.{key}") for key in ("buildable", "part.hook.usable", "part.slat.held_up")]
    assert all(isinstance(fact, Fact) for fact in facts)
    actual = tuple(
        fact.rows.lines() if at == 1 else fact.rows.counts() for at, fact in enumerate(facts) if isinstance(fact, Fact)
    )

    assert expected == actual


def test_newest_is_the_last_count() -> None:
    """Coverage is as fresh as the newest count of stock."""
    actual = facts_of(day_of(DAY, **bench())).newest("coverage")

    assert date(2026, 3, 26) == actual


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 9), st.integers(0, 9), st.randoms(use_true_random=False))
def test_lots_and_order_of_rows_change_nothing(first: int, second: int, shuffle: Any) -> None:
    """A lot split in two, and rows in another order, leave every fact as it was."""
    whole = bench(stock=[stock("beam", first + second), stock("slat", 9), stock("hook", 15)])
    split = bench(stock=[stock("beam", first, lot="1"), stock("slat", 9), stock("beam", second, lot="2"), stock("hook", 15)])
    for rows in split.values():
        shuffle.shuffle(rows)
    expected = told(whole)

    actual = told(split)

    assert expected == actual


def told(tables: dict[str, list[Row]]) -> dict[str, Any]:
    book = facts_of(day_of(DAY, **tables))
    found = [book.find(path) for path in book.countable() if path[0].text == "coverage"]
    return {fact.key: fact.value if isinstance(fact, Fact) else fact.why for fact in found}
