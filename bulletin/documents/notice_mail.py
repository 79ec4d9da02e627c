"""A notice of delay as a mail: the choice where nobody overlooks it, both answers alike and one press away, plain text first."""

from __future__ import annotations

from email.headerregistry import Address
from email.message import EmailMessage
from email.utils import format_datetime
from hashlib import sha256
from typing import TYPE_CHECKING
from urllib.parse import quote

from markupsafe import Markup

from bulletin.documents.email import ADDRESS, POLICY, domain, encoding, inlined, sender
from bulletin.documents.notice_words import reason, words_of
from bulletin.documents.pages import page, style
from bulletin.documents.tree import parse_fragment
from bulletin.documents.voice import voice_for
from bulletin.model import Document

if TYPE_CHECKING:
    from datetime import datetime

    from bulletin.documents.notice_words import NoticeWords
    from bulletin.model import Addressee, Delay, Maker, Names

LONGEST = 80
"""Characters of an order's number in the name of a file; a longer one is told apart by its digest."""


def file_name(order: str) -> str:
    """The name of an order's mail: letters, digits and `-._~`, all else as its bytes, so that no order leaves the folder."""
    name = quote(order, safe="")
    short = name if len(name) <= LONGEST else f"{name[:LONGEST]}-{sha256(order.encode()).hexdigest()[:12]}"
    return f"{short}.eml"


def mail_address(to: Addressee) -> Address | None:
    """The address to send to; None where contacts.csv has none that is plain."""
    found = ADDRESS.fullmatch(to.email)
    return Address(to.name, found[1], found[2]) if found else None


def mail(delay: Delay, to: Addressee, maker: Maker, names: Names, published: datetime) -> tuple[EmailMessage, str]:
    """The mail and its HTML. Programs for mail open it as a draft, to be looked at and sent."""
    voice = voice_for(maker, delay.locale, names, published.date())
    words = words_of(delay, voice)
    text = _filled("notice/mail.txt", words, delay, to, maker)
    html = inlined(_filled("notice/mail.html", words, delay, to, maker))
    digest = sha256("\0".join((delay.order, to.email, text, html)).encode()).hexdigest()
    message = EmailMessage(POLICY)
    message["From"] = sender(maker)
    if (address := mail_address(to)) is not None:
        message["To"] = address
    message["Subject"] = parse_fragment(words.sentence("subject")).text()
    message["Date"] = format_datetime(published)
    message["Message-ID"] = f"<{digest[:32]}@{domain(maker)}>"
    message["X-Unsent"] = "1"
    message.set_content(text, cte=encoding(text))
    message.add_alternative(html, subtype="html", cte=encoding(html))
    message.set_boundary(f"=_{digest[32:]}")
    message["Content-Language"] = voice.speaker.locale
    return message, html


def document(folder: str, delay: Delay, message: EmailMessage) -> Document:
    """The mail as a file."""
    return Document(f"{folder}/{file_name(delay.order)}", "message/rfc822", message.as_bytes(policy=POLICY))


def _filled(template: str, words: NoticeWords, delay: Delay, to: Addressee, maker: Maker) -> str:
    locale = words.voice.speaker.locale
    return page(
        template,
        locale,
        maker=maker,
        words=words,
        greeting=words.sentence("greeting", name=words.apart(to.name)) if to.name else words.sentence("greeting_without_name"),
        reason=reason(delay, words),
        joined=words.voice.joined,
        plain=lambda marked: parse_fragment(marked).text(),
        answer=lambda name: _answer(maker, words, name),
        css=style("shared/mail.css", "notice/mail.css"),
    )


def _answer(maker: Maker, words: NoticeWords, name: str) -> Markup:
    """A sentence as a link that writes the answer; the sentence alone for a maker whom no mail reaches."""
    said = words.sentence(name)
    if not ADDRESS.fullmatch(maker.contact):
        return said
    subject = quote(f"{words.order}: {parse_fragment(said).text()}", safe="")
    return Markup('<a href="mailto:{}?subject={}">{}</a>').format(maker.contact, subject, said)
