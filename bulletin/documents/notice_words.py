"""The words of a notice of delay, sentence by sentence, in a reader's language: mails, chats and the maker's list alike."""

from __future__ import annotations

import re
from collections import Counter
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from bulletin.documents.marks import data, mark_words
from bulletin.documents.order_shortages import shortages
from bulletin.documents.phrases import catalogue, direction
from bulletin.documents.reader import Reader

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from bulletin.documents.voice import Voice
    from bulletin.model import Delay, Notice

BLANK = re.compile(r"\{(\w+)\}")


def said(words: Mapping[str, str], voice: Voice, **fill: object) -> Markup:
    """A sentence of the settings' texts with its blanks filled and every figure of its own marked."""
    pieces = BLANK.split(chosen(words, voice.speaker.locale))
    return Markup("").join(escape(fill[piece]) if number % 2 else _marked(piece, voice) for number, piece in enumerate(pieces))


def _marked(words: str, voice: Voice) -> Markup:
    """The shipped words hold no figure; those of a maker's counsel may."""
    if not any(map(str.isdigit, words)):
        return escape(words)
    return mark_words(words, Reader(voice.speaker.locale, voice.today, voice.names))


def chosen(words: Mapping[str, str], locale: str) -> str:
    """The words for a locale: its own, its language's, the English ones as the catalogue has them, else the first there are."""
    for tag in (locale, locale.split("-")[0]):
        if tag in words:
            return words[tag]
    english = words.get("en")
    return catalogue(locale).gettext(english) if english else next(iter(words.values()))


class NoticeWords:
    """One order's notice in one voice; `voice.today` is the day it is sent."""

    def __init__(self, notice: Notice, order: str, units: Markup, voice: Voice) -> None:
        """`units` are what the customer waits for."""
        self.notice = notice
        self.order = order
        self.voice = voice
        self._everywhere = {
            "order": data(self.apart(order), order),
            "units": units,
            "by": voice.day(notice.by),
            "rule": data(self.apart(notice.rule), notice.rule),
        }

    def apart(self, name: str) -> str:
        """A name whose own direction holds among words from right to left, in texts without markup too (UAX 9, isolates)."""
        return f"\u2068{name}\u2069" if direction(self.voice.speaker.locale) == "rtl" else name

    def sentence(self, name: str, /, **fill: object) -> Markup:
        """One of the sentences."""
        return said(self.notice.sentences[name], self.voice, **self._everywhere, **fill)

    @property
    def delay(self) -> list[Markup]:
        """What was told, and that it is not kept."""
        placed = self.notice.placed
        told = self.sentence("placed", placed=self.voice.day(placed)) if placed else self.sentence("told")
        return [told, self.sentence("late")]

    @property
    def new_date(self) -> Markup:
        """The definite new date, or that none can be given."""
        new = self.notice.new
        return self.sentence("new_date", new=self.voice.day(new)) if new else self.sentence("no_date")

    @property
    def choice(self) -> list[Markup]:
        """To wait or to cancel, and what no answer means until when."""
        return [self.sentence("choice"), self._silence]

    @property
    def _silence(self) -> Markup:
        notice = self.notice
        if notice.until is None:
            return self.sentence("silence")
        if notice.until < self.voice.today:
            return self.sentence("lapsed")
        return self.sentence("silence", until=self.voice.day(notice.until), new=self.voice.day(notice.new or notice.until))

    @property
    def write_to(self) -> list[Markup]:
        """The maker's address, where there is one."""
        contact = self.voice.contact
        return [self.sentence("write_to", contact=self.apart(contact))] if contact else []

    @property
    def foot(self) -> Markup:
        """The rule it comes from."""
        return self.sentence("foot")


def words_of(delay: Delay, voice: Voice) -> NoticeWords:
    """The words for an order that is due a notice."""
    return NoticeWords(delay.notice, delay.order, units(delay.models, voice), voice)


def units(models: tuple[str, ...], voice: Voice) -> Markup:
    """The units of an order: `Heron 8`, `2 × Heron 12 and Heron 8`."""
    counts = Counter(models)
    return voice.listing([_several(count, escape(voice.model(model)), voice) for model, count in counts.items()])


def _several(count: int, name: Markup, voice: Voice) -> Markup:
    return name if count == 1 else Markup("{} × {}").format(voice.number(count), name)


def reason(delay: Delay, words: NoticeWords) -> list[Markup]:
    """Why no date can be told, as far as the records know: the hold it is under, or the parts that it waits for."""
    if delay.notice.new is not None:
        return []
    if delay.hold is not None:
        return [words.sentence("reason", reason=words.voice.words(delay.hold.reason, words.voice.today))]
    return shortages(delay.held_up, words.voice)


def chat(words: NoticeWords, why: Sequence[Markup] = ()) -> list[Markup]:
    """The notice as it is pasted into a chat; `why` is the reason for the delay where nothing before has told it."""
    return [*words.delay, words.new_date, *why, *words.choice, words.sentence("reply_in_chat"), *words.write_to, words.foot]
