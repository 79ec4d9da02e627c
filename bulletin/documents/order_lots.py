"""Lines of one order that stand alike, told together, as in `3 × Heron 12: numbers 83, 84 and 85 in the queue`."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from bulletin.documents.voice import Voice
    from bulletin.model import OrderLine

Lot = tuple["OrderLine", ...]
"""Lines of one model in one state, one at least."""


def lots_of(lines: Sequence[OrderLine]) -> list[Lot]:
    """Lines that stand alike, in the order of the first of each."""
    kinds = [_kind(line) for line in lines]
    together = sorted(zip(lines, kinds, strict=True), key=lambda pair: kinds.index(pair[1]))
    return [tuple(line for line, _ in pairs) for _, pairs in groupby(together, key=lambda pair: pair[1])]


def _kind(line: OrderLine) -> tuple[object, ...]:
    return line.status, line.model, _day_of(line), line.reopened, line.place is None, line.hazards


def _day_of(line: OrderLine) -> date | None:
    """The day of the state that a line has reached."""
    return {"boxed": line.boxed, "shipped": line.closed, "delivered": line.delivered, "cancelled": line.closed}.get(line.status)


def lot_name(lot: Lot, voice: Voice) -> Markup:
    """What is told of: the model, with the number of its units where there are several."""
    model = escape(voice.model(lot[0].model))
    return model if len(lot) == 1 else Markup("{} × {}").format(voice.number(len(lot)), model)


def standing(lot: Lot, voice: Voice) -> Markup:
    """Where the units of a lot stand."""
    units, day = lot_name(lot, voice), _day_of(lot[0])
    match lot[0].status:
        case "waiting":
            return _in_queue(lot, units, voice)
        case "held":
            return _on_hold(lot[0], units, voice)
        case "refund":
            return voice.say("%(units)s: outside the queue because of your refund request.", units=units)
        case _ if day:
            return _done_on(lot[0].status, units, voice.day(day), voice)
        case _:
            return _done(lot[0].status, units, voice)


def _in_queue(lot: Lot, units: Markup, voice: Voice) -> Markup:
    places = sorted(line.place for line in lot if line.place is not None)
    if not places:
        return voice.say("%(units)s: waiting.", units=units)
    return voice.say_count(
        "%(units)s: number %(places)s in the queue.",
        "%(units)s: numbers %(places)s in the queue.",
        len(places),
        units=units,
        places=voice.listing([voice.number(place) for place in places]),
    )


def _on_hold(line: OrderLine, units: Markup, voice: Voice) -> Markup:
    if line.hold is None:
        return voice.say("%(units)s: on hold, outside the queue.", units=units)
    reason, until = voice.words(line.hold.reason, line.as_of), line.hold.until
    if until is None:
        return voice.say("%(units)s: on hold (%(reason)s), outside the queue.", units=units, reason=reason)
    day = voice.day(until)
    return voice.say("%(units)s: on hold until %(date)s (%(reason)s), outside the queue.", units=units, date=day, reason=reason)


def _done_on(state: str, units: Markup, day: Markup, voice: Voice) -> Markup:
    match state:
        case "boxed":
            return voice.say("%(units)s: boxed on %(date)s, waiting to be shipped.", units=units, date=day)
        case "shipped":
            return voice.say("%(units)s: shipped on %(date)s.", units=units, date=day)
        case "delivered":
            return voice.say("%(units)s: delivered on %(date)s.", units=units, date=day)
        case _:
            return voice.say("%(units)s: cancelled on %(date)s.", units=units, date=day)


def _done(state: str, units: Markup, voice: Voice) -> Markup:
    match state:
        case "boxed":
            return voice.say("%(units)s: boxed, waiting to be shipped.", units=units)
        case "shipped":
            return voice.say("%(units)s: shipped.", units=units)
        case "delivered":
            return voice.say("%(units)s: delivered.", units=units)
        case _:
            return voice.say("%(units)s: cancelled.", units=units)
