"""The answer about one order."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from bulletin.documents.marks import bare_figures
from bulletin.documents.order import order_html, order_json, order_text
from bulletin.model import Maker, Money, Name, OrderLine, Window
from tests.documents.builders import FENNMOOR, NAMES, line

LOCALES = ["en", "de", "fr", "es", "ja", "pl", "ar"]
STATUSES = ["waiting", "held", "refund", "boxed", "shipped", "delivered", "cancelled"]
FULL: dict[str, Any] = {
    "place": 214,
    "window": Window(date(2026, 5, 4), date(2026, 5, 15)),
    "arrival": Window(date(2026, 5, 8), date(2026, 5, 22)),
    "promised": date(2026, 4, 20),
    "held_up": (Name("part", "P-104", "warp beam"),),
    "next_arrival": date(2026, 4, 10),
    "credit": Money((("EUR", Decimal("30.00")),)),
    "next_credit": (date(2026, 4, 3), Money((("EUR", Decimal("15.00")),))),
}


def said(*lines: OrderLine, locale: str = "en", maker: Maker = FENNMOOR) -> str:
    """The paragraph."""
    return order_text(lines, maker, locale, NAMES)


def test_waiting_order_is_told_in_full() -> None:
    """Place, shortage, supply, window, apology, arrival, credit and next step, in this order."""
    expected = (
        "As of March 27, 2026, order 1042 (Heron 8) is waiting at place 214 of the Heron 8 queue. "
        "It is held up by a part that we do not have enough of: warp beam. The next supply is due on April 10, 2026. "
        "We expect to box it between May 4, 2026 and May 15, 2026. "
        "That is later than the date we last gave you, April 20, 2026, and we are sorry. "
        "We expect it to reach you between May 8, 2026 and May 22, 2026. "
        "Your waiting credit so far is €30.00, as store credit. "
        "If it is still waiting on April 3, 2026, another €15.00 of store credit is added. "
        "Next we box it, and then it leaves for you."
    )

    assert expected == said(line(**FULL))


def test_german_tells_the_same() -> None:
    """The German paragraph names the part in German and keeps to the same facts."""
    actual = said(line(**FULL), locale="de")

    assert actual.startswith("Stand 27. März 2026: Bestellung 1042 (Heron 8) wartet auf Platz 214 der Warteschlange für Heron 8.")
    assert "Kettbaum" in actual
    assert "30,00\u00a0€" in actual


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("status", STATUSES)
def test_day_and_order_stand_in_the_first_sentence(locale: str, status: str) -> None:
    """Whatever the status and language, the first sentence says the day and names the order."""
    html = order_html([line(status, boxed=date(2026, 3, 20), closed=date(2026, 3, 21))], FENNMOOR, locale, NAMES)
    marks = re.findall(r'(?:datetime|value)="([^"]*)"', html)

    assert ["2026-03-27", "1042"] == marks[:2]


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("status", STATUSES)
def test_text_is_one_paragraph_without_blanks_left(locale: str, status: str) -> None:
    """One line, nothing unfilled, no markup, no doubled space."""
    actual = said(line(status, **FULL), locale=locale)

    assert not any(mark in actual for mark in ("\n", "%(", "<", "&", "  "))


@pytest.mark.parametrize("locale", [locale for locale in LOCALES if locale != "en"])
@pytest.mark.parametrize("status", STATUSES)
def test_every_language_says_it_in_its_own_words(locale: str, status: str) -> None:
    """No English sentence is left in another language."""
    english = {sentence.strip(" .") for sentence in said(line(status, **FULL)).split(". ")}
    actual = {sentence.strip(" .") for sentence in said(line(status, **FULL), locale=locale).split(". ")}

    assert set() == english & actual


@pytest.mark.parametrize("locale", LOCALES)
def test_html_holds_no_bare_figure(locale: str) -> None:
    """Each figure and date of the HTML form carries its value."""
    actual = order_html([line(**FULL), line("boxed", line="2", boxed=date(2026, 3, 20))], FENNMOOR, locale, NAMES)

    assert [] == bare_figures(actual, NAMES)


def test_without_a_date_it_says_so() -> None:
    """No window and nothing told before: no date is made up."""
    assert "We can't give you a date yet." in said(line(place=3))


def test_a_date_told_that_has_passed_is_owned_up_to() -> None:
    """A date told before the as-of date is said to have passed, with an apology."""
    actual = said(line(place=3, promised=date(2026, 3, 20)))

    assert "shipping, March 20, 2026, has passed, and we can't give you a new one yet. We are sorry." in actual


def test_a_date_told_that_is_still_to_come_is_repeated() -> None:
    """Without a window, the date last told is the answer."""
    assert "The date we last gave you for shipping is April 20, 2026." in said(line(promised=date(2026, 4, 20)))


def test_window_within_the_date_told_needs_no_apology() -> None:
    """Only a window that begins after the date told is later."""
    actual = said(line(window=Window(date(2026, 4, 1), date(2026, 4, 9)), promised=date(2026, 4, 20)))

    assert "sorry" not in actual


def test_window_of_one_day_is_never_a_bare_date() -> None:
    """A window of a single day is told as around that day."""
    assert "around April 1, 2026" in said(line(window=Window(date(2026, 4, 1), date(2026, 4, 1))))


def test_store_credit_is_never_called_money() -> None:
    """Credit is store credit wherever it is told."""
    actual = said(line(**FULL))

    assert actual.count("store credit") == 2
    assert "money" not in actual


def test_cancelled_order_has_no_outlook() -> None:
    """After a cancellation nothing comes next and no credit is told."""
    assert "As of March 27, 2026, order 1042 (Heron 8) was cancelled on March 1, 2026." == said(
        line("cancelled", closed=date(2026, 3, 1), credit=FULL["credit"])
    )


def test_several_lines_follow_one_dated_sentence() -> None:
    """An order of two units says so first and then tells each by its line."""
    actual = said(line("shipped", closed=date(2026, 3, 25)), line(line="2", model="Heron 12", place=12))

    assert actual.startswith(
        "As of March 27, 2026, your order 1042 holds 2 units. Line 1 (Heron 8) was shipped on March 25, 2026."
    )
    assert "Line 2 (Heron 12) is waiting at place 12 of the Heron 12 queue." in actual


@pytest.mark.parametrize(("count", "form"), [(2, "2 sztuki"), (5, "5 sztuk"), (22, "22 sztuki")])
def test_polish_counts_units_in_three_forms(count: int, form: str) -> None:
    """2 and 22 are few, 5 is many (CLDR 47 plurals, pl)."""
    lines = [line("shipped", line=str(number)) for number in range(count)]

    assert form in said(*lines, locale="pl")


@pytest.mark.parametrize(("count", "form"), [(2, "وحدتين"), (5, "5 وحدات"), (11, "11 وحدةً"), (100, "100 وحدة")])
def test_arabic_counts_units_in_its_forms(count: int, form: str) -> None:
    """2 is two, 3-10 few, 11-99 many, 100 other (CLDR 47 plurals, ar)."""
    lines = [line("shipped", line=str(number)) for number in range(count)]

    assert form in said(*lines, locale="ar")


def test_a_language_without_phrases_gets_the_makers_first() -> None:
    """Words and figures come from one language: a Dutch reader of a German maker reads German."""
    actual = said(line(place=1), locale="nl", maker=Maker("Moor", "", ("de", "en")))

    assert actual.startswith("Stand 27. März 2026")


def test_json_of_one_line() -> None:
    """The keys are those of the design's section on commands."""
    actual = order_json([line(**FULL)], FENNMOOR, "en", NAMES)

    assert {
        "order": "1042",
        "status": "waiting",
        "as_of": "2026-03-27",
        "place": 214,
        "window": ["2026-05-04", "2026-05-15"],
        "credit": {"EUR": "30.00"},
        "promised": "2026-04-20",
        "notice_due": None,
        "text": said(line(**FULL)),
    } == actual


def test_json_of_several_lines() -> None:
    """Several lines stand under `lines`, with one text for all."""
    actual = order_json([line(), line("boxed", line="2")], FENNMOOR, "en", NAMES)

    assert ["waiting", "boxed"] == [told["status"] for told in actual["lines"]]
    assert ["as_of", "lines", "order", "text"] == sorted(actual)


def test_names_of_tables_are_not_markup() -> None:
    """A model or part named like HTML is told letter by letter."""
    lines = [line(model="<b>Moor</b> 8", held_up=(Name("part", "P", "<i>x</i>"),))]

    assert "<b>Moor</b> 8" in order_text(lines, FENNMOOR, "en", NAMES)
    assert "<b>" not in order_html(lines, FENNMOOR, "en", NAMES)
