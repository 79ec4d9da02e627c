"""The `plan` family, from small makers' tables."""

import pytest

from bulletin.model import Basis, Fact
from tests.facts.builders import Row, boxed, day_of, find, value, why

DAY = "2026-03-25"


def planned(date: str, units: int, model: str = "Heron 8") -> Row:
    return {"date": date, "model": model, "units": units}


def maker() -> dict[str, list[Row]]:
    """A plan from 23 March (a Monday) to 10 April, with nothing in the week of Easter Monday."""
    days = [("2026-03-23", 4), ("2026-03-29", 1), ("2026-03-30", 5), ("2026-04-01", 2), ("2026-04-15", 3)]
    scans = [boxed("H8-1", "2026-03-01"), boxed("H12-1", "2026-03-01", model="Heron 12")]
    return {"boxing": scans, "plan": [*(planned(*each) for each in days), planned("2026-03-30", 7, "Heron 12")]}


@pytest.mark.parametrize(
    ("key", "units"),
    [
        ("week", 5),
        ("next_week", 14),
        ("month", 17),
        ("next_month", 5),
        ("on.2026-03-30", 12),
        ("on.2026-03-31", 0),
        ("of.Heron 12.next_week", 7),
        ("of.Heron 12.week", 0),
    ],
)
def test_planned_units_of_whole_periods(key: str, units: int) -> None:
    """Weeks and months are whole ones, days behind the as-of date included; a plan is a plan."""
    found = find(day_of(DAY, **maker()), f"plan.{key}")

    assert isinstance(found, Fact)
    assert (units, Basis.PLAN) == (found.value, found.basis)


def test_a_week_that_the_plan_leaves_out_has_no_units() -> None:
    """Nothing stands in the plan for the week of Easter Monday, and it goes on after that: nothing is planned."""
    assert 0 == value(day_of("2026-04-01", **maker()), "plan.next_week")


def test_a_plan_says_nothing_beyond_its_last_day() -> None:
    """A period after the plan's end is not planned at nothing, it is not planned yet."""
    day = day_of("2026-04-15", **maker())

    actual = [why(day, f"plan.{key}") for key in ("next_week", "next_month", "on.2026-05-04")]

    assert [
        f"plan.csv says nothing of {days}" for days in ("2026-04-20 to 2026-04-26", "2026-05-01 to 2026-05-31", "2026-05-04")
    ] == actual


def test_an_empty_plan_says_nothing() -> None:
    """A plan without a row has no week."""
    assert "plan.csv says nothing of 2026-03-23 to 2026-03-29" == why(day_of(DAY, plan=[]), "plan.week")
