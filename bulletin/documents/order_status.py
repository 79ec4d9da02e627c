"""The sentence that says where the one unit of an order stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markupsafe import Markup

    from bulletin.documents.voice import Voice
    from bulletin.model import OrderLine


def status(line: OrderLine, subject: Markup, voice: Voice) -> Markup:
    """Where a unit stands. `subject` names the order."""
    match line.status:
        case "waiting" if line.place is not None:
            place, model = voice.number(line.place), voice.model(line.model)
            return voice.say("%(subject)s is number %(place)s in the %(model)s queue.", subject=subject, place=place, model=model)
        case "waiting":
            return voice.say("%(subject)s is waiting.", subject=subject)
        case "held":
            return _held(line, subject, voice)
        case "refund":
            return _refund_asked(line, subject, voice)
        case _:
            return _done(line, subject, voice)


def _held(line: OrderLine, subject: Markup, voice: Voice) -> Markup:
    if line.hold is None:
        return voice.say("%(subject)s is on hold and stands outside the queue.", subject=subject)
    reason = voice.words(line.hold.reason, line.as_of)
    if line.hold.until is None:
        return voice.say("%(subject)s is on hold (%(reason)s) and stands outside the queue.", subject=subject, reason=reason)
    return voice.say(
        "%(subject)s is on hold until %(date)s (%(reason)s) and stands outside the queue.",
        subject=subject,
        date=voice.day(line.hold.until),
        reason=reason,
    )


def _refund_asked(line: OrderLine, subject: Markup, voice: Voice) -> Markup:
    """Paid only where the record has the day on which it was."""
    if line.refund is None:
        return voice.say("%(subject)s is out of the queue: you asked for a refund.", subject=subject)
    asked, amount = voice.day(line.refund.asked), voice.money(line.refund.amount)
    if line.refund.paid is None:
        return voice.say(
            "%(subject)s is out of the queue: we have your refund request of %(asked)s for %(amount)s; it is not paid yet.",
            subject=subject,
            asked=asked,
            amount=amount,
        )
    return voice.say(
        "%(subject)s is out of the queue: you asked for a refund on %(asked)s, and %(amount)s was refunded on %(paid)s.",
        subject=subject,
        asked=asked,
        amount=amount,
        paid=voice.day(line.refund.paid),
    )


def _done(line: OrderLine, subject: Markup, voice: Voice) -> Markup:
    """Units that have been boxed, have left, or were cancelled; without the day where it isn't known."""
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
