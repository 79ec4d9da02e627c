"""What the evidence draws: the same weeks, limits and rates as the facts tell."""

from fractions import Fraction

from bulletin.facts.book import facts_of
from bulletin.facts.output import changed_rates, output_of
from bulletin.facts.statistics.individuals import REACH
from tests.facts.builders import boxed, day_of, value
from tests.facts.test_changes import DAY, change, maker


def test_the_chart_holds_the_weeks_that_the_fact_is_read_from() -> None:
    """Seven weeks of five units and one of thirty: the mean, its limits, and the one week outside them."""
    scans = [
        boxed(f"H-{week}-{number}", f"2026-0{1 + (4 + 7 * week) // 31}-{1 + (4 + 7 * week) % 31:02}")
        for week in range(8)
        for number in range(30 if week == 6 else 5)
    ]
    day = day_of("2026-03-02", boxing=scans)
    output = output_of(day)

    assert output is not None
    assert [week.rate for week in output.weeks] == [1, 1, 1, 1, 1, 1, 6, 1]
    assert output.centre == Fraction(13, 8)
    assert (output.centre - output.low, output.high - output.centre) == (REACH * Fraction(10, 7), REACH * Fraction(10, 7))
    assert tuple(f"{week.first:%G-W%V}" for week in output.weeks if week.outside) == value(day, "boxed.unusual")


def test_a_single_week_has_no_chart() -> None:
    """Scatter needs two weeks."""
    assert output_of(day_of("2026-01-12", boxing=[boxed("H-1", "2026-01-05")])) is None


def test_changes_with_both_rates_are_drawn() -> None:
    """A change without units on one side of it has nothing to compare, and no table no changes."""
    rows = [change(from_serial="H8-61", defect="D-1"), change("C-2", from_serial="H8-900", defect="D-1")]
    book = facts_of(day_of(DAY, **maker(rows, touched=(*range(1, 13), 70))))
    bare = facts_of(day_of(DAY, boxing=[boxed("H8-1", "2026-03-02")]))

    assert [(before.value, after.value) for before, after in changed_rates(book)] == [(Fraction(20), Fraction(2))]
    assert changed_rates(bare) == ()
