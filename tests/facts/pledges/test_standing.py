"""What bulletins on record promised, held against what came since."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from bulletin.draft.expressions import parse_key
from bulletin.facts.book import facts_of
from bulletin.facts.concerns import concerns_of
from bulletin.model import Basis, Fact, Promised, Range, Value, Window
from tests.facts.builders import Row, boxed, day_of, find, order, value, why

TOLD = date(2026, 3, 6)
APRIL = Window(date(2026, 4, 6), date(2026, 4, 17))


def promised(*said: tuple[str, Value], name: str = "week.1", due: date = APRIL.last, basis: Basis = Basis.FORECAST) -> Promised:
    """A promise of a bulletin as of 6 March, made of facts by their keys."""
    return Promised(name, TOLD, TOLD, "We expect ...", due, basis, tuple((parse_key(key), told) for key, told in said))


def two_orders(**columns: str) -> list[Row]:
    """Two orders that waited on 6 March, and one placed after it; `columns` are those of the second."""
    usual = {"status": "waiting", **columns}
    return [order("A-1", status="boxed"), order("A-2", **usual), order("A-3", placed="2026-03-09", status="boxed")]


def made(*days: str) -> list[Row]:
    """A unit for A-1, A-2 and A-3 each, where a day is given."""
    pairs = zip(("A-1", "A-2", "A-3"), days, strict=False)
    return [boxed(f"H8-{number}", day, order=number) for number, day in pairs if day]


def state_of(as_of: str, *said: tuple[str, Value], boxing: list[Row], due: date = APRIL.last, **tables: list[Row]) -> str:
    """The state of a promise made of some facts."""
    tables.setdefault("orders", two_orders())
    return str(value(day_of(as_of, promised=(promised(*said, due=due),), boxing=boxing, **tables), 'promises["week.1"].state'))


SERVED = {
    "within": ("2026-04-20", made("2026-04-08"), "kept"),
    "on its last day": ("2026-04-20", made("2026-04-17"), "kept"),
    "sooner than its first": ("2026-03-20", made("2026-03-18"), "kept"),
    "a day after": ("2026-04-20", made("2026-04-18"), "late"),
    "not yet, and due": ("2026-04-17", made(), "open"),
    "not yet, past it": ("2026-04-18", made(), "late"),
    "tomorrow": ("2026-04-16", made("2026-04-17"), "open"),
}


@pytest.mark.parametrize(("as_of", "boxing", "state"), SERVED.values(), ids=SERVED)
def test_a_window_of_an_order(as_of: str, boxing: list[Row], state: str) -> None:
    """The order's unit, first boxed on or before the last day of its window, keeps the promise; sooner is kept too."""
    orders = [order("A-1", status="boxed" if boxing else "waiting")]

    assert state == state_of(as_of, ("forecast.order.A-1", APRIL), boxing=boxing, orders=orders)


def test_a_unit_boxed_again_was_boxed_in_time() -> None:
    """A unit boxed within its window, opened after it and boxed again keeps its promise, as output counts it once."""
    again = [
        *made("2026-04-10"),
        boxed("H8-A-1", "2026-04-20", order="A-1", event="reopened"),
        boxed("H8-A-1", "2026-04-22", order="A-1"),
    ]

    assert "kept" == state_of("2026-04-24", ("forecast.order.A-1", APRIL), boxing=again)


QUEUE = {
    "all of them": (two_orders(status="boxed"), made("2026-04-10", "2026-04-16", "2026-04-30"), "kept"),
    "one waits": (two_orders(), made("2026-04-10", "", "2026-04-16"), "late"),
    "one was cancelled": (two_orders(status="cancelled", closed="2026-04-01"), made("2026-04-10", "", "2026-04-30"), "kept"),
    "one cancelled after it was due": (two_orders(status="cancelled", closed="2026-04-20"), made("2026-04-10"), "kept"),
    "one came too late": (two_orders(status="boxed"), made("2026-04-10", "2026-04-20", "2026-04-16"), "late"),
}


@pytest.mark.parametrize(("orders", "boxing", "state"), QUEUE.values(), ids=QUEUE)
def test_a_window_of_the_queue(orders: list[Row], boxing: list[Row], state: str) -> None:
    """Who stood in the queue decides, not who came later; who has left it unserved no longer counts."""
    if not any(row["order"] == "A-3" for row in boxing):
        orders = orders[:2]
    for key, told in (("forecast.cleared", APRIL), ("forecast.chance_cleared_by.2026-04-17", Fraction(9, 10))):
        assert state == state_of("2026-05-08", (key, told), boxing=boxing, orders=orders)


def test_held_orders_and_refunds_stand_outside() -> None:
    """An order that is on hold or asks its money back keeps no promise of the queue from being kept."""
    boxing = made("2026-04-10")
    orders = two_orders()[:2]
    holds = [{"order": "A-2", "reason": "moving house", "from": "2026-04-01"}]
    refunds = [{"order": "A-2", "asked": "2026-04-01", "amount": "890.00", "currency": "EUR"}]
    before = [{"order": "A-2", "reason": "moving house", "from": "2026-03-01", "until": "2026-04-20"}]
    said = ("forecast.cleared", APRIL)
    states = [state_of("2026-05-08", said, boxing=boxing, orders=orders, **table) for table in
              ({"holds": holds}, {"refunds": refunds}, {"holds": before}, {})]  # fmt: skip

    assert ["kept", "kept", "kept", "late"] == states


def test_a_promise_to_nobody_left_is_withdrawn() -> None:
    """A window of an order that was cancelled unserved counts neither way."""
    orders = [order("A-1", status="cancelled", closed="2026-03-20")]
    day = day_of("2026-05-08", promised=(promised(("forecast.order.A-1", APRIL)),), orders=orders)

    assert "withdrawn" == value(day, 'promises["week.1"].state')
    assert [0, 0, 0] == [value(day, f"promises.{name}") for name in ("open", "kept", "late")]


def test_a_queue_of_one_model() -> None:
    """The queue of one model is decided by its own orders."""
    orders = [order("A-1", status="boxed"), order("B-1", model="Heron 12")]
    said = [(f"forecast.of.{model}.cleared", APRIL) for model in ("Heron 8", "Heron 12")]

    assert ["kept", "late"] == [state_of("2026-05-08", one, boxing=made("2026-04-10"), orders=orders) for one in said]


def test_a_place_is_that_of_the_day() -> None:
    """Place 1 was that of the order with priority, place 2 that of the older one, whoever came since."""
    orders = [
        order("A-1", placed="2026-01-05"),
        order("A-2", placed="2026-02-05", priority="1", status="boxed"),
        order("A-3", placed="2026-03-20", priority="2"),
    ]
    boxing = [boxed("H8-2", "2026-04-10", order="A-2")]
    said = [(f"forecast.place.{place}", APRIL) for place in (1, 2)]

    assert ["kept", "late"] == [state_of("2026-05-08", one, boxing=boxing, orders=orders) for one in said]


def test_a_new_order_is_the_first_that_came() -> None:
    """The first order of each model placed after the bulletin's day decides; where none came by then, nobody was promised it."""
    first, later = order("A-8", placed="2026-03-10", status="boxed"), order("A-9", placed="2026-03-20")
    boxing = [boxed("H8-8", "2026-04-16", order="A-8")]
    said = ("forecast.new_order", APRIL)

    assert "kept" == state_of("2026-05-08", said, boxing=boxing, orders=[first, later])
    assert "late" == state_of("2026-05-08", said, boxing=[], orders=[later])
    assert "open" == state_of("2026-04-17", said, boxing=[], orders=[])
    assert "withdrawn" == state_of("2026-04-18", said, boxing=[], orders=[])


ARRIVED = {
    "delivered in time": ({"status": "delivered", "closed": "2026-04-12", "delivered": "2026-04-15"}, "kept"),
    "delivered late": ({"status": "delivered", "closed": "2026-04-12", "delivered": "2026-04-18"}, "late"),
    "shipped, three working days on": ({"status": "shipped", "closed": "2026-04-14"}, "kept"),
    "boxed alone": ({"status": "boxed"}, "late"),
}


@pytest.mark.parametrize(("columns", "state"), ARRIVED.values(), ids=ARRIVED)
def test_a_window_at_the_door(columns: dict[str, str], state: str) -> None:
    """Delivery decides; what left without a day of delivery is there when the slowest of its lane would be."""
    lanes = [{"market": "AT", "days_low": "1", "days_high": "3"}]
    orders, boxing = [order("A-1", **columns)], made("2026-04-10")

    assert state == state_of("2026-05-08", ("forecast.arrive.A-1", APRIL), boxing=boxing, orders=orders, lanes=lanes)


def units(count: int, day: str, model: str = "Heron 8") -> list[Row]:
    return [boxed(f"{model}-{day}-{number}", day, model=model, purpose="stock") for number in range(count)]


MONTHS = {
    "reached": (("forecast.month", Range(5, 8)), [*units(3, "2026-03-04"), *units(2, "2026-03-30")], "kept"),
    "in April": (("forecast.month", Range(5, 8)), [*units(4, "2026-03-04"), *units(1, "2026-04-02")], "late"),
    "of one model": (("forecast.of.Heron 12.month", Range(1, 2)), units(4, "2026-03-04"), "late"),
    "more than expected": (("forecast.month", Range(5, 8)), units(30, "2026-03-30"), "kept"),
    "a record": (("forecast.chance_best_month", Fraction(9, 10)), [*units(4, "2026-02-04"), *units(5, "2026-03-30")], "kept"),
    "as many": (("forecast.chance_best_month", Fraction(9, 10)), [*units(4, "2026-02-04"), *units(4, "2026-03-30")], "late"),
}


@pytest.mark.parametrize(("said", "boxing", "state"), MONTHS.values(), ids=MONTHS)
def test_units_of_a_month(said: tuple[str, Value], boxing: list[Row], state: str) -> None:
    """The lower end of a month's units, or one more than the best month, made by the end of the month keeps the promise."""
    boxing = [*boxing, *units(1, "2026-01-05", "Heron 12")]

    assert state == state_of("2026-04-10", said, boxing=boxing, due=date(2026, 3, 31), orders=[])


def test_units_of_the_next_month() -> None:
    """What is expected of April is decided by April's units, those of March apart."""
    said = ("forecast.next_month", Range(3, 8))
    boxing = [*units(9, "2026-03-30"), *units(2, "2026-04-07")]
    end = date(2026, 4, 30)

    assert "late" == state_of("2026-05-04", said, boxing=boxing, due=end)
    assert "kept" == state_of("2026-05-04", said, boxing=[*boxing, *units(1, "2026-04-30")], due=end)


def row(name: str, due: str, state: str = "open", **columns: str) -> Row:
    return {"promise": name, "made": "2026-03-02", "text": "the booklet", "due": due, "state": state, **columns}


def test_a_row_of_its_name_answers_a_commitment() -> None:
    """What nothing on record decides is answered by the row NAME.N, by the day that was told, and counts once."""
    pledge = promised(("promises.PR-1.text", "the booklet"), basis=Basis.COMMITMENT)
    answer = row("week.1", "2026-05-29", "kept", done="2026-04-20")
    day = day_of("2026-05-08", promised=(pledge,), promises=[answer])

    assert ("late", 3, APRIL.last) == tuple(value(day, f'promises["week.1"].{name}') for name in ("state", "late_by", "due"))
    assert [0, 0, 1] == [value(day, f"promises.{name}") for name in ("open", "kept", "late")]


def test_what_came_decides_a_forecast_whatever_a_row_says() -> None:
    """A row cannot keep a forecast that did not come true."""
    day = day_of(
        "2026-05-08",
        promised=(promised(("forecast.order.A-1", APRIL)),),
        orders=[order("A-1")],
        promises=[row("week.1", "2026-05-29", "kept", done="2026-04-10")],
    )

    assert "late" == value(day, 'promises["week.1"].state')
    assert [1, 0, 1] == [value(day, f"promises.{name}") for name in ("open", "kept", "late")]


def test_a_promise_told_again_counts_once() -> None:
    """A commitment of promises.csv that bulletins repeat with the same day counts once; with the day of then, it counts too."""
    again = [
        promised(("promises.PR-1.due", due), name=f"week.{number}", due=due, basis=Basis.COMMITMENT)
        for number, due in enumerate((date(2026, 4, 3), date(2026, 4, 17), date(2026, 4, 17)), start=1)
    ]
    day = day_of("2026-04-15", promised=tuple(again), promises=[row("PR-1", "2026-04-17", "kept", done="2026-04-10")])
    states = [value(day, f'promises["week.{number}"].state') for number in (1, 2, 3)]

    assert ["late", "kept", "kept"] == states
    assert [1, 1] == [value(day, f"promises.{name}") for name in ("kept", "late")]


def test_an_open_promise_is_as_strong_as_what_was_said() -> None:
    """An open forecast stays one, an open commitment commits; what became of them is on record."""
    pledges = (promised(("forecast.order.A-1", APRIL)), promised(name="week.2", basis=Basis.COMMITMENT))
    found = [
        fact.basis
        for as_of in ("2026-04-10", "2026-05-08")
        for number in (1, 2)
        if isinstance(
            fact := find(day_of(as_of, promised=pledges, orders=[order("A-1")]), f'promises["week.{number}"].due'), Fact
        )
    ]

    assert [Basis.FORECAST, Basis.COMMITMENT, Basis.RECORD, Basis.RECORD] == found


def test_without_promises_csv() -> None:
    """What bulletins promised is counted where there is no promises.csv; without either the missing table is named."""
    day = day_of("2026-05-08", promised=(promised(("forecast.order.A-1", APRIL)),), orders=[order("A-1")])

    assert 1 == value(day, "promises.late")
    assert "needs promises.csv, which the data folder lacks" == why(day_of("2026-05-08"), "promises.late")


def test_the_orders_behind_a_promise() -> None:
    """A promise rests on the orders it was held against, and has the columns that a row would have."""
    day = day_of("2026-05-08", promised=(promised(("forecast.cleared", APRIL)),), orders=two_orders(), boxing=made("2026-04-10"))
    found = find(day, 'promises["week.1"].state')

    assert isinstance(found, Fact)
    assert {"orders.csv": [2, 3]} == found.rows.lines()
    assert ["We expect ...", TOLD, "week.1"] == [value(day, f'promises["week.1"].{name}') for name in ("text", "made", "promise")]


def test_an_overdue_promise_of_a_bulletin_must_be_heard() -> None:
    """A forecast that did not come true by its day is an overdue promise that readers must hear of."""
    day = day_of("2026-05-08", promised=(promised(("forecast.order.A-1", APRIL)),), orders=[order("A-1")])
    found = [(one.kind, one.item, one.offer) for one in concerns_of(facts_of(day)) if one.kind == "overdue promise"]

    assert [("overdue promise", "week.1", '{{ promises["week.1"].due }}')] == found


def test_two_facts_are_kept_when_both_came() -> None:
    """A promise of two windows is kept when the later one of both was, and withdrawn ones of them do not count."""
    said = (("forecast.order.A-1", APRIL), ("forecast.order.A-2", APRIL))
    one = state_of("2026-05-08", *said, boxing=made("2026-04-10"))
    both = state_of("2026-05-08", *said, boxing=made("2026-04-10", "2026-04-17"), orders=two_orders(status="boxed")[:2])
    left = state_of(
        "2026-05-08", *said, boxing=made("2026-04-10"), orders=two_orders(status="cancelled", closed="2026-04-01")[:2]
    )

    assert ("late", "kept", "kept") == (one, both, left)
