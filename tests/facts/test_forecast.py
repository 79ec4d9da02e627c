"""The `forecast` family on small makers: windows, chances, what moves them, and when there are none."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

import pytest

from bulletin.facts.scopes.calendar import Calendar
from bulletin.facts.scopes.day import Day
from bulletin.model import Range, Window
from tests.facts.builders import Row, boxed, day_of, find, order, value, why

AS_OF = "2026-03-27"
WORKDAYS = Calendar(frozenset(range(5)), lambda day: False)


def made(each_day: int = 6, since: str = "2026-01-05", model: str = "Heron 8", **columns: str) -> list[Row]:
    """As many units on every working day from one on up to the as-of date."""
    days = WORKDAYS.working_days(date.fromisoformat(since), date.fromisoformat(AS_OF))
    return [
        boxed(f"{model}-{columns.get('purpose', '')}{day}-{number}", day.isoformat(), model=model, **columns)
        for day in days
        for number in range(each_day)
    ]


def waiting(count: int, **columns: str) -> list[Row]:
    """Orders A-1, A-2 ... that wait."""
    return [order(f"A-{number}", **columns) for number in range(1, count + 1)]


def window(day: Day, key: str) -> Window:
    found = value(day, key)
    if not isinstance(found, Window):
        raise TypeError(found)
    return found


def working_days_to(last: date) -> int:
    return len(WORKDAYS.working_days(date.fromisoformat(AS_OF) + timedelta(days=1), last))


def test_a_place_is_reached_when_the_rate_says() -> None:
    """Place 60 of a line of six a day lies around the tenth working day, in a narrow window."""
    found = window(day_of(AS_OF, orders=waiting(60), boxing=made()), "forecast.place.60")

    assert 9 <= working_days_to(found.first) <= 10 <= working_days_to(found.last) <= 11


def test_a_short_history_gives_no_window() -> None:
    """With less than ten working days of output there is no window, and it says so."""
    day = day_of(AS_OF, orders=waiting(60), boxing=made(since="2026-03-19"))

    expected = "too few working days of output are on record: a rate needs 10, half of them with output"

    assert expected == why(day, "forecast.cleared")


def test_a_rate_known_from_few_days_gives_a_wider_window() -> None:
    """Twelve days of output leave more doubt than sixty."""
    widths = []
    for since in ("2026-03-12", "2026-01-05"):
        uneven = [row for number, row in enumerate(made(9, since)) if number % 7 not in (2, 3) or number % 11 > 3]
        found = window(day_of(AS_OF, orders=waiting(300), boxing=uneven), "forecast.place.300")
        widths.append((found.last - found.first).days)

    assert widths[0] > widths[1]


@pytest.mark.parametrize("closure", [{"stops": [{"from": "2026-04-01", "until": "2026-04-08", "cause": "inventory"}]}, {}])
def test_closed_days_put_a_window_off(closure: dict[str, list[Row]]) -> None:
    """A known stop, or holidays, of six working days before a place put its window off by six working days."""
    tables = {"orders": waiting(60), "boxing": made()}
    holidays = "" if closure else f"holidays = [{', '.join(f'2026-04-0{day}' for day in (1, 2, 3, 6, 7, 8))}]"
    days = day_of(AS_OF, **tables), day_of(AS_OF, maker=holidays, **tables, **closure)
    without, closed = (window(day, "forecast.place.60") for day in days)

    assert working_days_to(without.first) + 6 == working_days_to(closed.first)
    assert working_days_to(without.last) + 6 == working_days_to(closed.last)


def test_the_queue_decides() -> None:
    """An order with priority is served before earlier ones; the window of an order is that of its place."""
    orders = [*waiting(80), order("B-1", placed="2026-03-01", priority="1")]
    day = day_of(AS_OF, orders=orders, boxing=made())

    assert window(day, "forecast.place.1") == window(day, "forecast.order.B-1")
    assert window(day, "forecast.place.81") == window(day, "forecast.order.A-80")


def test_who_stands_outside_the_queue_has_no_window() -> None:
    """Held orders, asked refunds, finished and unknown orders have none, each for its own reason."""
    orders = [*waiting(3), order("S-1", status="shipped", closed="2026-03-02")]
    holds = [{"order": "A-1", "reason": "moving house", "from": "2026-03-01"}]
    refunds = [{"order": "A-2", "asked": "2026-03-20", "amount": "890.00", "currency": "EUR"}]
    day = day_of(AS_OF, orders=orders, boxing=made(), holds=holds, refunds=refunds)
    outside = "the order stands outside the queue: it is held, or its refund was asked for"
    expected = [outside, outside, "no unit of the order waits any more", "there is no such order"]

    assert expected == [why(day, f"forecast.order.{number}") for number in ("A-1", "A-2", "S-1", "X-9")]
    assert window(day, "forecast.order.A-3") == window(day, "forecast.place.1")


def test_arrival_adds_the_lane() -> None:
    """The window at the door is that of boxing and the lane's working days; without a lane there is none."""
    orders = [order("A-1"), order("J-1", market="JP")]
    lanes = [{"market": "AT", "days_low": "1", "days_high": "3"}]
    day = day_of(AS_OF, orders=orders, boxing=made(), lanes=lanes)
    leaves = window(day, "forecast.order.A-1")
    expected = Window(WORKDAYS.add_working_days(leaves.first, 1), WORKDAYS.add_working_days(leaves.last, 3))

    assert expected == window(day, "forecast.arrive.A-1")
    assert why(day, "forecast.arrive.J-1") == "lanes.csv has no lane to JP"


PARTS = {
    "parts": [{"part": "P-1", "name": "brass cleat"}],
    "structure": [{"parent": "Heron 8", "component": "P-1", "quantity": "2"}],
    "stock": [{"part": "P-1", "state": "usable", "quantity": "24", "counted": "2026-03-26"}],
}


def test_a_part_that_is_not_on_order_ends_the_windows() -> None:
    """Where stock is good for twelve units, place 12 has a window and place 13 none, for want of the part."""
    day = day_of(AS_OF, orders=waiting(60), boxing=made(), **PARTS)

    assert window(day, "forecast.place.12").last < date(2026, 4, 3)
    assert why(day, "forecast.place.13") == "what is on order of brass cleat does not last so far"


@pytest.mark.parametrize("table", ["stock", "structure"])
def test_what_was_never_counted_or_told_limits_nothing(table: str) -> None:
    """With no count of any stock, or a structure without rows, windows are those of the line alone."""
    alone = window(day_of(AS_OF, orders=waiting(60), boxing=made()), "forecast.place.60")

    assert alone == window(day_of(AS_OF, orders=waiting(60), boxing=made(), **{**PARTS, table: []}), "forecast.place.60")


def test_a_part_that_comes_late_drives_the_end() -> None:
    """A delivery due on 4 May, ten days late as ever, holds the line up until then, and `why` says by how many days."""
    late = [
        {"purchase": f"PO-{n}", "part": "P-1", "quantity": "60", "due": f"2026-0{n % 2 + 1}-0{n + 1}", "state": "received",
         "ordered": "2025-12-01", "received": f"2026-0{n % 2 + 1}-{n + 11}"}
        for n in range(1, 9)
    ]
    coming = {"purchase": "PO-9", "part": "P-1", "quantity": "200", "due": "2026-05-04", "state": "confirmed"}
    day = day_of(AS_OF, orders=waiting(60), boxing=made(), supply=[*late, coming], **PARTS)
    cleared = window(day, "forecast.cleared")
    drivers = value(day, "forecast.why")
    days = value(day, "forecast.why.P-1")

    assert date(2026, 5, 21) <= cleared.first <= cleared.last <= date(2026, 6, 1)
    assert isinstance(drivers, tuple)
    assert drivers[0] == "brass cleat"
    assert isinstance(days, int)
    assert 35 <= days <= 55


def test_a_part_with_a_lead_time_can_be_had() -> None:
    """What is not on order comes after the lead time, counted from today."""
    parts = {**PARTS, "parts": [{"part": "P-1", "name": "brass cleat", "lead_days": "40"}]}
    found = window(day_of(AS_OF, orders=waiting(60), boxing=made(), **parts), "forecast.place.60")

    assert date(2026, 5, 6) < found.first < found.last < date(2026, 6, 20)


def test_the_plan_is_a_ceiling() -> None:
    """Where three a day are planned until the end of April, place 60 lies after that, or on its last days."""
    plan = [
        {"date": day.isoformat(), "model": "Heron 8", "units": "3"}
        for day in WORKDAYS.working_days(date(2026, 3, 30), date(2026, 4, 30))
    ]
    found = window(day_of(AS_OF, orders=waiting(60), boxing=made(), plan=plan), "forecast.place.60")

    assert date(2026, 4, 24) == found.first


def test_a_plan_that_begins_later_stops_nothing_before() -> None:
    """Where a plan of one a day begins in May, place 60, which six a day reach in April, comes as without the plan."""
    plan = [
        {"date": day.isoformat(), "model": "Heron 8", "units": "1"}
        for day in WORKDAYS.working_days(date(2026, 5, 4), date(2026, 6, 30))
    ]
    planned, free = (day_of(AS_OF, orders=waiting(200), boxing=made(), **tables) for tables in ({"plan": plan}, {}))

    assert window(free, "forecast.place.60") == window(planned, "forecast.place.60")
    assert window(planned, "forecast.place.170").first > date(2026, 5, 20) > window(free, "forecast.place.170").last


def test_units_for_stock_serve_no_order() -> None:
    """Of nine units a day, three for stock, six a day serve the queue; the month counts all nine."""
    boxing = [*made(6, purpose="order"), *made(3, purpose="stock")]
    day = day_of(AS_OF, orders=waiting(60), boxing=boxing)
    found = window(day, "forecast.place.60")
    month = value(day, "forecast.month")

    assert 9 <= working_days_to(found.first) <= working_days_to(found.last) <= 11
    assert isinstance(month, Range)
    assert month.low >= 20 * 9 + 16
    assert month.high <= 20 * 9 + 20


def test_models_share_the_line() -> None:
    """Two models, made four and two a day, are served at these rates; a queue that is done leaves the line to the other."""
    boxing = [*made(4), *made(2, model="Heron 12")]
    orders = [*waiting(40, placed="2025-06-01"), *(order(f"B-{n}", model="Heron 12", placed="2025-06-01") for n in range(1, 81))]
    day = day_of(AS_OF, orders=orders, boxing=boxing)
    first_queue, second_queue = (window(day, f'forecast.of["{model}"].cleared') for model in ("Heron 8", "Heron 12"))

    assert 9 <= working_days_to(first_queue.first) <= 10 <= working_days_to(first_queue.last) <= 12
    assert 18 <= working_days_to(second_queue.first) <= 20 <= working_days_to(second_queue.last) <= 22
    assert second_queue.last <= window(day, "forecast.cleared").last


def test_chances_are_shares_of_the_futures() -> None:
    """Nothing is cleared by tomorrow, everything within a year, and a month far above every other is the best for certain."""
    day = day_of(AS_OF, orders=waiting(60), boxing=[*made(6), *made(3, since="2026-03-02", model="Heron 12")])
    expected = [Fraction(0), Fraction(1), Fraction(1)]
    keys = ("chance_cleared_by.2026-03-30", "chance_cleared_by.2027-03-01", "chance_best_month")

    assert expected == [value(day, f"forecast.{key}") for key in keys]


def test_a_typo_elsewhere_moves_no_window() -> None:
    """Facts of the forecast are the same whatever the title of a defect says, and however often they are computed."""
    defect = {"defect": "D-1", "severity": "cosmetic", "opened": "2026-03-01", "state": "open"}
    keys = ("forecast.cleared", "forecast.month", "forecast.next_month", "forecast.new_order", "forecast.place.30")
    titles = ("stain", "stian", "stain")
    days = [day_of(AS_OF, orders=waiting(60), boxing=made(5), defects=[{**defect, "title": title}]) for title in titles]
    told = [[value(day, key) for key in keys] for day in days]

    assert told[0] == told[1] == told[2]


def test_windows_that_moved_are_counted() -> None:
    """Orders told a date more than seven days before the end of their window are counted, with the median of the days."""
    orders = [order("A-1", promised="2026-03-02"), order("A-2", promised="2026-03-30"), order("A-3"), order("A-4")]
    told = [{"order": "A-3", "told": "2026-01-05", "due": "2026-03-10", "kind": "order"}]
    day = day_of(AS_OF, orders=orders, boxing=made(), told=told)
    ends = [window(day, f"forecast.order.{number}").last for number in ("A-1", "A-3")]
    late = [(ends[0] - date(2026, 3, 2)).days, (ends[1] - date(2026, 3, 10)).days]
    found = find(day, "forecast.moved")

    assert value(day, "forecast.moved") == 2
    assert value(day, "forecast.moved_days") == Fraction(sum(late), 2)
    assert found.rows.counts()["told.csv"] == 1  # type: ignore[union-attr]


def test_a_day_without_scans_is_not_over() -> None:
    """On a working day on which nothing was scanned yet, the history ends the day before."""
    today = day_of("2026-03-30", orders=waiting(60), boxing=made())
    before = day_of(AS_OF, orders=waiting(60), boxing=made())
    expected = window(before, "forecast.place.60")
    found = window(today, "forecast.place.60")

    assert (expected.first, expected.last) <= (found.first, found.last)
    assert (found.last - expected.last).days <= 3


def test_stoppages_come_again() -> None:
    """Where the line stood still for three days now and then, the end of the window lies later than without stoppages."""
    closed = {date(2026, month, first + more) for month, first in ((1, 13), (2, 3), (2, 17), (3, 10)) for more in range(3)}
    boxing = [row for row in made() if date.fromisoformat(str(row["at"])[:10]) not in closed]
    day = day_of(AS_OF, orders=waiting(120), boxing=boxing)
    days = value(day, "forecast.why.stoppages")

    assert isinstance(days, int)
    assert days >= 3
