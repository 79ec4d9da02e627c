"""bulletin.toml: what it says, what it may not say, and where."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from bulletin.model import Place, Problem
from bulletin.report import word
from bulletin.report.problems import message
from bulletin.settings import Settings, minor_digits, read_settings
from bulletin.settings.codes import currencies

DESIGN = """[maker]
name = "Fennmoor Looms"               # the one key that must be there
contact = "help@fennmoor.example"
time_zone = "Europe/Vienna"
week_starts = "monday"
working_days = ["monday", "tuesday", "wednesday", "thursday", "friday"]
holidays = "AT"
locales = ["en", "de", "fr"]
names = ["A4", "Route 66"]

[credit]
months_from = "promised"
until = "boxed"
tiers = [ { from_month = 1, amount = { EUR = "10.00", USD = "11.00" } },
          { from_month = 4, amount = { EUR = "15.00", USD = "16.50" } } ]
cap = { EUR = "120.00", USD = "132.00" }

[checks]
forecast_chance = 0.8
confidence = 0.95
stale_after_days = 3
window_moved_days = 7

[[notice]]
markets = ["US"]
rule = "16 CFR Part 435"
days = 30

[tables.orders]
file = "export_orders.csv"
encoding = "cp1252"
delimiter = ";"
decimal = ","
thousands = "."
dates = ["%d.%m.%Y", "%Y-%m-%d"]
columns = { order = "Auftrag", placed = "Datum" }
values = { status = { Versandt = "shipped" } }
fill = { locale = "de" }
leave_out = { order = ["1001"] }
"""
"""The example of design.md, section 3, with fewer comments."""


def read(folder: Path, text: str) -> tuple[Settings | None, list[Problem]]:
    (folder / "bulletin.toml").write_bytes(text.encode("utf-8"))
    return read_settings(folder)


def good(folder: Path, text: str) -> Settings:
    settings, problems = read(folder, text)
    assert settings is not None, problems
    return settings


def test_everything(tmp_path: Path) -> None:
    """Every key of the design is read, exactly."""
    settings, problems = read(tmp_path, DESIGN)
    assert settings is not None
    assert settings.credit is not None
    tier = settings.credit.tiers[1]

    assert [] == problems
    assert (4, Decimal("16.50")) == (tier.from_month, tier.amount["USD"])
    assert (Decimal("0.8"), Decimal("0.95")) == (settings.checks.forecast_chance, settings.checks.confidence)
    assert (("US",), 30) == (settings.notice[0].markets, settings.notice[0].days)
    assert {"order": ("1001",)} == settings.tables["orders"].leave_out
    assert {"Versandt": "shipped"} == settings.tables["orders"].values["status"]


def test_defaults(tmp_path: Path) -> None:
    """The maker's name is enough, but a missing time zone is warned about and taken for UTC."""
    settings, problems = read(tmp_path, '[maker]\nname = "Fennmoor Looms"\n')
    assert settings is not None
    maker = settings.maker

    assert [("time-zone-missing", "warn", Place("bulletin.toml", 1, 2))] == [(p.rule, p.level, p.place) for p in problems]
    assert ("UTC", 0, frozenset(range(5)), ("en",), None) == (
        maker.zone.key,
        maker.week_start,
        maker.working_weekdays,
        maker.locales,
        settings.credit,
    )
    assert (3, 7) == (settings.checks.stale_after_days, settings.checks.window_moved_days)


FAULTS = [
    ("[maker]", "[makers]", (1, 2), "setting-unknown", "maker"),
    ("contact =", "contcat =", (3, 1), "setting-unknown", "contact"),
    ("from_month = 4", "fromm_month = 4", (15, 13), "setting-unknown", "from_month"),
    ("stale_after_days", "stale_days", (21, 1), "setting-unknown", "stale_after_days"),
    ("rule =", "rules =", (26, 1), "setting-unknown", "rule"),
    ("delimiter =", "delimeter =", (32, 1), "setting-unknown", "delimiter"),
    ('name = "Fennmoor Looms"', 'name = ""', (2, 1), "setting-wrong", ""),
    ('name = "Fennmoor Looms"', "name = 7", (2, 1), "setting-wrong", '"7"'),
    ('"Europe/Vienna"', '"Europe/Viena"', (4, 1), "setting-wrong", "Europe/Vienna"),
    ('"Europe/Vienna"', '"../../etc/passwd"', (4, 1), "setting-wrong", ""),
    ('week_starts = "monday"', 'week_starts = "Monday"', (5, 1), "setting-wrong", "monday"),
    ('"tuesday"', '"tusday"', (6, 27), "setting-wrong", "tuesday"),
    ('holidays = "AT"', 'holidays = "ZZ"', (7, 1), "setting-wrong", ""),
    ('holidays = "AT"', 'holidays = ["2026-01-06"]', (7, 1), "setting-wrong", ""),
    ('"fr"]', '"xx"]', (8, 24), "setting-wrong", ""),
    ('locales = ["en", "de", "fr"]', "locales = []", (8, 1), "setting-wrong", ""),
    ('"A4"', "4", (9, 10), "setting-wrong", '"4"'),
    ('"promised"', '"promise"', (12, 1), "setting-wrong", "promised"),
    ('until = "boxed"', "until = true", (13, 1), "setting-wrong", ""),
    ('EUR = "10.00"', "EUR = 10.00", (14, 40), "setting-wrong", '"10.00"'),
    ('EUR = "10.00"', "EUR = 10", (14, 40), "setting-wrong", '"10"'),
    ('EUR = "10.00"', 'EUR = "-1.00"', (14, 40), "setting-wrong", ""),
    ('EUR = "10.00"', 'EUR = "10.001"', (14, 40), "setting-wrong", ""),
    ('EUR = "10.00"', 'EUR = "NaN"', (14, 40), "setting-wrong", ""),
    ("from_month = 4", "from_month = 1", (15, 13), "setting-wrong", ""),
    ("from_month = 1,", "from_month = 0,", (14, 13), "setting-wrong", ""),
    (', USD = "16.50"', "", (15, 29), "setting-wrong", ""),
    ('USD = "132.00"', 'CHF = "132.00"', (16, 25), "setting-wrong", ""),
    ('USD = "132.00"', 'DOLLARS = "132.00"', (16, 25), "setting-wrong", ""),
    ("forecast_chance = 0.8", "forecast_chance = 1.5", (19, 1), "setting-wrong", ""),
    ("confidence = 0.95", 'confidence = "high"', (20, 1), "setting-wrong", ""),
    ("stale_after_days = 3", "stale_after_days = -1", (21, 1), "setting-wrong", ""),
    ("stale_after_days = 3", "stale_after_days = true", (21, 1), "setting-wrong", ""),
    ('"US"', '"USA"', (25, 12), "setting-wrong", ""),
    ("days = 30\n", "days = 0\n", (27, 1), "setting-wrong", ""),
    ('"cp1252"', '"cp9999"', (31, 1), "setting-wrong", ""),
    ('"cp1252"', '"rot13"', (31, 1), "setting-wrong", ""),
    ('delimiter = ";"', 'delimiter = ";;"', (32, 1), "setting-wrong", ""),
    ('decimal = ","', 'decimal = ";"', (33, 1), "setting-wrong", ""),
    ('thousands = "."', 'thousands = ","', (34, 1), "setting-wrong", ""),
    ('"%d.%m.%Y"', '"%d.%m"', (35, 10), "setting-wrong", ""),
    ('order = "Auftrag"', "order = 7", (36, 13), "setting-wrong", '"7"'),
    ('["1001"]', "[1001]", (39, 24), "setting-wrong", '"1001"'),
    ('"fr"]', '"french"]', (8, 24), "setting-wrong", "fr"),
    ('"fr"]', '"Français"]', (8, 24), "setting-wrong", "fr"),
    ('"fr"]', '"fr_CH"]', (8, 24), "setting-wrong", "fr-CH"),
    ('"monday", "t', '"mo", "t', (6, 17), "setting-wrong", "monday"),
    ('"tuesday"', '"t"', (6, 27), "setting-wrong", ""),
    ('USD = "132.00"', '"$" = "132.00"', (16, 25), "setting-wrong", "USD"),
    ('USD = "132.00"', 'AUD = "132.00"', (16, 25), "setting-wrong", ""),
]


@pytest.mark.parametrize(("good_text", "bad_text", "where", "rule", "offer"), FAULTS)
def test_faults(good_text: str, bad_text: str, where: tuple[int, int], rule: str, offer: str, tmp_path: Path) -> None:
    """A wrong key or value is told at its own line and column, with an offer where one is near."""
    assert good_text in DESIGN
    settings, problems = read(tmp_path, DESIGN.replace(good_text, bad_text, 1))
    found = [(p.place.line, p.place.column, p.rule, p.offer) for p in problems]

    assert settings is None
    assert (*where, rule, offer) in found
    assert [] == [line for line in map(word, problems) if "{" in line or not line.startswith("bulletin.toml:")]


def test_all_faults_at_once(tmp_path: Path) -> None:
    """Faults of the shape and between keys are told together, in the order of the file."""
    text = DESIGN
    for good_text, bad_text, *_ in FAULTS[1:3] + FAULTS[24:25] + FAULTS[29:31]:
        text = text.replace(good_text, bad_text, 1)
    _, problems = read(tmp_path, text)
    lines = [problem.place.line for problem in problems]

    assert (sorted(lines), {3, 15, 19, 20}) == (lines, set(lines))


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ('[maker]\nname = "x\n', (2, 10)),
        ("[maker]\nname = \n", (2, 8)),
        ('[maker]\nname = "x"\nname = "y"\n', (3, 11)),
        ("[maker", (1, 7)),
    ],
)
def test_text_that_is_not_toml(text: str, where: tuple[int, int], tmp_path: Path) -> None:
    """A fault of the form is told where the standard library's reader met it."""
    settings, problems = read(tmp_path, text)

    assert settings is None
    assert [("settings-not-toml", Place("bulletin.toml", *where))] == [(problem.rule, problem.place) for problem in problems]


@pytest.mark.parametrize(
    ("line", "offer"),
    [
        ("name = Aldermoor Kilns", 'name = "Aldermoor Kilns"'),
        ("time_zone = Europe/Vienna  # ours", 'time_zone = "Europe/Vienna"'),
        ("name = 4 Looms", 'name = "4 Looms"'),
        ("name = „Kilns“", 'name = "Kilns"'),
        ("locales = [en, de]", ""),
    ],
)
def test_text_without_quotation_marks(line: str, offer: str, tmp_path: Path) -> None:
    """Text that stands bare is told to need quotation marks, as a whole line where that is sure."""
    _, problems = read(tmp_path, f"[maker]\n{line}\n")

    assert [("settings-text-unquoted", 2, offer)] == [(problem.rule, problem.place.line, problem.offer) for problem in problems]
    assert "put text in quotation marks" in word(problems[0])


@pytest.mark.parametrize("line", ["holidays = 2026-02-30", "name = ", 'name = "a" b', "name: Kilns"])
def test_other_faults_of_the_form(line: str, tmp_path: Path) -> None:
    """Where quotation marks would not mend it, nobody is told to put any."""
    _, problems = read(tmp_path, f"[maker]\n{line}\n")

    assert ["settings-not-toml"] == [problem.rule for problem in problems]


def test_amounts_below_zero(tmp_path: Path) -> None:
    """An amount with its quotation marks but below zero is told that, and nothing of quotation marks."""
    _, problems = read(tmp_path, DESIGN.replace('USD = "132.00"', 'USD = "-5"'))

    assert ['"credit.cap.USD" is "-5", expected was an amount of 0 or more'] == [message(problem) for problem in problems]


def test_no_data_folder(tmp_path: Path) -> None:
    """Whoever stands in another folder is told how to come to theirs, in the form of all problems."""
    settings, problems = read_settings(tmp_path)
    told = "bulletin.toml:1:1: error: this is no data folder: go into yours, or name it with --data"

    assert settings is None
    assert [True] == [word(problem).startswith(told) for problem in problems]


def test_not_utf_8(tmp_path: Path) -> None:
    """A byte that is not UTF-8 is told at its character."""
    (tmp_path / "bulletin.toml").write_bytes('[maker]\nname = "ä'.encode() + b'\xe4"\n')
    _, problems = read_settings(tmp_path)

    assert [("settings-not-utf-8", Place("bulletin.toml", 2, 10))] == [(problem.rule, problem.place) for problem in problems]


@pytest.mark.parametrize("change", ["\ufeff{}", "{}"])
def test_byte_order_mark_and_line_ends(change: str, tmp_path: Path) -> None:
    """What an editor adds to the file changes nothing."""
    text = change.format(DESIGN.replace("{", "{{").replace("}", "}}")).replace("{{", "{").replace("}}", "}")
    _, problems = read(tmp_path, text.replace("\n", "\r\n").replace("contact =", "contcat ="))

    assert [Place("bulletin.toml", 3, 1)] == [problem.place for problem in problems]


def test_places_in_every_form_of_toml(tmp_path: Path) -> None:
    """Keys are found in dotted and quoted form, in arrays of tables and behind strings of several lines."""
    text = '''maker.name = """
[x]
y = "z" """
maker . "colour" = 1

[[notice]]
markets = [
  "AT", # a comment with "quotes" and ]
  "UK",
]
rule = 'a # b'
days = 1
[[notice]]
markets = ["US"]
rule = "r"
"da\\u0079s" = 1.5
'''
    _, problems = read(tmp_path, text)
    actual = [(p.place.line, p.place.column, p.details["key"]) for p in problems]

    assert [(4, 9, "maker.colour"), (9, 3, "notice[1].markets[2]"), (16, 1, "notice[2].days")] == actual


def test_holidays(tmp_path: Path) -> None:
    """Holidays come from a country's calendar, a part of a country, or a list (6 January: Epiphany, in Austria and Bavaria)."""
    by_country = {code: good(tmp_path, f'[maker]\nname = "x"\nholidays = "{code}"\n').maker for code in ("AT", "DE", "DE-BY")}
    listed = good(tmp_path, '[maker]\nname = "x"\nholidays = [2026-03-02]\n').maker
    epiphany = date(2026, 1, 6)

    assert {"AT": True, "DE": False, "DE-BY": True} == {code: maker.is_holiday(epiphany) for code, maker in by_country.items()}
    assert (True, False) == (listed.is_holiday(date(2026, 3, 2)), listed.is_holiday(epiphany))
    assert not good(tmp_path, '[maker]\nname = "x"\n').maker.is_holiday(epiphany)


def test_weeks(tmp_path: Path) -> None:
    """A week may start on any day, and work be done on any days."""
    maker = good(tmp_path, '[maker]\nname = "x"\nweek_starts = "sunday"\nworking_days = ["saturday", "sunday"]\n').maker

    assert (6, frozenset({5, 6})) == (maker.week_start, maker.working_weekdays)


def test_locales_in_their_usual_letters(tmp_path: Path) -> None:
    """BCP 47 does not tell capitals apart; we do, so tags are brought into their usual letters."""
    assert ("de-AT", "zh-Hant-TW") == good(tmp_path, '[maker]\nname = "x"\nlocales = ["DE-at", "zh-hant-tw"]\n').maker.locales


@pytest.mark.parametrize(
    ("currency", "digits"),
    [
        ("JPY", 0),
        ("KRW", 0),
        ("EUR", 2),
        ("USD", 2),
        ("KWD", 3),
        ("BHD", 3),
        ("ISK", 0),
        ("HUF", 2),
        ("DEM", 2),
        ("ITL", 0),
        ("CLF", 4),
    ],
)
def test_minor_digits(currency: str, digits: int) -> None:
    """Minor units are those of ISO 4217 (JPY, KRW, EUR, USD, KWD, BHD: sources.md; the others: from memory)."""
    assert digits == minor_digits(currency)


def test_withdrawn_money_is_money_and_metals_are_none() -> None:
    """ISO 4217, lists one and three: DEM, HRK, VED; gold, special drawing rights and test codes have no minor unit."""
    asked = ("EUR", "DEM", "HRK", "VED", "XAU", "XDR", "XTS", "XXX", "EURO")

    assert ["EUR", "DEM", "HRK", "VED"] == [code for code in asked if code in currencies()]


def test_frozen(tmp_path: Path) -> None:
    """Nothing changes settings once they are read."""
    settings = good(tmp_path, DESIGN)

    with pytest.raises(ValueError, match="frozen"):
        settings.maker.name = "Somebody"  # type: ignore[misc]


@pytest.mark.parametrize(
    ("good", "bad", "told"),
    [
        ("forecast_chance = 0.8", "forecast_chance = 99", "a number with a point, above 0 and below 1, such as 0.8"),
        ("stale_after_days = 3", "stale_after_days = 99999999999", "less than or equal to 3650"),
    ],
)
def test_checks_that_nobody_means(good: str, bad: str, told: str, tmp_path: Path) -> None:
    """A chance above one and a limit of centuries would switch a check off: both are refused in words of the file."""
    _, problems = read(tmp_path, DESIGN.replace(good, bad))

    assert [problem.details["expected"] for problem in problems] == [told]
