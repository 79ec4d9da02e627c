"""The parts an order waits for, each with the day its supplier has announced and how late it usually comes."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from markupsafe import Markup

    from bulletin.documents.voice import Voice
    from bulletin.model import OrderLine, Shortage

TOLD = 3
"""So many parts are told by name; the rest are counted."""


def shortage(lines: Sequence[OrderLine], voice: Voice) -> list[Markup]:
    """What any of these lines of an order waits for."""
    return shortages(tuple(dict.fromkeys(part for line in lines for part in line.held_up)), voice)


def shortages(missing: Sequence[Shortage], voice: Voice) -> list[Markup]:
    """The parts that an order waits for."""
    if not missing:
        return []
    parts = [_announced(part, voice) for part in missing[:TOLD]]
    if len(missing) > TOLD:
        parts.append(voice.say("%(count)s more", count=voice.number(len(missing) - TOLD)))
    return [
        voice.say_count(
            "Your order waits for %(count)s part that we do not have enough of: %(parts)s.",
            "Your order waits for %(count)s parts that we do not have enough of: %(parts)s.",
            len(missing),
            count=voice.number(len(missing)),
            parts=voice.listing(parts),
        )
    ]


def _announced(shortage: Shortage, voice: Voice) -> Markup:
    part = voice.called(shortage.part)
    if shortage.next_arrival is None:
        return voice.say("%(part)s (no date announced yet)", part=part)
    day = voice.day(shortage.next_arrival)
    if shortage.usual_lateness is None:
        return voice.say("%(part)s (announced for %(date)s)", part=part, date=day)
    return voice.say(
        "%(part)s (announced for %(date)s; this part usually comes %(days)s late)",
        part=part,
        date=day,
        days=voice.counted(shortage.usual_lateness, "day"),
    )
