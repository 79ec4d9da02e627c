"""The maker's list of notices that are due and of orders to be paid back, with each rule's own words and a text for a chat.

It is written in English like the checker's messages; what a customer reads stands in it in the customer's language.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bulletin.documents.marks import data, mark_words
from bulletin.documents.notice_mail import file_name, mail_address
from bulletin.documents.notice_words import chat, reason, words_of
from bulletin.documents.pages import page, style, style_digest
from bulletin.documents.phrases import direction
from bulletin.documents.reader import Reader
from bulletin.documents.statements import LANGUAGE
from bulletin.documents.voice import voice_for
from bulletin.model import Addressee

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date, datetime

    from markupsafe import Markup

    from bulletin.documents.voice import Voice
    from bulletin.model import Delay, Maker, Names, RefundDue
    from bulletin.settings import Notice as Section

NOBODY = Addressee()


@dataclass(frozen=True)
class NoticeWork:
    """What a maker has to do about delays on a day: notices to send, orders to pay back, and the sections of the settings behind.

    `sent` is the time of publishing in the maker's zone, the day on which the notices are taken to be sent.
    """

    maker: Maker
    names: Names
    as_of: date
    sent: datetime
    delays: tuple[Delay, ...]
    refunds: tuple[RefundDue, ...]
    sections: Sequence[Section]
    addressees: Mapping[str, Addressee]

    def addressee(self, order: str) -> Addressee:
        """Whom mail about an order is for; nobody where contacts.csv does not know."""
        return self.addressees.get(order, NOBODY)


@dataclass(frozen=True)
class Entry:
    """One notice on the list: what the maker has to know and to do about an order."""

    delay: Delay
    order: Markup
    by: Markup
    overdue: bool
    new: Markup | None
    until: Markup | None
    lapsed: bool
    address: str
    file: str
    reasoned: bool
    locale: str
    direction: str
    chat: Markup


def as_html(work: NoticeWork) -> str:
    """The list to read and print, what is due first on top."""
    voice = voice_for(work.maker, LANGUAGE, work.names, work.sent.date())
    reader = Reader(LANGUAGE, work.as_of, work.names)
    css = style("shared/maker.css", "notice/list.css")
    by_day = sorted(work.delays, key=lambda delay: delay.notice.by)
    return page(
        "notice/list.html",
        LANGUAGE,
        work=work,
        css=css,
        css_digest=style_digest(css),
        as_of=voice.day(work.as_of),
        entries=[_entry(work, delay, voice) for delay in by_day],
        sections=_used(work),
        number=voice.number,
        counted=voice.counted,
        day=voice.day,
        money=voice.money,
        cell=lambda text: data(text, text),
        words=lambda text: mark_words(text, reader),
    )


def _entry(work: NoticeWork, delay: Delay, voice: Voice) -> Entry:
    notice, today = delay.notice, work.sent.date()
    theirs = voice_for(work.maker, delay.locale, work.names, today)
    words = words_of(delay, theirs)
    why = reason(delay, words)
    to = work.addressee(delay.order)
    return Entry(
        delay,
        data(delay.order, delay.order),
        voice.day(notice.by),
        notice.by < today,
        voice.day(notice.new) if notice.new else None,
        voice.day(notice.until) if notice.until else None,
        notice.until is not None and notice.until < today,
        to.email if mail_address(to) else "",
        file_name(delay.order),
        notice.new is not None or bool(why),
        theirs.speaker.locale,
        direction(theirs.speaker.locale),
        theirs.joined(chat(words, why)),
    )


def _used(work: NoticeWork) -> list[Section]:
    """The sections whose rule anything on the list goes by."""
    rules = {delay.notice.rule for delay in work.delays} | {refund.rule for refund in work.refunds}
    return [section for section in work.sections if section.rule in rules]
