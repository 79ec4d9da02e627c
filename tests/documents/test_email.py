"""The mail as a file."""

from __future__ import annotations

import email
import email.policy
from email.message import EmailMessage
from typing import Any

import pytest

from bulletin.documents import email as mails
from bulletin.documents.letter import letter_of
from bulletin.documents.marks import bare_figures
from bulletin.model import Maker
from tests.documents.builders import LETTER, NAMES, bulletin


def sent(**options: Any) -> tuple[bytes, EmailMessage]:
    """The bytes of a mail, and what the standard library's parser makes of them."""
    content = mails.documents(letter_of(bulletin(**options)))[0].content
    parsed = email.message_from_bytes(content, policy=email.policy.default)
    assert isinstance(parsed, EmailMessage)
    return content, parsed


def parts(mail: EmailMessage) -> list[str]:
    """Media types of the parts in order."""
    return [part.get_content_type() for part in mail.iter_parts()]


def test_plainest_part_comes_first() -> None:
    """Plain text stands before HTML (RFC 2046 5.1.4)."""
    _, mail = sent()

    assert "multipart/alternative" == mail.get_content_type()
    assert ["text/plain", "text/html"] == parts(mail)


def test_headers_say_who_what_when_and_in_which_language() -> None:
    """Sender, subject, date, identifier and language come from the bulletin."""
    _, mail = sent()

    assert "Fennmoor Looms <help@fennmoor.example>" == mail["From"]
    assert "Week 13: 41 looms boxed" == mail["Subject"]
    assert "Fri, 27 Mar 2026 15:30:00 +0000" == mail["Date"]
    assert mail["Message-ID"].endswith("@fennmoor.example>")
    assert "en" == mail["Content-Language"]
    assert [] == mail.defects


def test_same_bulletin_gives_the_same_bytes() -> None:
    """Two builds are equal to the byte."""
    assert sent()[0] == sent()[0]


def test_another_word_gives_another_identifier() -> None:
    """The identifier follows the content."""
    assert sent()[1]["Message-ID"] != sent(text=LETTER.replace("joy", "delight"))[1]["Message-ID"]


@pytest.mark.parametrize("locale", ["en", "de", "fr", "es", "ja", "pl", "ar"])
def test_lines_are_short_and_end_in_crlf(locale: str) -> None:
    """Lines hold 78 characters at most and end in CRLF (RFC 5322 2.1.1); everything is ASCII on the wire."""
    content, _ = sent(text=LETTER.replace("Week 13", "Gruß 織機 مرحبا " * 8), locale=locale)
    lines = content.split(b"\r\n")

    assert 78 >= max(map(len, lines))
    assert not any(b"\n" in line for line in lines)
    assert content.isascii()


def test_foreign_subject_comes_back_as_written() -> None:
    """A long subject in other scripts is told in encoded words (RFC 2047) that decode to the same."""
    subject = "Größe, 織機, أنوال – " * 5
    content, mail = sent(text=f"Title: {subject}\n\nThank you.\n")

    assert b"=?utf-8?" in content
    assert subject.strip() == mail["Subject"]


def test_both_parts_say_the_same_words() -> None:
    """What the plain part says stands in the HTML part, and no figure of that stands bare."""
    _, mail = sent()
    plain, html = mail.get_body(("plain",)), mail.get_body(("html",))
    assert plain is not None
    assert html is not None

    assert "We boxed 41 looms this week, our best week so far." in plain.get_content()
    assert 'We boxed <data value="41">41</data> looms this week, our best week so far.' in html.get_content()
    assert [] == bare_figures(html.get_content(), NAMES)


def test_day_stands_in_the_first_lines() -> None:
    """A reader sees the as-of date before anything else is told."""
    _, mail = sent()
    plain = mail.get_body(("plain",))
    assert plain is not None

    assert "As of March 27, 2026" in plain.get_content().splitlines()[:5]


def test_styles_are_inlined_and_nothing_is_fetched() -> None:
    """Elements carry their styles, dark screens have theirs in the head, nothing comes from elsewhere."""
    _, mail = sent()
    html = mail.get_body(("html",))
    assert html is not None
    text = html.get_content()

    assert '<p class="maker" style="' in text
    assert "prefers-color-scheme: dark" in text
    assert not any(tag in text for tag in ("<img", "<link", "<script", "url(", "@import"))


def test_bars_stand_beside_their_figures() -> None:
    """The last six weeks are bars made of table cells with their figures."""
    _, mail = sent()
    html = mail.get_body(("html",))
    assert html is not None

    assert 6 == html.get_content().count('class="filled"')
    assert '<data value="41">41</data></td>' in html.get_content()


@pytest.mark.parametrize("contact", ["", "https://moor.example", "Ann <ann@moor.example>", "ann@@moor", "ann@möör.example"])
def test_a_maker_without_a_plain_address_still_has_a_sender(contact: str) -> None:
    """Without a usable contact the mail names an address that reaches nobody (RFC 2606)."""
    assert "Moor <no-reply@bulletin.invalid>" == str(mails.sender(Maker("Moor", contact)))


def test_long_japanese_subject_gets_no_spaces() -> None:
    """A subject is one line: wide characters are not parted by the folding of the text part."""
    subject = "織機を作りました。" * 6
    _, mail = sent(text=f"Title: {subject}\n\nありがとう。\n", locale="ja")

    assert subject == mail["Subject"]
