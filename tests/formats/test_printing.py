"""Facts as readers of a locale see them."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest

from bulletin.formats.printed import Piece
from bulletin.formats.printing import Format
from bulletin.model import Call, Fact, Money, Name, Names, Range, Rounding, Value, Window
from tests.formats.builders import fact

NO_BREAK, NARROW, THIN = "\u00a0", "\u202f", "\u2009"


def style(locale: str, **forms: str) -> Format:
    """A format without names of its own."""
    return Format(locale, Names())


@pytest.mark.parametrize(
    ("locale", "number", "percent", "money", "day"),
    [
        ("en", "1,234,567.89", "45%", "$12,345.50", "March 5, 2026"),
        ("de", "1.234.567,89", f"45{NO_BREAK}%", f"12.345,50{NO_BREAK}€", "5. März 2026"),
        ("fr", f"1{NARROW}234{NARROW}567,89", f"45{NARROW}%", f"12{NARROW}345,50{NO_BREAK}€", "5 mars 2026"),
        ("es", "1.234.567,89", f"45{NO_BREAK}%", f"12.345,50{NO_BREAK}€", "5 de marzo de 2026"),
        ("ja", "1,234,567.89", "45%", "￥12,346", "2026年3月5日"),
        ("pl", f"1{NO_BREAK}234{NO_BREAK}567,89", "45%", f"12{NO_BREAK}345,50{NO_BREAK}zł", "5 marca 2026"),
    ],
)
def test_published_values_of_the_locales(locale: str, number: str, percent: str, money: str, day: str) -> None:
    """Babel 2.18 = CLDR 47 and Node 20 = CLDR 48 agree on these."""
    currency = {"en": "USD", "ja": "JPY", "pl": "PLN"}.get(locale, "EUR")
    shown = style(locale)

    assert number == shown.number(Decimal("1234567.89"), 2)
    assert percent.replace(NARROW, NO_BREAK) == shown.percent(Fraction(45, 100), 0).replace(NARROW, NO_BREAK)
    assert money == shown.amount(currency, Decimal("12345.50"))
    assert day == shown.day(date(2026, 3, 5))


@pytest.mark.parametrize(
    ("locale", "expected"),
    [("en", "1,300"), ("de", "1.300"), ("fr", f"1{NARROW}300"), ("es", "1300"), ("pl", "1300"), ("es-MX", "1,300")],
)
def test_four_digits_are_grouped_where_the_locale_groups_them(locale: str, expected: str) -> None:
    """CLDR 48 minimumGroupingDigits, as Node's Intl shows it: 2 in es and pl."""
    assert expected == style(locale).number(1300)


def test_a_number_longer_than_decimals_of_python_usually_are_prints_whole() -> None:
    """Thirty digits and more, as a need behind a scrap of almost one has them, print to the last one."""
    assert "1" + ",000" * 12 + ".5" == style("en").number(Decimal("1" + "000" * 12 + ".5"), 1)


@pytest.mark.parametrize(
    ("locale", "same_month", "two_months", "two_years"),
    [
        (
            "en",
            f"March 5{THIN}–{THIN}9, 2026",
            f"March 5{THIN}–{THIN}April 2, 2026",
            f"March 5, 2026{THIN}–{THIN}January 2, 2027",
        ),
        ("de", "5.–9. März 2026", f"5. März{THIN}–{THIN}2. April 2026", f"5. März 2026{THIN}–{THIN}2. Januar 2027"),
        ("fr", "5–9 mars 2026", f"5 mars{THIN}–{THIN}2 avril 2026", f"5 mars 2026{THIN}–{THIN}2 janvier 2027"),
        (
            "es",
            "5–9 de marzo de 2026",
            f"5 de marzo{THIN}–{THIN}2 de abril de 2026",
            f"5 de marzo de 2026{THIN}–{THIN}2 de enero de 2027",
        ),
        ("ja", "2026年3月5日～9日", "2026年3月5日～4月2日", "2026年3月5日～2027年1月2日"),
        ("pl", "5–9 marca 2026", "5 marca–2 kwietnia 2026", "5 marca 2026–2 stycznia 2027"),
    ],
)
def test_a_window_is_one_interval(locale: str, same_month: str, two_months: str, two_years: str) -> None:
    """Node 20's formatRange (dateStyle long) has the first two up to kinds of spaces, except in ja; no year is lost."""
    shown = style(locale)
    first, as_of = date(2026, 3, 5), date(2026, 3, 4)

    assert same_month == shown.window(Window(first, date(2026, 3, 9)), as_of).text
    assert two_months == shown.window(Window(first, date(2026, 4, 2)), as_of).text
    assert two_years == shown.window(Window(first, date(2027, 1, 2)), as_of).text


@pytest.mark.parametrize(("rounding", "expected"), [("nearest", "11"), ("up", "12"), ("down", "11")])
def test_a_fact_is_rounded_its_own_way(rounding: Rounding, expected: str) -> None:
    """What is needed is rounded up, what may be given away down."""
    assert expected == style("en").figure(fact(Fraction(111, 10), "part", rounding=rounding))


@pytest.mark.parametrize(
    ("value", "unit", "decimals", "expected", "machine"),
    [
        (41, "unit", 0, "41", ("41",)),
        (Fraction(1, 3), "unit a working day", 1, "0.3", ("1/3",)),
        (Fraction(265, 1000), "share", 1, "26.5%", ("0.265",)),
        (Fraction(9999, 10000), "share", 1, "99.99%", ("0.9999",)),
        (Fraction(1), "share", 1, "100.0%", ("1",)),
        (Fraction(1, 30000), "share", 1, "0.003%", ("1/30000",)),
        (Fraction(2, 7), "probability", 4, "0.2857", ("2/7",)),
        (Fraction(111, 10), "part", 0, "11", ("11.1",)),
        (date(2026, 3, 5), "date", 0, "March 5, 2026", ("2026-03-05",)),
        (Window(date(2026, 3, 5), date(2026, 3, 9)), "window", 0, f"March 5{THIN}–{THIN}9, 2026", ("2026-03-05", "2026-03-09")),
        (Range(120, 1500), "unit", 0, "120–1,500", ("120", "1500")),
        (Money((("EUR", Decimal("12.50")), ("JPY", Decimal("1300")))), "money", 0, "€12.50 and ¥1,300", ("12.50", "1300")),
        (Money((("KWD", Decimal("3.5")),)), "money", 0, f"KWD{NO_BREAK}3.500", ("3.500",)),
        (Money((("EUR", Decimal("0.00")), ("USD", Decimal("14.00")))), "money", 0, "$14.00", ("14.00",)),
        (Money((("EUR", Decimal("0.00")), ("USD", Decimal("0.00")))), "money", 0, "€0.00", ("0.00",)),
        (Money(()), "money", 0, "0", ("0",)),
        (True, "yes/no", 0, "yes", ("yes",)),
        (Name("part", "P-104", "warp beam"), "name", 0, "warp beam", ()),
        ("open", "state", 0, "open", ()),
        (("a", "b", "c"), "list", 0, "a, b, and c", ()),
    ],
)
def test_every_kind_of_value_prints(value: Value, unit: str, decimals: int, expected: str, machine: tuple[str, ...]) -> None:
    """Text for readers, the exact value for machines: shares keep 0 and 100 %, needs are rounded up."""
    printed = style("en").print_fact(fact(value, unit, decimals))

    assert (expected, machine) == (printed.text, printed.machine)


def test_a_tie_is_rounded_up_and_not_to_even() -> None:
    """0.265 at no decimals is 27 %; Babel alone would write 26 %."""
    assert "27%" == style("en").percent(Fraction(265, 1000), 0)


def test_the_two_days_of_a_window_are_pieces_of_their_own() -> None:
    """Each day with its own time, the dash between them without one."""
    expected = (
        Piece("5.", "time", ("2026-03-05",)),
        Piece("–", "text", ()),
        Piece("9. März 2026", "time", ("2026-03-09",)),
    )

    assert expected == style("de").print_fact(fact(Window(date(2026, 3, 5), date(2026, 3, 9)), "window")).pieces


@pytest.mark.parametrize(
    ("locale", "value", "filters", "expected"),
    [
        ("en", 41, (Call("units"),), f"41{NO_BREAK}looms"),
        ("en", 1, (Call("units"),), f"1{NO_BREAK}loom"),
        ("de", 3, (Call("units", ("dative",)),), f"3{NO_BREAK}Webstühlen"),
        ("de", 3, (Call("units", ("genitive",)),), f"3{NO_BREAK}Webstühle"),
        ("ja", 3, (Call("units"),), "3台の織機"),
        ("en", 87, (Call("words"),), "eighty-seven"),
        ("de", 87, (Call("words"),), "siebenundachtzig"),
        ("ja", 87, (Call("words"),), "87"),
        ("en", 1250, (Call("short"),), "1.3K"),
        ("en", 1249, (Call("short"),), "1.2K"),
        ("en", 999_950, (Call("short"),), "1M"),
        ("en", 999, (Call("short"),), "999"),
        ("de", 1250, (Call("short"),), "1.250"),
        ("ja", 12_500, (Call("short"),), "1.3万"),
        ("en", 41, (Call("units"), Call("words")), f"forty-one{NO_BREAK}looms"),
        ("en", 1250, (Call("short"), Call("units")), f"1.3K{NO_BREAK}looms"),
        ("en", Range(120, 150), (Call("units"),), f"120–150{NO_BREAK}looms"),
        ("ja", Range(120, 150), (Call("units"),), "120～150台の織機"),
        ("en", date(2026, 3, 5), (Call("date"),), "Thursday, March 5, 2026"),
        ("en", date(2026, 3, 5), (Call("date", ("medium",)),), "Mar 5, 2026"),
        ("en", "open", (Call("units"),), "open"),
        ("en", 5, (Call("date"),), "5"),
        ("en", 53, (Call("share"),), "53"),
    ],
)
def test_filters_print_in_another_way(locale: str, value: Value, filters: tuple[Call, ...], expected: str) -> None:
    """Nouns from names.csv by plural category and case; words, short, share and date; senseless ones change nothing."""
    forms = {
        ("unit", "unit", "en", "one", ""): "loom",
        ("unit", "unit", "en", "other", ""): "looms",
        ("unit", "unit", "de", "other", ""): "Webstühle",
        ("unit", "unit", "de", "other", "dative"): "Webstühlen",
        ("unit", "unit", "ja", "other", ""): "台の織機",
    }

    assert expected == Format(locale, Names(forms)).print_fact(fact(value), filters).text


SHARE, DAY, WINDOW = fact(Fraction(1, 4), "share", 1), fact(date(2026, 3, 5), "date"), fact(Window(date.min, date.max), "window")


def test_a_share_is_told_in_per_cent() -> None:
    """The filter says of a share what it is anyway."""
    assert "25.0%" == style("en").print_fact(SHARE, (Call("share"),)).text


@pytest.mark.parametrize(
    ("told", "filters", "reason"),
    [
        (fact(53), ("share",), "`share` is for a part of a whole, and a.fact is a number of units"),
        (SHARE, ("units",), "`units` is for what is counted, and a.fact is a share"),
        (SHARE, ("words",), "`words` is for a whole number, and a.fact is a share"),
        (fact(Fraction(5, 2), "day", 1), ("words",), "`words` is for a whole number, and a.fact is a number of days"),
        (SHARE, ("short",), "`short` is for a count, and a.fact is a share"),
        (fact(53), ("date",), "`date` is for a single day, and a.fact is a number of units"),
        (WINDOW, ("date",), "`date` is for a single day, and a.fact is a window"),
        (fact(True, "yes/no"), ("units",), "`units` is for what is counted, and a.fact is a yes/no"),
        (fact(Range(1, 2)), ("words",), "`words` is for a whole number, and a.fact is a number of units"),
        (fact(53), ("words", "short"), "`words` and `short` both say how the number is written"),
        (fact(53), ("units", "units"), "`units` stands there twice"),
        (fact(53), ("units", "words"), ""),
        (SHARE, ("share",), ""),
        (DAY, ("date",), ""),
        (fact(53), (), ""),
    ],
)
def test_a_filter_that_does_not_fit_has_a_reason(told: Fact, filters: tuple[str, ...], reason: str) -> None:
    """What a filter can't say of a value, or says twice, is told in a clause."""
    assert reason == style("en").misfit(told, tuple(Call(name) for name in filters))


def test_a_date_has_one_of_four_lengths() -> None:
    """Any other is told, and the day is printed in full."""
    tiny = (Call("date", ("tiny",)),)

    assert "`date` is short, medium, long, full, not tiny" == style("en").misfit(DAY, tiny)
    assert "Thursday, March 5, 2026" == style("en").print_fact(DAY, tiny).text


@pytest.mark.parametrize(
    ("locale", "expected"),
    [("en", "none"), ("de", "keine"), ("fr", "aucun"), ("es", "ninguno"), ("ja", "なし"), ("pl", "brak"), ("ar", "لا شيء")],
)
def test_a_list_of_nothing_leaves_no_hole(locale: str, expected: str) -> None:
    """The language's word for none."""
    assert expected == style(locale).figure(fact((), "week"))


@pytest.mark.parametrize(
    ("locale", "noun", "expected"),
    [
        ("ar", "order", ["0 طلب", "طلب واحد", "طلبان", "3 طلبات", "11 طلبًا", "100 طلب"]),
        ("pl", "day", ["0 dni", "1 dzień", "2 dni", "3 dni", "11 dni", "100 dni"]),
        ("fr", "week", ["0 semaine", "1 semaine", "2 semaines", "3 semaines", "11 semaines", "100 semaines"]),
        ("ja", "promise", ["0件の約束", "1件の約束", "2件の約束", "3件の約束", "11件の約束", "100件の約束"]),
    ],
)
def test_counted_things_follow_the_plurals_of_the_language(locale: str, noun: str, expected: list[str]) -> None:
    """CLDR 47 plurals: ar 0 zero, 1 one, 2 two, 3 few, 11 many, 100 other; fr 0 one; pl 2 few, 11 many; ja other only."""
    counted = [style(locale).count(number, noun).replace(NO_BREAK, " ") for number in (0, 1, 2, 3, 11, 100)]

    assert expected == counted


@pytest.mark.parametrize(
    ("locale", "value", "expected"), [("pl", 22, "few"), ("pl", 12, "many"), ("fr", Decimal("1.5"), "one"), ("ja", 1, "other")]
)
def test_plural_categories_are_those_of_cldr(locale: str, value: Decimal | int, expected: str) -> None:
    """CLDR 47 plurals.json."""
    assert expected == style(locale).plural(value)


def test_a_name_is_told_in_the_locale() -> None:
    """names.csv first, then the language of a region, then the tables' own name."""
    names = Names({("part", "P-104", "de", "", ""): "Kettbaum"})
    part = fact(Name("part", "P-104", "warp beam"), "name")

    assert ["Kettbaum", "Kettbaum", "warp beam"] == [Format(locale, names).figure(part) for locale in ("de", "de-AT", "fr")]


def test_an_unknown_locale_prints_in_its_language_or_english() -> None:
    """A reader's tag may be anything; nothing fails."""
    assert ["1.300", "1,300"] == [style(locale).number(1300) for locale in ("de-XX-variant9", "zz")]
