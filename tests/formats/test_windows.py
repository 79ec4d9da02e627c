"""Windows in words: days for near ones, parts of months for far ones, and the reader of figures knows them again."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from bulletin.formats.figures import Figure
from bulletin.formats.locales import locale_of
from bulletin.formats.reading import find_figures
from bulletin.formats.rounding import agrees
from bulletin.formats.vocabulary import load
from bulletin.formats.windows import Use, is_ahead, is_far, part_of_month, window_pieces
from bulletin.model import Basis, Fact, Window
from tests.formats.builders import AS_OF, fact

LOCALES = ["en", "de", "fr", "es", "ja", "pl", "ar"]
SPRING = Window(date(2026, 5, 4), date(2026, 6, 19))
NEW_YEAR = Window(date(2026, 11, 21), date(2027, 1, 31))
WITHIN_A_MONTH = Window(date(2026, 8, 1), date(2026, 8, 20))
BEGUN_FAR = Window(date(2026, 3, 2), date(2026, 7, 31))
BEGUN_NEAR = Window(AS_OF, date(2026, 4, 10))
ONE_DAY = Window(date(2026, 4, 1), date(2026, 4, 1))
TWO_MONTHS = Window(date(2026, 4, 30), date(2026, 5, 3))
WINDOWS = [SPRING, NEW_YEAR, WITHIN_A_MONTH, BEGUN_FAR, BEGUN_NEAR, ONE_DAY, TWO_MONTHS]


def told(window: Window, locale: str, use: Use = "printed", as_of: date = AS_OF) -> str:
    """A window in words."""
    return "".join(piece.text for piece in window_pieces(window, as_of, locale_of(locale), use))


def forecast(window: Window) -> Fact:
    """A window as a fact."""
    return replace(fact(window, "window"), basis=Basis.FORECAST)


def first_day_of(figure: Figure, window: Window) -> int:
    """The first day of the month that the beginning of a window's words means."""
    third = figure.day and figure.day.third
    return (third - 1) * 10 + 1 if third else window.first.day


@pytest.mark.parametrize(
    ("locale", "within_a_year", "across_years"),
    [
        ("en", "early May to mid-June 2026", "late November 2026 to late January 2027"),
        ("de", "Anfang Mai bis Mitte Juni 2026", "Ende November 2026 bis Ende Januar 2027"),
        ("fr", "début mai à mi-juin 2026", "fin novembre 2026 à fin janvier 2027"),
        ("es", "principios de mayo a mediados de junio de 2026", "finales de noviembre de 2026 a finales de enero de 2027"),
        ("ja", "2026年5月上旬～6月中旬", "2026年11月下旬～2027年1月下旬"),
        ("pl", "między początkiem maja a połową czerwca 2026", "między końcem listopada 2026 a końcem stycznia 2027"),
        ("ar", "من أوائل مايو إلى منتصف يونيو 2026", "من أواخر نوفمبر 2026 إلى أواخر يناير 2027"),
    ],
)
def test_far_windows_are_told_in_parts_of_months(locale: str, within_a_year: str, across_years: str) -> None:
    """Common practice of each language, no source; the year stands once where both ends have the same, and is never lost."""
    assert within_a_year == told(SPRING, locale)
    assert across_years == told(NEW_YEAR, locale)


@pytest.mark.parametrize(
    ("locale", "far", "near", "one_day", "begun", "begun_far"),
    [
        (
            "en", "between early May and mid-June 2026", "between April 30, 2026 and May 3, 2026", "around April 1, 2026",
            "by April 10, 2026 at the latest", "by late July 2026 at the latest",
        ),
        (
            "de", "zwischen Anfang Mai und Mitte Juni 2026", "zwischen dem 30. April 2026 und dem 3. Mai 2026",
            "um den 1. April 2026", "bis spätestens zum 10. April 2026", "bis spätestens Ende Juli 2026",
        ),
        (
            "fr", "entre début mai et mi-juin 2026", "entre le 30 avril 2026 et le 3 mai 2026", "vers le 1 avril 2026",
            "au plus tard le 10 avril 2026", "au plus tard fin juillet 2026",
        ),
        (
            "es", "entre principios de mayo y mediados de junio de 2026", "entre el 30 de abril de 2026 y el 3 de mayo de 2026",
            "hacia el 1 de abril de 2026", "a más tardar el 10 de abril de 2026", "a más tardar a finales de julio de 2026",
        ),
        (
            "ja", "2026年5月上旬から6月中旬の間", "2026年4月30日から2026年5月3日の間", "2026年4月1日頃",
            "遅くとも2026年4月10日まで", "遅くとも2026年7月下旬まで",
        ),
        (
            "pl", "między początkiem maja a połową czerwca 2026", "między 30 kwietnia 2026 a 3 maja 2026",
            "około 1 kwietnia 2026", "najpóźniej do 10 kwietnia 2026", "najpóźniej do końca lipca 2026",
        ),
        (
            "ar", "بين أوائل مايو ومنتصف يونيو 2026", "بين 30 أبريل 2026 و3 مايو 2026", "في حدود 1 أبريل 2026",
            "في موعد أقصاه 10 أبريل 2026", "في موعد أقصاه أواخر يوليو 2026",
        ),
    ],
)  # fmt: skip
def test_windows_within_sentences(locale: str, far: str, near: str, one_day: str, begun: str, begun_far: str) -> None:
    """Between two ends, around one day, or by the end where the first day has come: each as the language's grammar has it."""
    expected = (far, near, one_day, begun, begun_far)

    assert expected == tuple(told(each, locale, "between") for each in (SPRING, TWO_MONTHS, ONE_DAY, BEGUN_NEAR, BEGUN_FAR))


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("window", WINDOWS)
@pytest.mark.parametrize("use", ["printed", "between"])
def test_the_reader_of_figures_knows_its_own_words_again(locale: str, window: Window, use: Use) -> None:
    """Every figure in a window's words is a date and agrees with the window; a window half a year later agrees with none."""
    later = Window(*(day + timedelta(days=183) for day in window))
    figures = find_figures(told(window, locale, use), locale)

    assert {"date"} == {figure.kind for figure in figures}
    assert all(agrees(figure, forecast(window)) for figure in figures)
    assert not any(agrees(figure, forecast(later)) for figure in figures)


@pytest.mark.parametrize(
    ("words", "locale", "expected"),
    [
        ("early May to mid May", "en", [True, True]),
        ("from Mid-May", "en", [True]),
        ("in early May, may we say", "en", [True]),
        ("late May", "en", [False]),
        ("early June", "en", [False]),
        ("by late May", "en", [True]),
        ("Anfang bis Mitte Mai", "de", [True]),
        ("Ende Mai", "de", [False]),
        ("bis Ende Mai", "de", [True]),
        ("fin mai", "fr", [False]),
        ("d’ici fin mai", "fr", [True]),
        ("finales de mayo", "es", [False]),
        ("antes de finales de mayo", "es", [True]),
        ("5月下旬", "ja", [False]),
        ("5月下旬まで", "ja", [True]),
        ("5月初旬", "ja", [True]),
        ("pod koniec maja", "pl", [False]),
        ("na początku maja", "pl", [True]),
        ("أواخر مايو", "ar", [False]),
        ("حتى أواخر مايو", "ar", [True]),
    ],
)
def test_parts_of_months_in_prose(words: str, locale: str, expected: list[bool]) -> None:
    """A part of a month is that part alone; behind words like "by" every day up to it is meant."""
    window = forecast(Window(date(2026, 5, 4), date(2026, 5, 15)))

    assert expected == [agrees(figure, window) for figure in find_figures(words, locale)]


@pytest.mark.parametrize(
    ("first", "last", "expected"),
    [
        (date(2026, 5, 1), date(2026, 5, 22), False),
        (date(2026, 5, 1), date(2026, 5, 23), True),
        (date(2026, 5, 10), date(2026, 5, 23), False),
        (date(2026, 3, 31), date(2026, 8, 1), False),
        (date(2026, 4, 1), date(2026, 8, 1), True),
        (date(2026, 3, 27), date(2026, 8, 1), True),
    ],
)
def test_where_far_begins(first: date, last: date, expected: bool) -> None:
    """More than eight weeks off, two weeks wide, and in a part of a month that has not begun, or with its end alone told."""
    assert expected == is_far(Window(first, last), AS_OF)


@pytest.mark.parametrize("locale", LOCALES)
def test_parts_of_months_take_in_every_day(locale: str) -> None:
    """The 10th, 11th, 20th, 21st and the last day of each month of a leap year fall in the part that the words name."""
    for day in (date(2028, 1, 1) + timedelta(days=n) for n in range(366)):
        (figure,) = find_figures(part_of_month(day, locale_of(locale)), locale)

        assert agrees(figure, fact(day, "date")), day


def test_words_for_far_windows_are_never_narrower_than_the_window_nor_past() -> None:
    """The part an end is told by holds it, and a part that has begun is not told as still to come."""
    for offset in range(1, 400, 3):
        window = Window(AS_OF + timedelta(days=offset), AS_OF + timedelta(days=offset + 40))
        figures = find_figures(told(window, "en"), "en")

        assert all(agrees(figure, forecast(window)) for figure in figures)
        assert window.first.replace(day=first_day_of(figures[0], window)) > AS_OF


def test_a_window_that_is_over_is_not_ahead() -> None:
    """Its last day is the last one on which any of it is to come."""
    assert is_ahead(Window(AS_OF, AS_OF), AS_OF)
    assert not is_ahead(Window(AS_OF - timedelta(days=9), AS_OF - timedelta(days=1)), AS_OF)


def test_languages_without_words_have_cldr_signs() -> None:
    """Portuguese has no word list here: whole days, and CLDR's signs for about and at most, so that no date stands bare."""
    assert "4 de maio – 19 de junho de 2026" == told(SPRING, "pt").replace("\u2009", " ")
    assert "~1 de abril de 2026" == told(ONE_DAY, "pt")
    assert "≤10 de abril de 2026" == told(BEGUN_NEAR, "pt")


@pytest.mark.parametrize("locale", LOCALES)
def test_every_language_has_all_the_words(locale: str) -> None:
    """A word list without one of them would tell windows half in words."""
    words = load(locale)

    assert {"early", "mid", "late", "year", "printed", "between", "around", "by"} <= set(words["windows"])
    assert {"early", "mid", "late", "upto"} == set(words["month_parts"])
