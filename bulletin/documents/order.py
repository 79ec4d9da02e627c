"""Where one order stands, as support pastes it into a chat: one paragraph, the date in its first sentence.

It says what the records bear out and no more: supply "is due", windows are what "we expect", and where no date is known it
says so. Waiting credit is store credit, never money.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from bulletin.documents.marks import data
from bulletin.documents.phrases import direction
from bulletin.documents.tree import parse_fragment
from bulletin.documents.voice import Voice, voice_for
from bulletin.model import Names
from bulletin.values import to_json

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bulletin.model import Maker, OrderLine

NAMELESS = Names()


def order_text(lines: Sequence[OrderLine], maker: Maker, locale: str, names: Names = NAMELESS) -> str:
    """One paragraph of plain text. `lines` are all of one order, one at least; a locale without phrases gets the maker's."""
    return parse_fragment(paragraph(lines, voice_for(maker, locale, names))).text()


def order_html(lines: Sequence[OrderLine], maker: Maker, locale: str, names: Names = NAMELESS) -> str:
    """The same paragraph for a mail, each figure and date with its exact value."""
    voice = voice_for(maker, locale, names)
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
    return {
        "status": line.status,
        "as_of": line.as_of.isoformat(),
        "place": line.place,
        "window": to_json(line.window) if line.window else None,
        "credit": to_json(line.credit),
        "promised": line.promised.isoformat() if line.promised else None,
        "notice_due": None,
    }


def paragraph(lines: Sequence[OrderLine], voice: Voice) -> Markup:
    """All lines of an order in one paragraph, marked."""
    first = lines[0]
    day, order = voice.day(first.as_of), data(first.order, first.order)
    if len(lines) == 1:
        subject = voice.say("order %(order)s (%(model)s)", order=order, model=voice.model(first.model))
        sentences = [
            voice.say("As of %(day)s, %(sentence)s", day=day, sentence=status(first, subject, voice)),
            *outlook(first, voice),
        ]
        return voice.joined(sentences)
    sentences = [
        voice.say_count(
            "As of %(day)s, your order %(order)s holds %(count)s unit.",
            "As of %(day)s, your order %(order)s holds %(count)s units.",
            len(lines),
            day=day,
            order=order,
            count=voice.number(len(lines)),
        )
    ]
    for line in lines:
        subject = voice.say("Line %(line)s (%(model)s)", line=data(line.line, line.line), model=voice.model(line.model))
        sentences += [status(line, subject, voice), *outlook(line, voice)]
    return voice.joined(sentences)


def status(line: OrderLine, subject: Markup, voice: Voice) -> Markup:
    """The sentence that says where a unit of an order stands."""
    match line.status:
        case "waiting" if line.place is not None:
            place, model = voice.number(line.place), voice.model(line.model)
            return voice.say(
                "%(subject)s is waiting at place %(place)s of the %(model)s queue.", subject=subject, place=place, model=model
            )
        case "waiting":
            return voice.say("%(subject)s is waiting.", subject=subject)
        case "held":
            return voice.say("%(subject)s is on hold and stands outside the queue.", subject=subject)
        case "refund":
            return voice.say("%(subject)s has a refund on record and stands outside the queue.", subject=subject)
        case _:
            return _done(line, subject, voice)


def _done(line: OrderLine, subject: Markup, voice: Voice) -> Markup:
    """The same for units that have been boxed, have left, or were cancelled; without the day where it isn't known."""
    match line.status:
        case "boxed" if line.boxed:
            return voice.say(
                "%(subject)s was boxed on %(date)s and is waiting to be shipped.", subject=subject, date=voice.day(line.boxed)
            )
        case "boxed":
            return voice.say("%(subject)s is boxed and is waiting to be shipped.", subject=subject)
        case "shipped" if line.closed:
            return voice.say("%(subject)s was shipped on %(date)s.", subject=subject, date=voice.day(line.closed))
        case "shipped":
            return voice.say("%(subject)s has been shipped.", subject=subject)
        case "delivered" if line.delivered:
            return voice.say("%(subject)s was delivered on %(date)s.", subject=subject, date=voice.day(line.delivered))
        case "delivered":
            return voice.say("%(subject)s has been delivered.", subject=subject)
        case "cancelled" if line.closed:
            return voice.say("%(subject)s was cancelled on %(date)s.", subject=subject, date=voice.day(line.closed))
        case "cancelled":
            return voice.say("%(subject)s has been cancelled.", subject=subject)
        case unknown:
            raise ValueError(f"an order can't be {unknown!r}")


def outlook(line: OrderLine, voice: Voice) -> list[Markup]:
    """The dangers of a unit, what holds it up, when it is expected, its credit, and what comes next."""
    if line.hazards:
        return danger(line, voice)
    match line.status:
        case "waiting":
            told = [*shortage(line, voice), *expected(line, voice), *credit(line, voice)]
            return [*told, voice.say("Next we box it, and then it leaves for you.")]
        case "held":
            return [*credit(line, voice), voice.say("When the hold ends, it takes its place in the queue again.")]
        case "refund":
            return [voice.say("If you would rather keep your order, please tell us.")]
        case "boxed":
            return [*arrival(line, voice), *credit(line, voice), voice.say("Next it leaves for you.")]
        case "shipped":
            return [*(arrival(line, voice) or [voice.say("Next it is delivered to you.")]), *credit(line, voice)]
        case "delivered":
            return credit(line, voice)
        case _:
            return []


def danger(line: OrderLine, voice: Voice) -> list[Markup]:
    """What can happen and what to do now, in the maker's own words, and whom to ask; nothing pleasant beside it."""
    stop = voice.say("Please stop using it: there is an open safety defect on this unit.")
    words = [voice.words(text, line.as_of) for hazard in line.hazards for text in (hazard.hazard, hazard.do_now) if text]
    asking = voice.say("Questions? Write to %(contact)s.", contact=voice.contact)
    return [stop, *words, *([asking] if voice.contact else [])]


def shortage(line: OrderLine, voice: Voice) -> list[Markup]:
    """The parts a unit waits for and when the next ones are due, as far as the supplier has told."""
    if not line.held_up:
        return []
    lack = voice.say_count(
        "It is held up by a part that we do not have enough of: %(parts)s.",
        "It is held up by parts that we do not have enough of: %(parts)s.",
        len(line.held_up),
        parts=voice.listing(line.held_up),
    )
    if line.next_arrival is None:
        return [lack, voice.say("We have no date for the next supply yet.")]
    return [lack, voice.say("The next supply is due on %(date)s.", date=voice.day(line.next_arrival))]


def expected(line: OrderLine, voice: Voice) -> list[Markup]:
    """When a waiting unit is expected to be boxed, held against the date last told; honest where nothing is known."""
    if line.window is None:
        return [_last_told(line, voice)]
    first, last = voice.day(line.window.first), voice.day(line.window.last)
    if line.window.first == line.window.last:
        told = [voice.say("We expect to box it around %(date)s.", date=first)]
    else:
        told = [voice.say("We expect to box it between %(first)s and %(last)s.", first=first, last=last)]
    if line.promised is not None and line.window.first > line.promised:
        told.append(
            voice.say("That is later than the date we last gave you, %(date)s, and we are sorry.", date=voice.day(line.promised))
        )
    return [*told, *arrival(line, voice)]


def _last_told(line: OrderLine, voice: Voice) -> Markup:
    if line.promised is None:
        return voice.say("We can't give you a date yet.")
    date = voice.day(line.promised)
    if line.promised < line.as_of:
        return voice.say(
            "The date we last gave you for shipping, %(date)s, has passed, and we can't give you a new one yet. We are sorry.",
            date=date,
        )
    return voice.say("The date we last gave you for shipping is %(date)s.", date=date)


def arrival(line: OrderLine, voice: Voice) -> list[Markup]:
    """When a unit is expected at the customer's door, where that is known."""
    if line.arrival is None:
        return []
    first, last = voice.day(line.arrival.first), voice.day(line.arrival.last)
    if line.arrival.first == line.arrival.last:
        return [voice.say("We expect it to reach you around %(date)s.", date=first)]
    return [voice.say("We expect it to reach you between %(first)s and %(last)s.", first=first, last=last)]


def credit(line: OrderLine, voice: Voice) -> list[Markup]:
    """The waiting credit so far and the next step of it, told as store credit."""
    told = []
    earned = any(amount for _, amount in line.credit.amounts)
    if earned:
        told.append(voice.say("Your waiting credit so far is %(amount)s, as store credit.", amount=voice.money(line.credit)))
    if line.next_credit is not None and line.status == "waiting":
        day, money = line.next_credit
        fill = {"date": voice.day(day), "amount": voice.money(money)}
        if earned:
            told.append(voice.say("If it is still waiting on %(date)s, another %(amount)s of store credit is added.", **fill))
        else:
            told.append(voice.say("If it is still waiting on %(date)s, %(amount)s of store credit is added.", **fill))
    return told
