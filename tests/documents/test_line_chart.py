"""The line in a picture: where points, limits and bars stand."""

from datetime import date
from fractions import Fraction

from bulletin.documents.line_chart import HEIGHT, MARGIN, WEEKS_DRAWN, WIDTH, compared, line_chart
from bulletin.model import Basis, Fact, Output, OutputWeek
from tests.draft.test_evaluating import NoRows

GROUND = HEIGHT - MARGIN


def output(*rates: int, low: int = 2, centre: int = 5, high: int = 10) -> Output:
    """Weeks of so many units a working day, within limits that are given."""
    weeks = tuple(
        OutputWeek(date.fromordinal(738000 + 7 * at), Fraction(rate), not low <= rate <= high) for at, rate in enumerate(rates)
    )
    return Output(weeks, Fraction(low), Fraction(centre), Fraction(high))


def rate(key: str, value: Fraction) -> Fact:
    """Affected units a hundred."""
    return Fact(key, key, value, "unit a hundred units", Basis.RECORD, date(2026, 3, 27), "As told.", NoRows())


def test_weeks_stand_from_left_to_right_between_nothing_and_the_highest() -> None:
    """Zero lies on the ground, the highest of rates and limits at the top, limits at their own height."""
    chart = line_chart(output(0, 5, 20))

    assert [(point.x, point.y) for point in chart.points] == [(MARGIN, GROUND), (WIDTH / 2, 144.0), (WIDTH - MARGIN, MARGIN)]
    assert (chart.high, chart.centre, chart.low) == (100.0, 144.0, 170.4)
    assert chart.path == "12.0,188.0 300.0,144.0 588.0,12.0"


def test_weeks_outside_keep_their_mark() -> None:
    """Which weeks are unusual is told by the limits and not worked out again."""
    assert [point.week.outside for point in line_chart(output(1, 5, 11)).points] == [True, False, True]


def test_a_limit_below_nothing_is_not_drawn() -> None:
    """No count falls below zero, so that such a limit says nothing."""
    assert line_chart(output(3, 4, low=-2)).low is None


def test_a_year_is_drawn() -> None:
    """Of a longer history the newest weeks are shown."""
    chart = line_chart(output(*range(60), high=100))

    assert [chart.points[0].week.rate, len(chart.points)] == [60 - WEEKS_DRAWN, WEEKS_DRAWN]


def test_rates_without_and_with_a_change_share_a_scale() -> None:
    """The longest bar of all is the whole width; no affected unit at all gives bars of no length."""
    pair = (rate("changes.C-4.rate_before", Fraction(8)), rate("changes.C-4.rate", Fraction(2)))
    none = (rate("changes.C-5.rate_before", Fraction(0)), rate("changes.C-5.rate", Fraction(0)))

    assert [[bar.percent for bar in change.rates] for change in compared([pair, none])] == [[100, 25], [0, 0]]
    assert [change.name for change in compared([pair, none])] == ["C-4", "C-5"]
    assert [bar.percent for bar in compared([none])[0].rates] == [0, 0]
