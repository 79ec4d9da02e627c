"""What lies ahead of an order: what holds it up, when it is expected, its credit, its refund, and what comes next."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from bulletin.documents.order_credit import next_credit, store_credit
from bulletin.documents.order_lots import Lot, lot_name
from bulletin.documents.order_shortages import shortage
from bulletin.model import Window

if TYPE_CHECKING:
    from collections.abc import Sequence

    from markupsafe import Markup

    from bulletin.documents.voice import Voice
    from bulletin.model import OrderLine

STATES = ("waiting", "held", "refund", "boxed", "shipped", "delivered", "cancelled")
"""From the one with the most before it."""


def danger(lines: Sequence[OrderLine], voice: Voice) -> list[Markup]:
    """What can happen and what to do now, in the maker's own words, and whom to ask; nothing pleasant beside it."""
    stop = voice.say("Please stop using it: there is an open safety defect on this unit.")
    hazards = dict.fromkeys(hazard for line in lines for hazard in line.hazards)
    words = [voice.words(text, lines[0].as_of) for hazard in hazards for text in (hazard.hazard, hazard.do_now) if text]
    asking = voice.say("Questions? Write to %(contact)s.", contact=voice.contact)
    return [stop, *words, *([asking] if voice.contact else [])]


def outlook(line: OrderLine, voice: Voice) -> list[Markup]:
    """What lies ahead of an order of one unit without a danger."""
    match line.status:
        case "waiting":
            subject = voice.say("your order")
            ahead = [*shortage([line], voice), *boxing(line.window, subject, voice), *promise(line, voice)]
            ahead += arrival(line.arrival, voice)
        case "boxed":
            ahead = arrival(line.arrival, voice)
        case "shipped":
            ahead = arrival(line.arrival, voice) or [voice.say("Next your order is delivered to you.")]
        case "held":
            ahead = promise(line, voice)
        case _:
            ahead = []
    return [*opened_again(line, voice), *ahead, *_papers([line], voice), *_next(line, voice)]


def lot_outlook(lot: Lot, voice: Voice) -> list[Markup]:
    """What lies ahead of some units of an order alone: the rest is told once for all."""
    windows = [line.window for line in lot if line.window] if lot[0].status == "waiting" else []
    arrivals = [line.arrival for line in lot if line.arrival] if lot[0].status in ("boxed", "shipped") else []
    told = [*boxing(_spanning(windows), lot_name(lot, voice), voice), *arrival(_spanning(arrivals), voice)]
    return [*opened_again(lot[0], voice), *told]


def shared_outlook(lines: Sequence[OrderLine], voice: Voice) -> list[Markup]:
    """What holds for all units of an order, told once: shortages, the date last told, credit, refund, what comes next."""
    waiting = [line for line in lines if line.status in ("waiting", "held")]
    latest = max(waiting, key=_window_ends, default=None)
    told = [*shortage([line for line in waiting if line.status == "waiting"], voice), *(promise(latest, voice) if latest else [])]
    return [*told, *_papers(lines, voice), *_next(min(lines, key=_furthest_back), voice)]


def _furthest_back(line: OrderLine) -> int:
    """The unit with the most before it says what comes next."""
    return STATES.index(line.status)


def _window_ends(line: OrderLine) -> date:
    return line.window.last if line.window else date.max


def _spanning(windows: Sequence[Window]) -> Window | None:
    """From the first day of any to the last day of any."""
    return Window(min(each.first for each in windows), max(each.last for each in windows)) if windows else None


def _papers(lines: Sequence[OrderLine], voice: Voice) -> list[Markup]:
    """Credit and refund of an order; no credit once nothing of it is to come."""
    live = [line for line in lines if line.status not in ("cancelled", "refund")]
    credit = [*store_credit(live[0].store_credit, voice), *next_credit(live, voice)] if live else []
    return [*credit, *refund(lines, voice)]


def refund(lines: Sequence[OrderLine], voice: Voice) -> list[Markup]:
    """The refund of an order, where the first sentence has not told it: never as if it were paid before it is."""
    asked = lines[0].refund
    if asked is None or (len(lines) == 1 and lines[0].status == "refund"):
        return []
    fill = {"asked": voice.day(asked.asked), "amount": voice.money(asked.amount)}
    if asked.paid is None:
        return [voice.say("The refund of %(amount)s that you asked for on %(asked)s has not been paid yet.", **fill)]
    paid = voice.day(asked.paid)
    return [voice.say("You asked for a refund on %(asked)s, and %(amount)s was refunded on %(paid)s.", paid=paid, **fill)]


def _next(line: OrderLine, voice: Voice) -> list[Markup]:
    match line.status:
        case "waiting":
            return [voice.say("Next we box your order, then it is on its way to you.")]
        case "held":
            return [voice.say("When the hold ends, your order takes its place in the queue again.")]
        case "refund" if line.refund is None or line.refund.paid is None:
            return [voice.say("If you would rather keep your order, just tell us.")]
        case "boxed":
            return [voice.say("Next your order is on its way to you.")]
        case _:
            return []


def opened_again(line: OrderLine, voice: Voice) -> list[Markup]:
    """That a unit's box was opened again, as long as it has not left."""
    if line.reopened is None or line.status in ("shipped", "delivered", "cancelled"):
        return []
    return [voice.say("The box had been closed once already; we opened it again on %(date)s.", date=voice.day(line.reopened))]


def boxing(window: Window | None, subject: Markup, voice: Voice) -> list[Markup]:
    """When units are expected to be boxed; `subject` says which."""
    return [voice.say("We expect to box %(subject)s %(when)s.", subject=subject, when=voice.when(window))] if window else []


def arrival(window: Window | None, voice: Voice) -> list[Markup]:
    """When units are expected at the customer's door, where that is known."""
    return [voice.say("We expect delivery %(when)s.", when=voice.when(window))] if window else []


def promise(line: OrderLine, voice: Voice) -> list[Markup]:
    """The date last told, held against what is expected now; honest where nothing is known. A notice of delay tells it itself."""
    if line.notice_due is not None:
        return []
    if line.window is not None:
        return _missed(line.window, line.promised, voice)
    if line.promised is None:
        return [_undated(line, voice)]
    day = voice.day(line.promised)
    if line.promised < voice.today:
        return [_passed(day, voice)]
    if line.status == "held":
        return [voice.say("The date we last gave you for shipping, %(date)s, may move because of the hold.", date=day)]
    return [voice.say("The date we last gave you for shipping is %(date)s.", date=day), *_unchecked(line, voice)]


def _undated(line: OrderLine, voice: Voice) -> Markup:
    """That there is no date, and why, where that is known."""
    match line.unforeseen:
        case "history":
            return voice.say("We can't give you a date yet: we have not built for long enough to forecast one.")
        case "reach":
            return voice.say(
                "We can't give you a date yet: your turn lies further ahead than our forecast and the parts on order reach."
            )
        case _:
            return voice.say("We can't give you a date yet.")


def _unchecked(line: OrderLine, voice: Voice) -> list[Markup]:
    """That nobody can say whether the date last told holds, and why."""
    match line.unforeseen:
        case "history":
            return [voice.say("We have not built for long enough to say whether that still holds.")]
        case "reach":
            return [voice.say("Our forecast and the parts on order do not reach far enough to say whether that still holds.")]
        case _:
            return []


def _passed(day: Markup, voice: Voice) -> Markup:
    return voice.say(
        "The date we last gave you for shipping, %(date)s, has passed, and we can't give you a new one yet. We are sorry.",
        date=day,
    )


def _missed(window: Window, promised: date | None, voice: Voice) -> list[Markup]:
    if promised is None or window.last <= promised:
        return []
    day = voice.day(promised)
    if window.first <= promised:
        return [voice.say("That may be later than the date we last gave you, %(date)s. We are sorry.", date=day)]
    return [voice.say("That is later than the date we last gave you, %(date)s, and we are sorry.", date=day)]
