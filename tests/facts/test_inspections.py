"""The `inspections` family, from small makers' tables."""

from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from bulletin.model import Basis, Fact, Name
from tests.facts.builders import Row, day_of, find, value, why

DAY = "2026-03-27"


def inspection(number: str, checked: int, failed: int, **columns: Any) -> Row:
    return {
        "inspection": number,
        "title": f"Pull test {number}",
        "checked": checked,
        "failed": failed,
        "at": "2026-03-20T10:00",
        **columns,
    }


def test_a_sample_speaks_of_its_units() -> None:
    """Counts and share are those of the units checked, on the basis of a sample."""
    day = day_of(DAY, inspections=[inspection("I-1", 200, 26)])
    expected = ([200, 26, Fraction(13, 100)], {Basis.SAMPLE}, 1)

    facts = [find(day, f"inspections.I-1.{key}") for key in ("checked", "failed", "share")]
    told = [fact for fact in facts if isinstance(fact, Fact)]
    actual = ([fact.value for fact in told], {fact.basis for fact in told}, told[2].decimals)

    assert expected == actual


def test_the_upper_limit_is_at_the_confidence_of_the_settings() -> None:
    """Hanley & Lippman-Hand (1983), computed with scipy: 0 of 50 is at most 5.8155 % at 95 %; at 90 %, 1 - 0.1^(1/50)."""
    none_failed = [inspection("I-1", 50, 0)]
    expected = [5.8155, 100 * (1 - 0.1 ** (1 / 50))]

    days = [day_of(DAY, inspections=none_failed), day_of(DAY, "[checks]\nconfidence = 0.90\n", inspections=none_failed)]
    actual = [
        100 * float(found.value) for found in (find(day, "inspections.I-1.upper") for day in days) if isinstance(found, Fact)
    ]  # type: ignore[arg-type]

    assert pytest.approx(expected, abs=5e-5) == actual


@pytest.mark.parametrize(
    ("checked", "failed", "accepted"),
    [(80, 2, True), (80, 3, False), (20, 3, False), (100, 2, True)],
)
def test_a_lot_is_accepted_by_its_plan(checked: int, failed: int, accepted: bool) -> None:
    """MIL-STD-105E (1989): a lot of 1000 at AQL 1.0 needs 80, and passes with at most 2."""
    day = day_of(DAY, inspections=[inspection("I-1", checked, failed, lot_size=1000, quality_limit="1.0")])
    expected = [80, 2, accepted]

    actual = [value(day, f"inspections.I-1.{key}") for key in ("needed", "accept_at_most", "accepted")]

    assert expected == actual


def test_too_small_a_sample_accepts_nothing() -> None:
    """A good sample of fewer units than the plan needs leaves it open; without a plan there is nothing to accept by."""
    rows = [
        inspection("I-1", 79, 0, lot_size=1000, quality_limit="1.0"),
        inspection("I-2", 80, 0),
        inspection("I-3", 80, 0, lot_size=1000, quality_limit="3"),
    ]
    day = day_of(DAY, inspections=rows)

    actual = why(day, "inspections.I-1.accepted")

    assert "80 units had to be checked, and only 79 were" == actual
    assert why(day, "inspections.I-2.needed") == why(day, "inspections.I-3.accepted")


def test_better_needs_more_than_fewer_failures() -> None:
    """Fisher's tea tasting (from memory): 1 of 4 against 3 of 4 is p = 17/70, no proof; 0 of 40 against 12 of 40 is one."""
    rows = [inspection("I-1", 4, 1), inspection("I-2", 4, 3), inspection("I-3", 40, 0), inspection("I-4", 40, 12)]
    day = day_of(DAY, inspections=rows)
    expected = [False, Fraction(17, 70), True, False]

    keys = ('I-1.better_than["I-2"]', 'I-1.better_than["I-2"].p', "I-3.better_than.I-4", "I-4.better_than.I-3")
    actual = [value(day, f"inspections.{key.replace('[', '.').replace(']', '').replace(chr(34), '')}") for key in keys]

    assert expected == actual


def test_an_unknown_other_is_no_comparison() -> None:
    """Better than something that is not there is neither yes nor no."""
    actual = why(day_of(DAY, inspections=[inspection("I-1", 4, 1)]), "inspections.I-1.better_than.I-9")

    assert "there is no inspection I-9" == actual


def test_an_inspection_of_a_later_day_is_not_known_yet() -> None:
    """What was checked after the day does not exist on it; columns are facts, the moment as its day."""
    day = day_of(DAY, inspections=[inspection("I-1", 4, 1, lot="L7"), inspection("I-2", 4, 1, at="2026-03-28T08:00")])

    actual = [value(day, f"inspections.I-1.{key}") for key in ("title", "lot", "at")]

    assert [Name("inspection", "I-1", "Pull test I-1"), "L7", date(2026, 3, 20)] == actual
    assert not isinstance(find(day, "inspections.I-2.failed"), Fact)
