"""What rounding words admit (design, section 5): the table of the trade-off between plain words and exact records."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest

from bulletin.formats.printing import Format
from bulletin.formats.reading import find_figures
from bulletin.formats.rounding import Measured, agrees
from bulletin.formats.told_days import Today
from bulletin.model import Money, Name, Names, Range, Value, Window
from tests.formats.builders import AS_OF, fact, only

TODAY = Today(AS_OF)

EUR = Money((("EUR", Decimal("12.50")),))
BOTH = Money((("EUR", Decimal("12.50")), ("USD", Decimal("14.00"))))
WINDOW = Window(date(2026, 4, 14), date(2026, 4, 24))
TELLS: dict[str, str] = {"share": "share", "fraction": "share", "multiple": "ratio", "money": "money", "ordinal": "date"}
"""The unit of what a figure of some kind tells; units of product for any other."""


def told(text: str, value: Value, unit: str = "", today: Today | None = TODAY) -> bool:
    """Whether the one figure of a text agrees with a value, of the unit that such figures tell unless another is given."""
    figure = only(text)
    return agrees(figure, Measured(value, unit or TELLS.get(figure.kind, "unit")), today)


@pytest.mark.parametrize(
    ("text", "value", "expected"),
    [
        ("1,300", 1300, True), ("1,300", 1301, False), ("2.5", Fraction(5, 2), True), ("2.5", Fraction(254, 100), True),
        ("2.5", Fraction(255, 100), False),
        ("3", Fraction(5, 2), True), ("2", Fraction(5, 2), False), ("0", 0, True), ("0", Fraction(1, 100), False),
        ("1.3 million", 1_312_450, True),
        ("1.3 million", 1_350_000, False), ("forty-one", 41, True), ("41", True, False), ("a dozen", 12, True),
        ("a dozen", 13, False),
        ("45%", Fraction(45, 100), True), ("45%", Fraction(4549, 10000), True), ("45%", Fraction(455, 1000), False),
        ("45.0%", Fraction(4504, 10000), True),
        ("100%", 1, True), ("100%", Fraction(9999, 10000), False), ("0%", Fraction(1, 10000), False), ("0%", 0, True),
        ("45%", 45, False),
        ("about 1,300", 1250, True), ("about 1,300", 1350, True), ("about 1,300", 1249, False), ("about 1,300", 1351, False),
        ("about 1,000", 950, True), ("about 1,000", 949, False), ("about 12", 13, False), ("about 12", Fraction(25, 2), True),
        ("about 20", 21, True),
        ("about 20", 22, False), ("about 45%", Fraction(455, 1000), True), ("about 45%", Fraction(46, 100), False),
        ("about 1.3 million", 1_340_000, True),
        ("nearly 1,300", 1299, True), ("nearly 1,300", 1235, True), ("nearly 1,300", 1234, False),
        ("nearly 1,300", 1300, False),
        ("almost 100%", Fraction(99, 100), True), ("almost 100%", 1, False), ("just under 200", 198, True),
        ("just under 200", 201, False),
        ("more than 1,300", 1301, True), ("more than 1,300", 1300, False), ("over 1,300", 90_000, True),
        ("well over 1,300", 1300, False),
        ("at least 40", 40, True), ("at least 40", 39, False), ("under 40", 39, True), ("under 40", 40, False),
        ("at most 40", 40, True),
        ("at most 40", 41, False), ("40 or more", 40, True), ("fewer than 40", 40, False),
        ("half", Fraction(51, 100), True), ("half", Fraction(49, 100), True), ("half", Fraction(512, 1000), False),
        ("a third", Fraction(1, 3), True),
        ("a third", Fraction(343, 1000), True), ("a third", Fraction(35, 100), False), ("two thirds", Fraction(66, 100), True),
        ("more than half", Fraction(1, 2), False),
        ("more than half", Fraction(51, 100), True), ("nearly half", Fraction(48, 100), True),
        ("nearly half", Fraction(47, 100), False),
        ("twice", 2, True), ("twice", Fraction(203, 100), True), ("twice", Fraction(24, 10), False), ("three times", 3, True),
        ("dozens", 24, True), ("dozens", 99, True), ("dozens", 23, False), ("dozens", 100, False), ("hundreds", 200, True),
        ("hundreds", 199, False),
        ("thousands", 9999, True), ("thousands", 10_000, False),
        ("€12.50", EUR, True), ("€12.49", EUR, False), ("12.50", EUR, False), ("$12.50", EUR, False), ("€13", EUR, True),
        ("over €12", EUR, True),
        ("$14", BOTH, True), ("14.00", BOTH, False), ("€12.50", Fraction(25, 2), False), ("12", "12", False),
        ("12", Name("part", "12", "12"), False),
        ("120", Range(120, 150), True), ("150", Range(120, 150), True), ("130", Range(120, 150), False),
        ("the 5th", date(2026, 3, 5), True),
    ],
)  # fmt: skip
def test_figures_agree_within_what_their_words_admit(text: str, value: Value, expected: bool) -> None:
    """Every bound of the paragraph on rounding words, from both sides."""
    assert expected == told(text, value)


@pytest.mark.parametrize(
    ("text", "value", "expected"),
    [
        ("21 days", 21, True), ("three weeks", 21, True), ("three weeks", 20, True), ("three weeks", 25, False),
        ("three weeks", 3, False),
        ("about three weeks", 22, True), ("more than three weeks", 22, True), ("two months", 61, True),
        ("two months", 80, False), ("for a month", 28, False), ("in a week", 10, False), ("ten weeks", 72, True),
        ("1.5 years", 548, False), ("in a year", 365, False), ("three days", Fraction(5, 2), True),
        ("20 working days", 20, False), ("under a week", 6, True), ("48 hours", 2, True),
    ],
)  # fmt: skip
def test_days_may_be_told_in_weeks_or_months(text: str, value: int, expected: bool) -> None:
    """A duration is a fact in calendar days, whatever unit the words choose, as long as 5 % hold it; years never do."""
    assert expected == told(text, value, "day")


@pytest.mark.parametrize(
    ("text", "value", "expected"),
    [
        ("April 14, 2026", date(2026, 4, 14), True), ("April 14", date(2026, 4, 14), True),
        ("April 14, 2025", date(2026, 4, 14), False),
        ("April", date(2026, 4, 14), True), ("in May", date(2026, 4, 14), False), ("in 2026", date(2026, 4, 14), True),
        ("Tuesday", date(2026, 4, 14), True),
        ("Friday", date(2026, 4, 14), False), ("week 16", date(2026, 4, 14), True), ("Q2", date(2026, 4, 14), True),
        ("Q1", date(2026, 4, 14), False),
        ("today", AS_OF, True), ("tomorrow", date(2026, 3, 28), True), ("next week", date(2026, 4, 5), True),
        ("next week", date(2026, 4, 6), False),
        ("this week", date(2026, 3, 23), True), ("next month", date(2026, 4, 1), True),
        ("last year", date(2025, 12, 31), True), ("next quarter", date(2026, 6, 30), True),
        ("three weeks", date(2026, 4, 17), True), ("three weeks", date(2026, 5, 17), False), ("April 14", WINDOW, True),
        ("April 24", WINDOW, True),
        ("April 20", WINDOW, False), ("14:30", AS_OF, False), ("April 14", 14, False), ("three", date(2026, 3, 3), False),
    ],
)  # fmt: skip
def test_dates_agree_in_all_that_they_say(text: str, value: Value, expected: bool) -> None:
    """A part that is not said is free; words counted from today are counted from the as-of date; a window is told by its ends."""
    assert expected == told(text, value)


@pytest.mark.parametrize("text", ["tomorrow", "next week", "three weeks"])
def test_without_an_as_of_date_nothing_is_counted_from_it(text: str) -> None:
    """Relative words agree with nothing then."""
    assert not told(text, date(2026, 3, 28), today=None)


def test_a_need_that_is_shown_rounded_up_may_be_told_so() -> None:
    """11.1 parts print as 12, so 12 in words agrees; so does the plain rounding, 11; kits on the shelf are rounded down."""
    need, stock = fact(Fraction(111, 10), "part", rounding="up"), fact(Fraction(119, 10), "kit", rounding="down")

    assert [True, True, False] == [agrees(only(text), need) for text in ("12 parts", "11", "13")]
    assert [True, True, False] == [agrees(only(text), stock) for text in ("12", "11 kits", "10")]


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("eight weeks", 56, "unit"), ("56 days", 56, "unit"), ("48 hours", 2, "unit"), ("48 hours", 48, "order"),
        ("20 days", 20, "working day"), ("20 working days", 20, "day"), ("four weeks", 20, "working day"),
        ("in 3 working days", date(2026, 3, 30), "date"),
        ("doubled", 2, "unit"), ("twice", 2, "order"), ("tripled", 3, "defect"), ("three times", 3, "unit"),
        ("the 2nd", 2, "unit"), ("the 53rd", 53, "unit"),
        ("45%", Fraction(45, 100), "unit a working day"), ("100%", 1, "unit"), ("half", Fraction(1, 2), "day"),
        ("one part", Fraction(1), "share"), ("1,250", Money((("EUR", Decimal(1250)),)), "money"), ("€41", 41, "unit"),
        ("dozens", Money((("EUR", Decimal(30)),)), "money"), ("dozens", date(2026, 3, 30), "date"),
    ],
)  # fmt: skip
def test_equal_numbers_of_different_things_do_not_agree(text: str, value: Value, unit: str) -> None:
    """Weeks are no looms, a doubling is not two of them, working days are no calendar days, money is no count."""
    assert not told(text, value, unit)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("20 working days", 20, "working day"), ("20", 20, "working day"), ("56", 56, "day"), ("doubled", Fraction(2), "ratio"),
        ("half", Fraction(1, 2), "ratio"), ("1.5", Fraction(3, 2), "ratio"), ("0.45", Fraction(45, 100), "share"),
        ("2.1%", Fraction(21, 10), "unit a hundred units"), ("€12.50", BOTH, "money"), ("dozens", 30, "order"),
    ],
)  # fmt: skip
def test_equal_numbers_of_one_thing_agree(text: str, value: Value, unit: str) -> None:
    """Working days are told in working days, ratios by multiples, fractions and numbers, rates by the hundred in per cent."""
    assert told(text, value, unit)


@pytest.mark.parametrize(
    ("text", "day", "expected"),
    [
        ("2026-W01", date(2025, 12, 29), True), ("2026-W01", date(2026, 1, 4), True), ("2025-W01", date(2025, 12, 29), False),
        ("2026-W53", date(2027, 1, 3), True), ("2027-W53", date(2027, 1, 3), False),
    ],
)  # fmt: skip
def test_the_year_of_a_week_is_that_of_iso_8601(text: str, day: date, expected: bool) -> None:
    """Python's isocalendar: 2025-12-29 lies in 2026-W01, 2027-01-03 in 2026-W53."""
    assert expected == told(text, day)


@pytest.mark.parametrize(("week_start", "expected"), [(0, [False, True, True]), (6, [True, True, False])])
def test_next_week_begins_as_the_maker_s_weeks_do(week_start: int, expected: list[bool]) -> None:
    """From Friday 27 March: Sunday 29 March is next week where weeks begin on Sundays, Sunday 5 April where on Mondays."""
    days = (date(2026, 3, 29), date(2026, 4, 1), date(2026, 4, 5))

    assert expected == [told("next week", day, today=Today(AS_OF, week_start)) for day in days]


@pytest.mark.parametrize(
    ("locale", "text"), [("de", "rund 1.300"), ("fr", "environ 1 300"), ("es", "unos 1300"), ("ja", "約1,300台")]
)
def test_rounding_is_the_same_in_each_language(locale: str, text: str) -> None:
    """About 1,300 is 1,250 to 1,350 everywhere."""
    figure = only(text, locale)

    assert [False, True, True, False] == [agrees(figure, fact(value)) for value in (1249, 1250, 1350, 1351)]


@pytest.mark.parametrize("locale", ["en", "en-GB", "de", "fr", "es", "ja", "pl", "ar", "pt-BR"])
@pytest.mark.parametrize(
    ("value", "unit", "decimals"),
    [
        (1300, "unit", 0),
        (Fraction(7, 3), "unit a working day", 1),
        (Fraction(9996, 10000), "share", 1),
        (Fraction(1), "share", 1),
        (Fraction(111, 10), "part", 0),
        (Money((("EUR", Decimal("1234.50")), ("JPY", Decimal("12346")), ("USD", Decimal("0.05")))), "money", 0),
        (Money((("KWD", Decimal("3.500")),)), "money", 0),
        (date(2026, 3, 5), "date", 0),
        (WINDOW, "window", 0),
        (Window(date(2026, 3, 30), date(2026, 4, 2)), "window", 0),
        (Window(date(2026, 12, 30), date(2027, 1, 2)), "window", 0),
        (Range(120, 1500), "unit", 0),
    ],
)
def test_what_a_fact_prints_agrees_with_it(locale: str, value: Value, unit: str, decimals: int) -> None:
    """Every figure that documents print is read again and agrees with its fact."""
    printed = fact(value, unit, decimals)

    figures = find_figures(Format(locale, Names()).figure(printed), locale)

    assert [] != figures
    assert [] == [figure.text for figure in figures if not agrees(figure, printed)]
