"""Figures found in prose, in every language that is read."""

import time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bulletin.formats.figures import Day, Figure
from bulletin.formats.printing import Format
from bulletin.formats.reading import find_figures
from bulletin.model import Names
from tests.formats.builders import fact, only

NO_BREAK, NARROW = "\u00a0", "\u202f"


@pytest.mark.parametrize(
    ("locale", "text", "value", "decimals"),
    [
        ("en", "1,300", "1300", 0), ("en", "1300", "1300", 0), ("en", "1,234,567.89", "1234567.89", 2), ("en", "2.50",
        "2.5", 2),
        ("en", f"1{NARROW}300", "1300", 0), ("en", "1\u200b300", "1300", 0), ("en", "1.3 million", "1300000", -5),
        ("en", "12k", "12000", -3), ("en", "-5", "-5", 0), ("en", "−5", "-5", 0), ("en", "2½", "2.5", 2), ("en", "１３", "13", 0),
        ("de", "1.300", "1300", 0), ("de", "1.234.567,89", "1234567.89", 2), ("de", f"1{NO_BREAK}300", "1300", 0),
        ("de", "1,3 Millionen", "1300000", -5), ("de", "1’300", "1300", 0),
        ("fr", f"1{NARROW}300", "1300", 0), ("fr", f"1{NO_BREAK}300,5", "1300.5", 1), ("fr", "1 300", "1300", 0),
        ("es", "1300", "1300", 0), ("es", "1.300", "1300", 0), ("pl", f"1{NO_BREAK}300", "1300", 0), ("pl", "1300", "1300", 0),
        ("ja", "1,300", "1300", 0), ("ja", "1万2千", "12000", -3), ("ja", "1.3万", "13000", -3), ("ar", "١٬٣٠٠", "1300", 0),
        ("ar", "1,300", "1300", 0),
        ("en", "1.300,50", "1300.5", 2),
    ],
)  # fmt: skip
def test_digits_are_read_as_the_locale_writes_them(locale: str, text: str, value: str, decimals: int) -> None:
    """Grouping and decimal signs of CLDR, spaces that nobody sees, scales; what only another locale writes is read as there."""
    figure = only(f"({text})", locale)

    assert ("number", Fraction(value), decimals) == (figure.kind, figure.value, figure.decimals)
    assert text == figure.text


@pytest.mark.parametrize(
    ("locale", "text", "value"),
    [
        ("en", "forty-seven", 47), ("en", "Twenty-one", 21), ("en", "one hundred and three", 103), ("en",
        "two thousand five hundred", 2500),
        ("en", "a dozen", 12), ("en", "two dozen", 24), ("en", "half a dozen", 6), ("en", "zero", 0),
        ("de", "siebenundachtzig", 87), ("de", "zweitausenddreihundert", 2300), ("de", "dreißig", 30), ("de", "dreissig", 30),
        ("de", "ein Dutzend", 12), ("fr", "quatre-vingt-sept", 87), ("fr", "mille trois cent cinq", 1305), ("fr",
        "vingt et un", 21),
        ("fr", "une douzaine", 12), ("es", "ochenta y siete", 87), ("es", "veintiún", 21), ("es", "dos mil", 2000), ("es",
        "media docena", 6),
        ("ja", "十二台", 12), ("ja", "三百二十件", 320),
    ],
)  # fmt: skip
def test_number_words_are_figures(locale: str, text: str, value: int) -> None:
    """Cardinals in words, a dozen among them."""
    figure = only(text, locale)

    assert ("number", value, True) == (figure.kind, figure.value, figure.spelled)


@pytest.mark.parametrize(
    ("locale", "text", "values"),
    [
        ("en", "87looms", [87]), ("en", "87pcs", [87]), ("en", "1,300orders", [1300]), ("de", "87Stück", [87]),
        ("fr", "87pièces", [87]), ("en", "1,1,1", [1, 1, 1]), ("en", "1,300,50", [1, 300, 50]), ("de", "3fach", [3]),
        ("en", "802ac, 7a6a51d, 5faa6b2", []),
    ],
)  # fmt: skip
def test_figures_do_not_hide_behind_what_touches_them(locale: str, text: str, values: list[int]) -> None:
    """A whole word behind digits counts; a letter or two, or letters between digits, make a code."""
    assert values == [figure.value for figure in find_figures(text, locale)]


@pytest.mark.parametrize(
    ("locale", "text"),
    [
        ("en", "one of you"), ("en", "no one, and every one of you"), ("en", "at first, one day, one by one"), ("en",
        "we may march on"),
        ("en", "Heron 12 and Route 66"), ("en", "the A4 sheet, drawing D-12, 3D, v1.2.3"), ("en",
        "see https://fennmoor.example/2026/13"),
        ("en", "a loom and another"), ("en", "Second to none, a second thought"), ("de",
        "ein Webstuhl und eine Bank, einer von euch"),
        ("de", "zum ersten Mal"), ("fr", "un métier neuf, une fois pour toutes"), ("es", "un telar y una mesa"), ("ja",
        "一番の織機、一緒に"),
    ],
)  # fmt: skip
def test_words_that_only_look_like_figures_are_none(locale: str, text: str) -> None:
    """Articles, idioms, names, codes and addresses claim nothing."""
    assert [] == find_figures(text, locale, frozenset({"Heron 12", "Route 66"}))


@pytest.mark.parametrize(
    ("locale", "text", "value", "decimals"),
    [
        ("en", "45%", "0.45", 0), ("en", "45 %", "0.45", 0), ("en", "45 percent", "0.45", 0), ("en", "12.5 per cent",
        "0.125", 1),
        ("en", "forty-five percent", "0.45", 0), ("de", f"45{NO_BREAK}%", "0.45", 0), ("de", "45 Prozent", "0.45", 0),
        ("fr", f"45{NARROW}%", "0.45", 0), ("fr", "45 pour cent", "0.45", 0), ("es", "45 por ciento", "0.45", 0), ("ja", "45％",
        "0.45", 0),
        ("ja", "3割", "0.3", -1), ("pl", "45%", "0.45", 0), ("ar", "٤٥٪", "0.45", 0), ("en", "100%", "1", 0),
    ],
)  # fmt: skip
def test_percentages_are_shares_of_one(locale: str, text: str, value: str, decimals: int) -> None:
    """With their typed decimals of percent."""
    figure = only(text, locale)

    assert ("share", Fraction(value), decimals, text) == (figure.kind, figure.value, figure.decimals, figure.text)


@pytest.mark.parametrize(
    ("locale", "text", "value", "currency"),
    [
        ("en", "€12.50", "12.5", "EUR"), ("en", "US$15", "15", "USD"), ("en", "EUR 12.50", "12.5", "EUR"), ("en",
        "$1.5 million", "1500000", "USD"),
        ("en", "twelve euros", "12", "EUR"), ("de", "12,50 €", "12.5", "EUR"), ("fr", f"1{NARROW}234,50{NO_BREAK}€", "1234.5",
        "EUR"),
        ("ja", "￥12,346", "12346", "JPY"), ("ja", "500円", "500", "JPY"), ("pl", "12,50 zł", "12.5", "PLN"),
        ("en", f"KWD{NO_BREAK}3.500", "3.5", "KWD"), ("en", "EUR1200", "1200", "EUR"), ("en", "1200EUR", "1200", "EUR"),
        ("en", "TRY 87", "87", "TRY"), ("en", "87 DEM", "87", "DEM"), ("de", "12 eur", "12", "EUR"),
    ],
)  # fmt: skip
def test_amounts_have_their_currency(locale: str, text: str, value: str, currency: str) -> None:
    """Signs, codes and words, before the amount or behind."""
    figure = only(text, locale)

    assert ("money", Fraction(value), currency, text) == (figure.kind, figure.value, figure.currency, figure.text)


@pytest.mark.parametrize("text", ["Try 87", "try 87", "87 try", "87 all", "30 mad", "10 top"])
def test_a_word_that_is_also_a_code_is_no_money(text: str) -> None:
    """Codes of currencies stand in capitals (TRY, ALL, MAD, TOP); in other letters they are words."""
    assert "number" == only(text).kind


def test_a_bare_dollar_may_be_several() -> None:
    """A sign that countries share names all their currencies."""
    assert {"USD", "CAD", "AUD"} <= set(only("$5").currencies)


@pytest.mark.parametrize(
    ("locale", "text", "day"),
    [
        ("en", "March 5, 2026", Day(2026, 3, 5)), ("en", "5 March 2026", Day(2026, 3, 5)), ("en", "March 5", Day(None, 3, 5)),
        ("en", "5th of May", Day(None, 5, 5)), ("en", "Sept. 5", Day(None, 9, 5)), ("en", "2026-03-05", Day(2026, 3, 5)),
        ("en", "3/5/2026", Day(2026, 3, 5)),
        ("en-GB", "5/3/2026", Day(2026, 3, 5)), ("en", "April", Day(month=4)), ("en", "March 2026", Day(2026, 3)), ("en",
        "Friday", Day(weekday=4)),
        ("en", "week 13", Day(week=13)), ("en", "Q2 2026", Day(2026, quarter=2)), ("en", "second quarter", Day(quarter=2)),
        ("en", "tomorrow", Day(shift=1)), ("en", "next week", Day(week_shift=1)), ("en", "last month", Day(month_shift=-1)),
        ("en", "14:30", Day()),
        ("de", "5. März 2026", Day(2026, 3, 5)), ("de", "5.3.2026", Day(2026, 3, 5)), ("de", "Mai", Day(month=5)), ("de",
        "KW 13", Day(week=13)),
        ("de", "nächste Woche", Day(week_shift=1)), ("de", "Freitag", Day(weekday=4)), ("fr", "1er avril", Day(None, 4, 1)),
        ("fr", "5 mars 2026", Day(2026, 3, 5)),
        ("fr", "aujourd’hui", Day(shift=0)), ("fr", "2e trimestre", Day(quarter=2)), ("es",
        "5 de marzo de 2026", Day(2026, 3, 5)), ("es", "mayo", Day(month=5)),
        ("ja", "2026年3月5日", Day(2026, 3, 5)), ("ja", "3月", Day(month=3)), ("ja", "来週", Day(week_shift=1)), ("ja",
        "金曜日", Day(weekday=4)),
        ("pl", "5 marca 2026", Day(2026, 3, 5)), ("pl", "maju", Day(month=5)), ("ar", "5 مارس 2026", Day(2026, 3, 5)),
    ],
)  # fmt: skip
def test_dates_say_as_much_as_their_words(locale: str, text: str, day: Day) -> None:
    """Days, months, weekdays, weeks, quarters, and words counted from today."""
    figure = only(text, locale)

    assert ("date", day, text) == (figure.kind, figure.day, figure.text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("in 2026", [Day(2026)]),
        ("by 2026, not 2026 looms", [Day(2026)]),
        ("in May", [Day(month=5)]),
        ("May we?", []),
        ("a March day", []),
    ],
)
def test_a_year_or_a_month_alone_needs_its_word(text: str, expected: list[Day]) -> None:
    """`2026 looms` are looms, and `may` is no month."""
    assert expected == [figure.day for figure in find_figures(text, "en") if figure.kind == "date"]


@pytest.mark.parametrize(
    ("locale", "text"),
    [
        ("en", "March 5 – 9, 2026"), ("en", "from March 5 to 9, 2026"), ("en", "5–9 March 2026"), ("de", "5.–9. März 2026"),
        ("de", "vom 5. bis 9. März 2026"), ("fr", "du 5 au 9 mars 2026"), ("es", "del 5 al 9 de marzo de 2026"), ("ja",
        "2026年3月5日～9日"),
        ("pl", "5–9 marca 2026"),
    ],
)  # fmt: skip
def test_both_days_of_an_interval_are_whole(locale: str, text: str) -> None:
    """Each end has the month and the year that are said once."""
    assert [Day(2026, 3, 5), Day(2026, 3, 9)] == [figure.day for figure in find_figures(text, locale)]


@pytest.mark.parametrize(
    ("locale", "text", "value", "unit"),
    [
        ("en", "three weeks", "3", "week"), ("en", "two days", "2", "day"), ("en", "in a week", "1", "week"), ("en",
        "a year ago", "1", "year"),
        ("en", "a ten-week wait", "10", "week"), ("en", "1.5 years", "1.5", "year"), ("en", "two and a half weeks", "2.5",
        "week"),
        ("en", "20 working days", "20", "working day"), ("en", "one fortnight", "2", "week"), ("de", "drei Wochen", "3",
        "week"),
        ("de", "in einer Woche", "1", "week"), ("de", "anderthalb Wochen", "1.5", "week"), ("de", "20 Arbeitstagen", "20",
        "working day"),
        ("fr", "trois semaines", "3", "week"), ("fr", "dans un mois", "1", "month"), ("es", "tres semanas", "3", "week"),
        ("ja", "三週間", "3", "week"),
        ("ja", "5日間", "5", "day"), ("pl", "3 tygodnie", "3", "week"), ("ar", "3 أسابيع", "3", "week"),
    ],
)  # fmt: skip
def test_spans_of_time_have_a_unit(locale: str, text: str, value: str, unit: str) -> None:
    """In digits, in words, and with an article behind `in`."""
    figure = only(text, locale)

    assert ("span", Fraction(value), unit) == (figure.kind, figure.value, figure.unit)


@pytest.mark.parametrize(
    ("text", "kinds", "values"),
    [
        ("two to three weeks", ["span", "span"], ["2", "3"]), ("3–5 days", ["span", "span"], ["3", "5"]), ("30–40 %", ["share",
        "share"], ["0.3", "0.4"]),
        ("$10–12", ["money", "money"], ["10", "12"]), ("120 or 150 looms", ["number", "number"], ["120", "150"]),
    ],
)  # fmt: skip
def test_two_ends_share_the_unit_that_is_said_once(text: str, kinds: list[str], values: list[str]) -> None:
    """`two to three weeks` are two spans."""
    figures = find_figures(text, "en")

    assert (kinds, [Fraction(value) for value in values]) == ([f.kind for f in figures], [f.value for f in figures])


@pytest.mark.parametrize(
    ("locale", "text", "kind", "value"),
    [
        ("en", "half of them", "fraction", "1/2"), ("en", "a third", "fraction", "1/3"), ("en", "two thirds", "fraction",
        "2/3"), ("en", "3/4", "fraction", "3/4"),
        ("en", "nine in ten", "fraction", "9/10"), ("en", "1 in 3", "fraction", "1/3"), ("en", "2 in every 5", "fraction", "2/5"),
        ("de", "neun von zehn", "fraction", "9/10"), ("fr", "neuf sur dix", "fraction", "9/10"),
        ("es", "nueve de cada diez", "fraction", "9/10"), ("ja", "七十八番目", "ordinal", "78"),
        ("en", "one in ten", "fraction", "1/10"), ("en", "twice as many", "multiple", "2"), ("en", "three times", "multiple",
        "3"), ("en", "tripled", "multiple", "3"),
        ("en", "the 21st loom", "ordinal", "21"), ("en", "the fiftieth loom", "ordinal", "50"), ("de", "die Hälfte",
        "fraction", "1/2"),
        ("de", "zwei Drittel", "fraction", "2/3"), ("de", "doppelt so viele", "multiple", "2"), ("fr", "la moitié", "fraction",
        "1/2"),
        ("fr", "un sur dix", "fraction", "1/10"), ("fr", "deux fois plus", "multiple", "2"), ("es", "la mitad", "fraction",
        "1/2"),
        ("es", "dos tercios", "fraction", "2/3"), ("es", "el doble", "multiple", "2"), ("ja", "半分", "fraction", "1/2"), ("ja",
        "3分の1", "fraction", "1/3"),
        ("ja", "3倍", "multiple", "3"),
    ],
)  # fmt: skip
def test_parts_and_multiples(locale: str, text: str, kind: str, value: str) -> None:
    """Fractions, multiples and ordinals in each language."""
    figure = only(text, locale)

    assert (kind, Fraction(value)) == (figure.kind, figure.value)


@pytest.mark.parametrize(
    ("locale", "text"), [("en", "8 out of 10 looms"), ("de", "9 von 10 Webstühlen"), ("en", "three in 10 days"), ("en", "9 in 3")]
)
def test_counts_beside_each_other_are_no_ratio(locale: str, text: str) -> None:
    """Two counts, a span of time, a part larger than its whole: each figure tells for itself."""
    assert 2 == len(find_figures(text, locale))


@pytest.mark.parametrize(
    ("locale", "text", "low", "high"),
    [
        ("en", "dozens of you", 24, 99), ("en", "hundreds of looms", 200, 999), ("en", "thousands", 2000, 9999), ("de",
        "Hunderte", 200, 999),
        ("fr", "des centaines", 200, 999), ("es", "miles", 2000, 9999), ("ja", "数百台", 200, 999),
    ],
)  # fmt: skip
def test_vague_figures_have_bounds(locale: str, text: str, low: int, high: int) -> None:
    """Dozens 24-99, hundreds 200-999, thousands 2,000-9,999 (design, rounding words)."""
    figure = only(text, locale)

    assert ("vague", low, high) == (figure.kind, figure.value, figure.upto)


@pytest.mark.parametrize(
    ("locale", "text", "rounding"),
    [
        ("en", "about 1,300", "about"), ("en", "Around 1,300", "about"), ("en", "roughly forty", "about"), ("en",
        "1,300 or so", "about"),
        ("en", "nearly 1,300", "nearly"), ("en", "almost 1,300", "nearly"), ("en", "just under 1,300", "nearly"), ("en",
        "more than 1,300", "above"),
        ("en", "over 1,300", "above"), ("en", "well over 1,300", "above"), ("en", "at least 1,300", "at_least"), ("en",
        "1,300 looms or more", "at_least"),
        ("en", "under 1,300", "below"), ("en", "fewer than 1,300", "below"), ("en", "at most 1,300", "at_most"), ("en",
        "no more than 1,300", "at_most"),
        ("en", "not less than 1,300", "at_least"), ("en", "nearly half", "nearly"), ("en", "more than\n1,300", "above"), ("en",
        "over €12.50", "above"),
        ("en", "1,300", ""), ("en", "exactly 1,300", ""), ("en", "1,300+", "at_least"),
        ("de", "rund 1.300", "about"), ("de", "etwa 1.300", "about"), ("de", "knapp 1.300", "nearly"), ("de", "mehr als 1.300",
        "above"),
        ("de", "mindestens 1.300", "at_least"), ("de", "weniger als 1.300", "below"), ("de", "höchstens 1.300", "at_most"),
        ("fr", "environ 1 300", "about"), ("fr", "près de 1 300", "nearly"), ("fr", "plus de 1 300", "above"), ("fr",
        "au moins 1 300", "at_least"),
        ("fr", "moins de 1 300", "below"), ("fr", "au plus 1 300", "at_most"), ("fr", "une centaine", "about"),
        ("es", "unos 1300", "about"), ("es", "casi 1300", "nearly"), ("es", "más de 1300", "above"),
        ("es", "al menos 1300", "at_least"),
        ("es", "menos de 1300", "below"), ("es", "como máximo 1300", "at_most"), ("ja", "約1,300台", "about"),
        ("ja", "1,300台近く",
        "nearly"),
        ("ja", "1,300台を超え", "above"), ("ja", "1,300台以上", "at_least"), ("ja", "1,300台未満", "below"), ("ja", "1,300台以下",
        "at_most"),
        ("pl", "około 1300", "about"), ("ar", "حوالي 1,300", "about"),
    ],
)  # fmt: skip
def test_rounding_words_are_read_in_each_language(locale: str, text: str, rounding: str) -> None:
    """Before the figure, or behind it."""
    assert rounding == only(text, locale).rounding


def test_the_words_that_round_have_their_place() -> None:
    """A rule can point at `About` as well as at the number."""
    figure = only("We sent about 1,300.")

    assert ("about 1,300", "1,300") == ("We sent about 1,300."[figure.rounding_start : figure.end], figure.text)


LOCALES = st.sampled_from(["en", "de", "fr", "es", "ja", "pl", "ar", "en-GB", "pt-BR", "zz"])
PIECES = st.sampled_from(
    ["1", "300", ",", ".", " ", NO_BREAK, "%", "€", "march", "May", "5", "2026", "-", "–", "one",
        "half", "dozen", "to", "weeks", "約", "万", "月", "日", "½", "ß", "İ", "٣"]
)  # fmt: skip


@given(LOCALES, st.lists(PIECES | st.text(max_size=4), max_size=30))
def test_any_text_can_be_read(locale: str, pieces: list[str]) -> None:
    """Nothing raises; figures are in order, do not overlap, and slice back to their text."""
    text = "".join(pieces)
    ends = 0
    for figure in find_figures(text, locale):
        assert ends <= figure.start < figure.end <= len(text)
        assert figure.rounding_start <= figure.start
        assert figure.text == text[figure.start : figure.end]
        ends = figure.end


@given(st.sampled_from(["en", "de", "fr", "es", "ja", "pl", "ar"]), st.integers(0, 10**9), st.integers(0, 3))
def test_what_is_printed_is_read_again(locale: str, number: int, decimals: int) -> None:
    """Every number that a locale prints is found in it with the same value."""
    value = Fraction(number, 10**decimals)

    figure = only(Format(locale, Names()).number(value, decimals), locale)

    assert (value, decimals) == (figure.value, figure.decimals)


def test_every_figure_of_a_long_text_is_found_quickly() -> None:
    """1,500 words take well under 50 ms on one core; ten times that would be a fault of the patterns."""
    text = "About 1,300 looms have left since March 5, and forty-seven of you wrote in three weeks that 45 % is in house. " * 71
    find_figures(text, "en")

    began = time.perf_counter()
    figures = find_figures(text, "en")

    assert 5 * 71 == len(figures)
    assert time.perf_counter() - began < 0.5


def test_a_printed_fact_can_be_read_by_its_kind() -> None:
    """Shares and money come back as what they were."""
    shown = Format("de", Names()).figure(fact(Fraction(45, 100), "share", 1))
    figure: Figure = only(shown, "de")

    assert ("share", Fraction(45, 100), 1) == (figure.kind, figure.value, figure.decimals)
