"""The answer about one order."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from bulletin.documents.marks import bare_figures
from bulletin.documents.order import order_html, order_json, order_text
from bulletin.model import Hazard, Hold, Maker, Money, Name, OrderLine, Refund, Shortage, StoreCredit, Window
from tests.documents.builders import FENNMOOR, NAMES, line

LOCALES = ["en", "de", "fr", "es", "ja", "pl", "ar"]
STATUSES = ["waiting", "held", "refund", "boxed", "shipped", "delivered", "cancelled"]


def euros(amount: str) -> Money:
    """An amount of euros."""
    return Money((("EUR", Decimal(amount)),))


FULL: dict[str, Any] = {
    "place": 214,
    "window": Window(date(2026, 5, 4), date(2026, 5, 15)),
    "arrival": Window(date(2026, 5, 8), date(2026, 5, 22)),
    "promised": date(2026, 4, 20),
    "held_up": (Shortage(Name("part", "P-104", "warp beam"), date(2026, 4, 10), 12),),
    "credit": euros("30.00"),
    "store_credit": StoreCredit(euros("30.00"), left=euros("30.00")),
    "hold": Hold("moving house", date(2026, 4, 1)),
    "refund": Refund(date(2026, 3, 10), euros("1420.00")),
    "next_credit": (date(2026, 4, 3), euros("15.00")),
}


def said(*lines: OrderLine, locale: str = "en", maker: Maker = FENNMOOR) -> str:
    """The paragraph."""
    return order_text(lines, maker, locale, NAMES)


def without_papers(**fields: object) -> dict[str, Any]:
    """A full line of an order under no hold, whose refund nobody asked for."""
    return {**FULL, "hold": None, "refund": None, **fields}


def test_waiting_order_is_told_in_full() -> None:
    """Place, shortage and supply, window, apology, arrival, credit and next step, in this order."""
    expected = (
        "As of March 27, 2026, your order 1042 (Heron 8) is number 214 in the Heron 8 queue. "
        "Your order waits for 1 part that we do not have enough of: "
        "warp beam (announced for April 10, 2026; this part usually comes 12\u00a0days late). "
        "We expect to box your order between May 4, 2026 and May 15, 2026. "
        "That is later than the date we last gave you, April 20, 2026, and we are sorry. "
        "We expect delivery between May 8, 2026 and May 22, 2026. "
        "You have €30.00 of store credit for the wait. "
        "If your order is still waiting on April 3, 2026, another €15.00 of store credit is added. "
        "Next we box your order, then it is on its way to you."
    )

    assert expected == said(line(**without_papers()))


def test_german_tells_the_same() -> None:
    """The German paragraph names the part in German and keeps to the same facts."""
    actual = said(line(**without_papers()), locale="de")

    assert actual.startswith(
        "Stand 27. März 2026: Ihre Bestellung 1042 (Heron 8) steht auf Platz 214 der Warteliste für Heron 8."
    )
    assert "Kettbaum (angekündigt für den 10. April 2026; dieses Teil kommt meist 12\u00a0Tage zu spät)" in actual
    assert "30,00\u00a0€ Guthaben in unserem Laden" in actual


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


@pytest.mark.parametrize(("promised", "words"), [(9, ""), (8, "may be later"), (1, "may be later"), (31, "is later")])
def test_window_is_held_against_the_date_told(promised: int, words: str) -> None:
    """A window that ends after the date told may be later than it; one that begins after it is; else nobody is sorry."""
    told = date(2026, 3, 31) if promised == 31 else date(2026, 4, promised)
    actual = said(line(window=Window(date(2026, 4, 1), date(2026, 4, 9)), promised=told))

    assert bool(words) == ("sorry" in actual)
    assert words in actual


def test_window_of_one_day_is_never_a_bare_date() -> None:
    """A window of a single day is told as around that day."""
    assert "around April 1, 2026" in said(line(window=Window(date(2026, 4, 1), date(2026, 4, 1))))


@pytest.mark.parametrize(
    ("locale", "boxing", "delivery"),
    [
        ("en", "We expect to box your order between early June and late July 2026.", "between mid-June and late July 2026"),
        (
            "de", "Wir rechnen damit, Ihre Bestellung zwischen Anfang Juni und Ende Juli 2026 zu verpacken.",
            "Mit der Zustellung rechnen wir zwischen Mitte Juni und Ende Juli 2026.",
        ),
        (
            "fr", "Nous prévoyons d’emballer votre commande entre début juin et fin juillet 2026.",
            "Nous prévoyons la livraison entre mi-juin et fin juillet 2026.",
        ),
        (
            "es", "Prevemos embalar su pedido entre principios de junio y finales de julio de 2026.",
            "Prevemos la entrega entre mediados de junio y finales de julio de 2026.",
        ),
        ("ja", "2026年6月上旬から7月下旬の間にご注文の箱詰めを行う見込みです。", "6月中旬から7月下旬の間にお届けの見込みです。"),
        (
            "pl", "że zapakujemy Państwa zamówienie między początkiem czerwca a końcem lipca 2026.",
            "Doręczenia spodziewamy się między połową czerwca a końcem lipca 2026.",
        ),
        ("ar", "بين أوائل يونيو وأواخر يوليو 2026.", "نتوقع التسليم بين منتصف يونيو وأواخر يوليو 2026."),
    ],
)  # fmt: skip
def test_far_windows_are_told_in_parts_of_months(locale: str, boxing: str, delivery: str) -> None:
    """Nobody plans by the day two months ahead; the sentences stay grammatical in each language."""
    far = line(window=Window(date(2026, 6, 5), date(2026, 7, 24)), arrival=Window(date(2026, 6, 11), date(2026, 7, 30)))
    actual = said(far, locale=locale)

    assert boxing in actual
    assert delivery in actual


def test_days_gone_by_are_not_told_as_still_to_come() -> None:
    """A window that has begun is told by its end, one that is over not at all: then there is no date yet."""
    waiting = line(window=Window(date(2026, 4, 1), date(2026, 4, 9)), arrival=Window(date(2026, 3, 30), date(2026, 4, 2)))
    within, after = (order_text([waiting], FENNMOOR, "en", NAMES, today=date(2026, 4, day)) for day in (3, 10))

    assert "We expect to box your order by April 9, 2026 at the latest." in within
    assert "delivery" not in within
    assert "We expect" not in after
    assert "We can't give you a date yet." in after


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("promised", [None, date(2026, 4, 20)])
def test_why_there_is_no_window_is_said(locale: str, promised: date | None) -> None:
    """A history too short and a place too far off are told apart, with a date told before and without one."""
    lines = (line(place=3, promised=promised, unforeseen=why) for why in ("", "history", "reach"))
    known, short, far = (said(each, locale=locale) for each in lines)

    assert 3 == len({known, short, far})
    assert len(short) > len(known)
    assert len(far) > len(known)


def test_store_credit_is_never_called_money() -> None:
    """Credit is store credit wherever it is told."""
    actual = said(line(**without_papers()))

    assert actual.count("store credit") == 2
    assert "money" not in actual


@pytest.mark.parametrize(
    ("used", "expired", "left", "words"),
    [
        ("0", "0", "10.50", "You have €10.50 of store credit for the wait."),
        ("10.50", "0", "0", "For the wait you earned €10.50 of store credit; you have used all of it."),
        ("4.00", "0", "6.50", "For the wait you earned €10.50 of store credit; €6.50 of it is left."),
        ("4.00", "6.50", "0", "For the wait you earned €10.50 of store credit; none of it is left."),
    ],
)
def test_credit_that_is_gone_is_not_told_as_if_it_were_there(used: str, expired: str, left: str, words: str) -> None:
    """What is used, expired or left of the credit, and never "you used it" of what expired."""
    credit = StoreCredit(euros("10.50"), euros(used), euros(expired), euros(left))

    assert words in said(line("delivered", delivered=date(2026, 3, 1), store_credit=credit))


def test_cancelled_order_has_no_outlook() -> None:
    """After a cancellation nothing comes next and no credit is told."""
    assert "As of March 27, 2026, your order 1042 (Heron 8) was cancelled on March 1, 2026." == said(
        line("cancelled", closed=date(2026, 3, 1), credit=FULL["credit"], store_credit=FULL["store_credit"])
    )


def test_a_refund_is_paid_only_where_the_record_says_so() -> None:
    """Unpaid: the request, that it isn't paid, and how to keep the order. Paid: the day. The same after a cancellation."""
    paid = Refund(date(2026, 3, 10), euros("1420.00"), date(2026, 3, 17))
    lines = [
        line(status, closed=date(2026, 3, 1), refund=asked)
        for status in ("refund", "cancelled")
        for asked in (FULL["refund"], paid)
    ]
    actual = [said(each).split("(Heron 8) ")[1] for each in lines]

    assert [
        "is out of the queue: we have your refund request of March 10, 2026 for €1,420.00; it is not paid yet. "
        "If you would rather keep your order, just tell us.",
        "is out of the queue: you asked for a refund on March 10, 2026, and €1,420.00 was refunded on March 17, 2026.",
        "was cancelled on March 1, 2026. The refund of €1,420.00 that you asked for on March 10, 2026 has not been paid yet.",
        "was cancelled on March 1, 2026. You asked for a refund on March 10, 2026, and €1,420.00 was refunded on March 17, 2026.",
    ] == actual


@pytest.mark.parametrize(
    ("hold", "words"),
    [
        (Hold("address not confirmed"), "is on hold (address not confirmed) and stands outside the queue."),
        (Hold("moving", date(2026, 4, 1)), "is on hold until April 1, 2026 (moving) and stands outside the queue."),
    ],
)
def test_a_hold_is_told_with_its_reason_and_its_end(hold: Hold, words: str) -> None:
    """The reason in the maker's words, the end where it is known, and the apology for a date that has passed."""
    actual = said(line("held", hold=hold, promised=date(2026, 3, 20)))

    assert words in actual
    assert "has passed, and we can't give you a new one yet. We are sorry." in actual
    assert actual.endswith("When the hold ends, your order takes its place in the queue again.")


def test_a_box_that_was_opened_again_is_told_until_it_leaves() -> None:
    """One sentence on a waiting or boxed order, none once it has been shipped."""
    told = [said(line(status, reopened=date(2026, 3, 12))) for status in ("waiting", "boxed", "shipped")]

    assert [True, True, False] == ["we opened it again on March 12, 2026." in text for text in told]


def test_three_parts_are_named_and_the_rest_counted() -> None:
    """Each part with its own date; of five, two are only counted."""
    parts = tuple(Shortage(Name("part", f"P-{at}", f"part {at}"), date(2026, 4, at) if at < 3 else None) for at in range(1, 6))

    assert (
        "Your order waits for 5 parts that we do not have enough of: part 1 (announced for April 1, 2026), "
        "part 2 (announced for April 2, 2026), part 3 (no date announced yet), and 2 more."
    ) in said(line(held_up=parts))


def test_lines_that_stand_alike_are_told_together() -> None:
    """Three Heron 12 of one order: their places in one sentence, and the credit, the parts and the next step once."""
    lines = [line(line=str(at), **without_papers(model="Heron 12", place=82 + at)) for at in (1, 2, 3)]
    actual = said(*lines)

    assert actual.startswith(
        "As of March 27, 2026, your order 1042 holds 3\u00a0units. 3 × Heron 12: numbers 83, 84, and 85 in the queue. "
        "We expect to box 3 × Heron 12 between May 4, 2026 and May 15, 2026."
    )
    assert "another €45.00 of store credit" in actual
    assert [1, 1, 1] == [actual.count(words) for words in ("You have", "warp beam", "Next we box")]
    assert len(actual) < 700


def test_several_lines_follow_one_dated_sentence() -> None:
    """An order of two units says so first and then tells where each stands."""
    actual = said(line("shipped", closed=date(2026, 3, 25)), line(line="2", model="Heron 12", place=12))

    assert actual.startswith(
        "As of March 27, 2026, your order 1042 holds 2\u00a0units. Heron 8: shipped on March 25, 2026. "
        "Heron 12: number 12 in the queue."
    )


def test_a_danger_comes_before_all_else_of_an_order() -> None:
    """Of two lines the unit with an open safety defect comes first, and nothing pleasant stands beside it."""
    hazard = Hazard(Name("defect", "D-12", "pawl"), "The pawl may slip.", "Slacken the warp.")
    actual = said(line(**without_papers()), line("delivered", line="2", model="Heron 12", hazards=(hazard,)))

    assert actual.startswith(
        "As of March 27, 2026, your order 1042 holds 2\u00a0units. Heron 12: delivered. Please stop using it: there is an open "
        "safety defect on this unit. The pawl may slip. Slacken the warp."
    )
    assert "store credit" not in actual


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("status", STATUSES)
def test_lots_are_told_in_every_language(locale: str, status: str) -> None:
    """Two units in each state, with a day and without: one line, nothing unfilled, the figures marked."""
    days = {"boxed": date(2026, 3, 20), "closed": date(2026, 3, 21), "delivered": date(2026, 3, 24)}
    for fields in (days, {}):
        lines = [line(status, line=at, **{**FULL, **fields}) for at in ("1", "2")]

        assert not any(mark in said(*lines, locale=locale) for mark in ("\n", "%(", "<", "&", "  ", ".."))
        assert [] == bare_figures(order_html(lines, FENNMOOR, locale, NAMES), NAMES)


def test_no_full_stop_stands_twice_after_a_currency() -> None:
    """The Kuwaiti dinar's sign in Arabic ends with a full stop of its own (CLDR 47, ar)."""
    dinars = Money((("KWD", Decimal("4.000")),))
    actual = said(line(next_credit=(date(2026, 4, 3), dinars), store_credit=StoreCredit(dinars, left=dinars)), locale="ar")

    assert "د.ك.\u200f" in actual
    assert not re.search(r"\.\u200f?\.", actual)


@pytest.mark.parametrize(("count", "form"), [(2, "2\u00a0sztuki"), (5, "5\u00a0sztuk"), (22, "22\u00a0sztuki")])
def test_polish_counts_units_in_three_forms(count: int, form: str) -> None:
    """2 and 22 are few, 5 is many (CLDR 47 plurals, pl)."""
    lines = [line("shipped", line=str(number)) for number in range(count)]

    assert form in said(*lines, locale="pl")


@pytest.mark.parametrize(("count", "form"), [(2, "وحدتان"), (5, "5 وحدات"), (11, "11 وحدة"), (100, "100 وحدة")])
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
    lines = [line(model="<b>Moor</b> 8", held_up=(Shortage(Name("part", "P", "<i>x</i>")),))]

    assert "<b>Moor</b> 8" in order_text(lines, FENNMOOR, "en", NAMES)
    assert "<b>" not in order_html(lines, FENNMOOR, "en", NAMES)
