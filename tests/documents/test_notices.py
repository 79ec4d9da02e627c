"""Notices of delay as mails, chat texts, tables and the maker's list."""

from __future__ import annotations

import csv
import email
import email.policy
import re
from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal
from email.message import EmailMessage
from io import StringIO
from typing import Any

import pytest

from bulletin.documents import notices
from bulletin.documents.marks import bare_figures
from bulletin.documents.notice_list import NoticeWork
from bulletin.documents.notice_mail import file_name, mail
from bulletin.documents.notice_tables import refunds_csv, told_csv
from bulletin.documents.notice_words import chat, words_of
from bulletin.documents.order import order_json, order_text
from bulletin.documents.tree import parse_fragment
from bulletin.documents.voice import voice_for
from bulletin.facts.notices import notice_under
from bulletin.model import Addressee, Delay, Hazard, Hold, Maker, Money, Name, RefundDue, Shortage
from bulletin.settings import Notice as Section
from bulletin.settings.notice_terms import shipped_texts, terms_of
from bulletin.settings.notice_texts import Kind
from tests.documents.builders import AS_OF, FENNMOOR, NAMES, line

LOCALES = ["en", "de", "fr", "es", "ja", "pl", "ar"]
CFR, DIRECTIVE = "16 CFR Part 435", "Directive 2011/83/EU Art. 18"
SENT = datetime(2026, 3, 27, 15, 30, tzinfo=UTC)
BY, SOON, LATE = date(2026, 4, 1), date(2026, 5, 1), date(2026, 5, 2)
"""The date that is not kept; 30 and 31 days later."""
TO = Addressee("Ilvy Moorland", "ilvy@reader.example")


def section(rule: str) -> Section:
    """A [[notice]] section under the shipped terms of a rule."""
    return Section(markets=("US",), rule=rule).under(terms_of(shipped_texts(), rule))


def delay(new: date | None = SOON, rule: str = CFR, kind: Kind = "notice", **fields: Any) -> Delay:
    """Order 1042 of a Heron 8, told 2026-04-01."""
    notice = notice_under(section(rule), kind, fields.pop("by", BY), new, fields.pop("placed", None))
    return Delay(**{"order": "1042", "locale": "en", "models": ("Heron 8",), "notice": notice, **fields})


def sent(late: Delay, to: Addressee = TO, maker: Maker = FENNMOOR) -> EmailMessage:
    """The mail as a program for mail reads it."""
    message, _ = mail(late, to, maker, NAMES, SENT)
    parsed = email.message_from_bytes(message.as_bytes(), policy=email.policy.default)
    assert isinstance(parsed, EmailMessage)
    return parsed


def plain(late: Delay, **options: Any) -> str:
    """The plain part, unwrapped."""
    body = sent(late, **options).get_body(("plain",))
    assert body is not None
    return " ".join(body.get_content().split())


def html(late: Delay, **options: Any) -> str:
    body = sent(late, **options).get_body(("html",))
    assert body is not None
    return str(body.get_content())


def work(*delays: Delay, refunds: tuple[RefundDue, ...] = (), **people: Addressee) -> NoticeWork:
    rules = dict.fromkeys([*(late.notice.rule for late in delays), *(refund.rule for refund in refunds)])
    sections = [section(rule) for rule in rules]
    return NoticeWork(FENNMOOR, NAMES, AS_OF, SENT, delays, refunds, sections, people)


def test_a_first_notice_of_thirty_days() -> None:
    """What was told, the new date, the choice, what silence means until when, how to answer (16 CFR 435.2(b)(1)(ii))."""
    expected = (
        "Fennmoor Looms Dear Ilvy Moorland, "
        "We told you that your order 1042 (Heron 8) would leave us by April 1, 2026. "
        "It is delayed beyond that day, and we are sorry. "
        "The new date by which it is to leave us is May 1, 2026. "
        "You have the choice: wait for it, or cancel it and promptly get all your money back. "
        "If you do not cancel before it leaves us, and by May 1, 2026 at the latest, "
        "you are taken to agree to wait until that day. "
        "To answer, reply to this mail: “wait” or “cancel” is enough. You can also write to help@fennmoor.example. "
        "-- We write to you because of 16 CFR Part 435."
    )

    assert expected == plain(delay())


CANCELLED = "Unless it has left us by May 1, 2026, or you have told us by that day that you agree to wait, your order is cancel"
STILL = "If you agree to wait without a date, you can still cancel at any time before it leaves us."
SILENCE: dict[str, tuple[Delay, str]] = {
    "31 days later, (b)(1)(iii)": (delay(LATE), CANCELLED),
    "no date, (b)(1)(iii)": (delay(None), CANCELLED),
    "no date: a continuing right to cancel": (delay(None), STILL),
    "renewed, (b)(2)": (delay(LATE, kind="renewed"), CANCELLED.replace("May", "April")),
    "the directive": (delay(rule=DIRECTIVE), "If we do not hear from you, your order waits on."),
    "asked too late": (delay(LATE, by=date(2026, 2, 1)), "We should have asked you earlier. Unless you tell us at once"),
}


@pytest.mark.parametrize(("late", "expected"), SILENCE.values(), ids=SILENCE)
def test_what_silence_means_is_told(late: Delay, expected: str) -> None:
    """Each case of 16 CFR 435.2(b) says its own, up to its own day."""
    assert expected in plain(late)


def test_without_a_date_the_reason_is_told() -> None:
    """The hold that an order is under, else the parts it waits for (FTC Business Guide: the reason for the delay)."""
    short = (Shortage(Name("part", "P-104", "warp beam"), date(2026, 4, 10)),)
    held, missing = delay(None, hold=Hold("moving house"), held_up=short), delay(None, held_up=short)

    assert "how long the delay is going to be. The reason is: moving house." in plain(held)
    assert "waits for 1 part that we do not have enough of: warp beam (announced for April 10, 2026)." in plain(missing)
    assert "waits for" not in plain(delay(SOON, held_up=short))


def test_an_order_that_was_told_no_date() -> None:
    """The day that counts comes from that of the order (Directive 2011/83/EU Art. 18(1): 2026-01-31 -> 2026-03-02)."""
    told = plain(delay(rule=DIRECTIVE, by=date(2026, 3, 2), placed=date(2026, 1, 31)))

    assert "on January 31, 2026 and were told no date, so it was to leave us by March 2, 2026." in told


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("late", [delay(), delay(LATE), delay(None), delay(LATE, kind="renewed"), delay(rule=DIRECTIVE)])
def test_every_language_tells_it_all(late: Delay, locale: str) -> None:
    """Each date and the order stand in both parts, no English is left over, no figure stands bare, no blank is unfilled."""
    late = replace(late, locale=locale)
    text, page = plain(late), html(late)
    days = {day.isoformat() for day in (late.notice.by, late.notice.new, late.notice.until) if day}

    assert days == set(re.findall(r'<time datetime="([^"]+)"', page))
    assert "1042" in text
    assert [] == bare_figures(page, NAMES)
    assert not re.search(r"[{}]", text)
    assert ("You have the choice" in text) == (locale == "en")


def test_words_are_those_of_the_readers_language_or_the_makers() -> None:
    """A region reads its language, a reader without phrases the maker's first locale, and its dates with it."""
    assert "Der neue Termin, bis zu dem sie unser Haus verlassen soll, ist der 1. Mai 2026." in plain(delay(locale="de-AT"))
    assert "is May 1, 2026." in plain(delay(locale="nl"))


def test_a_rule_keeps_its_direction() -> None:
    """Among Arabic words "16 CFR" is not read as "CFR 16": it is isolated (UAX 9), in mails and in chats."""
    late = delay(locale="ar")

    assert "\u206816 CFR Part 435\u2069" in plain(late)
    assert "\u2068" not in plain(delay())


def test_own_words_take_the_place_of_ours() -> None:
    """Counsel's words are said as they stand, in every language that they do not have; their figures are marked."""
    late = delay()
    own = {**late.notice.sentences, "choice": {"en": "Wait 30 days, or <cancel>.", "de": "Warten oder stornieren."}}
    late = replace(late, notice=replace(late.notice, sentences=own))

    assert re.search(r'Wait <time datetime="P30D"[^>]*>30 days</time>, or &lt;cancel&gt;\.', html(late))
    assert "Warten oder stornieren." in plain(replace(late, locale="de"))
    assert "Wait 30 days, or <cancel>." in plain(replace(late, locale="fr"))


def test_headers_address_the_customer() -> None:
    """Who, to whom, what about; programs for mail open it as a draft; both parts are there."""
    message = sent(delay())

    assert "Ilvy Moorland <ilvy@reader.example>" == message["To"]
    assert "Your order 1042 is delayed: wait or cancel?" == message["Subject"]
    assert ("1", "en", "Fri, 27 Mar 2026 15:30:00 +0000") == (
        message["X-Unsent"],
        message["Content-Language"],
        message["Date"],
    )
    assert ["text/plain", "text/html"] == [part.get_content_type() for part in message.iter_parts()]
    assert [] == message.defects


@pytest.mark.parametrize("address", ["", "nobody", "a@b, c@d.example", "x@y.example\nBcc: z@y.example"])
def test_no_address_is_made_up(address: str) -> None:
    """Without one plain address a mail has no recipient, and no cell makes a header of its own."""
    message = sent(delay(), to=Addressee("", address))

    assert (None, None) == (message["To"], message["Bcc"])
    assert "Hello," in plain(delay(), to=Addressee("", address))


def test_both_answers_are_one_press_away_and_alike() -> None:
    """Each is a mail to the maker with the order and the answer in its subject; without an address they are words."""
    page = html(delay())
    links = re.findall(r'<a href="([^"]+)"( style="[^"]+")', page)

    assert [
        "mailto:help@fennmoor.example?subject=1042%3A%20I%20agree%20to%20wait",
        "mailto:help@fennmoor.example?subject=1042%3A%20Cancel%2C%20money%20back",
    ] == [target for target, _ in links]
    assert 1 == len({styles for _, styles in links})
    assert "mailto:" not in html(delay(), maker=Maker("Moor", "https://moor.example"))


def test_the_same_notice_gives_the_same_bytes() -> None:
    """Two mails are equal to the byte; another order has another identifier."""
    first, second = (mail(delay(), TO, FENNMOOR, NAMES, SENT)[0].as_bytes() for _ in range(2))

    assert first == second
    assert sent(delay())["Message-ID"] != sent(delay(order="1043"))["Message-ID"]


@pytest.mark.parametrize("locale", LOCALES)
def test_lines_are_short(locale: str) -> None:
    """Lines hold 78 characters at most (RFC 5322 2.1.1) and are ASCII on the wire."""
    message, _ = mail(delay(locale=locale), TO, FENNMOOR, NAMES, SENT)
    content = message.as_bytes()

    assert 78 >= max(map(len, content.split(b"\r\n")))
    assert content.isascii()


def test_several_units_are_counted() -> None:
    """Units of one model are told together."""
    assert "(2 × Heron 12 and Heron 8)" in plain(delay(models=("Heron 12", "Heron 8", "Heron 12")))


FILES = {
    "1042": "1042.eml",
    "../../etc/passwd": "..%2F..%2Fetc%2Fpasswd.eml",
    "a\\b:c?": "a%5Cb%3Ac%3F.eml",
    "Ä 1": "%C3%84%201.eml",
}


@pytest.mark.parametrize(("order", "expected"), FILES.items())
def test_no_order_leaves_its_folder(order: str, expected: str) -> None:
    """What a system might take for a part of a path is written as its bytes."""
    assert expected == file_name(order)


def test_long_orders_are_told_apart() -> None:
    """Two long numbers that begin alike have two files, and no name is too long for a disk."""
    names = {file_name("x" * 300 + end) for end in "ab"}

    assert 2 == len(names)
    assert all(len(name) < 120 for name in names)


def test_rows_are_ready_for_told() -> None:
    """The columns of told.csv: the day of sending, the new date or nothing, the kind; answers are still to come."""
    rows = told_csv([delay(), delay(None, order="9"), delay(LATE, kind="renewed", order="10")], AS_OF)

    assert (
        "order,told,due,kind,answer,answered\n"
        "1042,2026-03-27,2026-05-01,notice,,\n"
        "9,2026-03-27,,notice,,\n"
        "10,2026-03-27,2026-05-02,renewed,,\n"
    ) == rows


def refund(**fields: Any) -> RefundDue:
    paid = Money((("JPY", Decimal("1500")), ("USD", Decimal("890.00"))))
    return RefundDue(**{"order": "1042", "rule": CFR, "since": AS_OF, "why": "no consent", "amount": paid, **fields})


def test_rows_are_ready_for_refunds() -> None:
    """The columns of refunds.csv, a row a currency; an amount that nobody knows is left empty."""
    rows = refunds_csv([refund(), refund(order="9", amount=None)])

    assert (
        "order,asked,paid,amount,currency\n1042,2026-03-27,,1500,JPY\n1042,2026-03-27,,890.00,USD\n9,2026-03-27,,,\n"
    ) == rows


@pytest.mark.parametrize("order", ["=1+1", "+1", "-1", "@x", '=HYPERLINK("http://moor.example")', "\t=1"])
def test_no_cell_is_a_formula(order: str) -> None:
    """A spreadsheet program shows an order's number and runs nothing (OWASP, CSV Injection; from memory)."""
    cells = [row[0] for row in csv.reader(StringIO(told_csv([delay(order=order)], AS_OF)))]

    assert ["order", f"'{order}"] == cells


def test_the_list_tells_the_maker_what_to_do() -> None:
    """By when, by whose rule, what silence means, what is missing; the caution; who is to be paid back; the first due first."""
    late = [delay(order="B-2"), delay(None, order="A-1", by=date(2026, 2, 1))]
    page = notices.documents("week", work(*late, refunds=(refund(),), **{"B-2": TO}))[0]
    told = {document.path: document.content.decode() for document in page}
    listed = " ".join(parse_fragment(told["week/for-the-maker/notices/notices.html"].split("<body>")[1]).text().split())

    assert listed.index("A-1, due by February 1, 2026 (the day has passed)") < listed.index("B-2, due by April 1, 2026")
    assert "Silence is consent, unless the customer cancels by May 1, 2026. (16 CFR 435.2(b)(1)(ii))" in listed
    assert "Silence is cancellation, and its last day, March 3, 2026, has passed." in listed
    assert "To ilvy@reader.example: the mail." in listed
    assert "No address to send it to in contacts.csv" in listed
    assert "The records hold no reason for the delay: say it in the mail." in listed
    assert "the program is no lawyer. Local law and your counsel decide" in listed
    assert "1042: ¥1,500 + $890.00, no consent by March 27, 2026, under 16 CFR Part 435" in listed


def test_all_documents_of_a_day() -> None:
    """The list, two tables, a mail an order; sorted, none with a bare figure; a list without a line says so."""
    made, problems = notices.documents("week", work(delay(), delay(order="1043")))
    empty, _ = notices.documents("week", work())
    folder = "week/for-the-maker/notices"

    assert [f"{folder}/{name}" for name in ("mails/1042.eml", "mails/1043.eml", "notices.html", "refunds.csv", "told.csv")] == [
        document.path for document in made
    ]
    assert [] == problems
    assert b"None is due." in empty[0].content


def waiting(**fields: Any) -> Any:
    return line(place=3, promised=BY, notice_due=delay(**fields.pop("notice", {})).notice, **fields)


def test_support_pastes_the_notice() -> None:
    """The answer about an order ends with its notice, and does not tell the date that moved twice."""
    told = order_text([waiting()], FENNMOOR, "en", NAMES)

    assert 1 == told.count("April 1, 2026")
    assert told.endswith(
        "To answer, tell us here: “wait” or “cancel” is enough. You can also write to help@fennmoor.example. "
        "We write to you because of 16 CFR Part 435."
    )


def test_several_lines_have_one_notice() -> None:
    """An order of two units is asked once."""
    told = order_text([waiting(), waiting(line="2")], FENNMOOR, "en", NAMES)

    assert 1 == told.count("You have the choice")
    assert "your order 1042 (2 × Heron 8)" in told


def test_a_danger_leaves_no_room_for_a_choice() -> None:
    """Where a unit must not be used, nothing is said beside it."""
    danger = Hazard(Name("defect", "D-12", "brake"), "It may slip.", "Stop.")

    assert "wait or" not in order_text([waiting(hazards=(danger,))], FENNMOOR, "en", NAMES)


def test_programs_get_the_notice_as_designed() -> None:
    """`order --json` has rule, date, kind and silence; null where the rule says nothing of it."""
    told = [order_json([waiting(notice={"rule": rule})], FENNMOOR, "en", NAMES)["notice_due"] for rule in (CFR, DIRECTIVE)]

    assert [
        {"rule": CFR, "by": "2026-04-01", "kind": "notice", "silence": "consent"},
        {"rule": DIRECTIVE, "by": "2026-04-01", "kind": "notice", "silence": None},
    ] == told


@pytest.mark.parametrize("locale", LOCALES)
def test_a_chat_has_no_mail_in_it(locale: str) -> None:
    """The text for a chat says how to answer in the chat, in each language, in one paragraph."""
    voice = voice_for(FENNMOOR, locale, NAMES, AS_OF)
    words = words_of(delay(locale=locale), voice)
    told = parse_fragment(voice.joined(chat(words))).text()

    assert parse_fragment(words.sentence("reply_in_chat")).text() in told
    assert parse_fragment(words.sentence("reply_to_mail")).text() not in told
    assert "\n" not in told
