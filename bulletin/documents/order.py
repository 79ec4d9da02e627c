"""Where one order stands, as support pastes it into a chat: one paragraph, the date in its first sentence.

It says what the records bear out and no more: supply is "announced", windows are what "we expect", and where no date is known
it says so. Waiting credit is store credit, never money.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from bulletin.documents.marks import data
from bulletin.documents.notice_words import NoticeWords, chat, units
from bulletin.documents.order_lots import lots_of, standing
from bulletin.documents.order_outlook import danger, lot_outlook, outlook, shared_outlook
from bulletin.documents.order_status import status
from bulletin.documents.phrases import direction
from bulletin.documents.tree import parse_fragment
from bulletin.documents.voice import Voice, voice_for
from bulletin.formats.windows import is_ahead
from bulletin.model import Names
from bulletin.values import to_json

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from bulletin.model import Maker, Notice, OrderLine, Window

NAMELESS = Names()


def order_text(
    lines: Sequence[OrderLine], maker: Maker, locale: str, names: Names = NAMELESS, *, today: date | None = None
) -> str:
    """One paragraph of plain text. `lines` are all of one order, one at least; a locale without phrases gets the maker's.

    `today` is the day it is told on, the as-of date of the lines unless it is given: nothing that has gone by is still expected.
    """
    return parse_fragment(paragraph(lines, voice_for(maker, locale, names, today or lines[0].as_of))).text()


def order_html(
    lines: Sequence[OrderLine], maker: Maker, locale: str, names: Names = NAMELESS, *, today: date | None = None
) -> str:
    """The same paragraph for a mail, each figure and date with its exact value."""
    voice = voice_for(maker, locale, names, today or lines[0].as_of)
    tag = voice.speaker.locale
    return str(Markup('<p lang="{}" dir="{}">{}</p>').format(tag, direction(tag), paragraph(lines, voice)))


def order_json(lines: Sequence[OrderLine], maker: Maker, locale: str, names: Names = NAMELESS) -> dict[str, Any]:
    """The answer for programs; an order of several lines has them under `lines`."""
    text, first = order_text(lines, maker, locale, names), lines[0]
    if len(lines) == 1:
        return {"order": first.order, **_line_json(first), "text": text}
    told = [{"line": line.line, **_line_json(line)} for line in lines]
    return {"order": first.order, "as_of": first.as_of.isoformat(), "lines": told, "text": text}


def _line_json(line: OrderLine) -> dict[str, Any]:
    """`credit` is what the line has earned by waiting so far, whether it has been used since or not."""
    return {
        "status": line.status,
        "as_of": line.as_of.isoformat(),
        "place": line.place,
        "window": to_json(line.window) if line.window else None,
        "credit": to_json(line.credit),
        "promised": line.promised.isoformat() if line.promised else None,
        "notice_due": notice_json(line.notice_due),
    }


def notice_json(notice: Notice | None) -> dict[str, str | None] | None:
    """A notice that is due: `silence` is what the rule makes of no answer, null where nothing is known of it."""
    if notice is None:
        return None
    return {"rule": notice.rule, "by": notice.by.isoformat(), "kind": notice.kind, "silence": notice.silence or None}


def paragraph(lines: Sequence[OrderLine], voice: Voice) -> Markup:
    """All lines of an order in one paragraph, marked."""
    ahead = [replace(line, window=_ahead(line.window, voice), arrival=_ahead(line.arrival, voice)) for line in lines]
    return voice.joined(_one(ahead[0], voice) if len(ahead) == 1 else _several(ahead, voice))


def _ahead(window: Window | None, voice: Voice) -> Window | None:
    """A window that is not over yet."""
    return window if window and is_ahead(window, voice.today) else None


def _one(line: OrderLine, voice: Voice) -> list[Markup]:
    order = data(line.order, line.order)
    subject = voice.say("your order %(order)s (%(model)s)", order=order, model=voice.model(line.model))
    opening = voice.say("As of %(day)s, %(sentence)s", day=voice.day(line.as_of), sentence=status(line, subject, voice))
    return [opening, *(danger([line], voice) if line.hazards else [*outlook(line, voice), *notice([line], voice)])]


def _several(lines: Sequence[OrderLine], voice: Voice) -> list[Markup]:
    """How many units there are, then lot by lot where they stand, then what holds for the order as a whole."""
    first = lines[0]
    opening = voice.say(
        "As of %(day)s, your order %(order)s holds %(units)s.",
        day=voice.day(first.as_of),
        order=data(first.order, first.order),
        units=voice.counted(len(lines), "unit"),
    )
    endangered = [line for line in lines if line.hazards]
    if endangered:
        stand = [standing(lot, voice) for lot in lots_of([*endangered, *(line for line in lines if not line.hazards)])]
        return [opening, stand[0], *danger(endangered, voice), *stand[1:]]
    told = [sentence for lot in lots_of(lines) for sentence in (standing(lot, voice), *lot_outlook(lot, voice))]
    return [opening, *told, *shared_outlook(lines, voice), *notice(lines, voice)]


def notice(lines: Sequence[OrderLine], voice: Voice) -> list[Markup]:
    """The notice of delay that an order is due, where it is, with its choice and how to answer here."""
    late = [line for line in lines if line.notice_due]
    due = next((line.notice_due for line in late), None)
    if due is None:
        return []
    models = tuple(line.model for line in late)
    return chat(NoticeWords(due, late[0].order, units(models, voice), voice))
