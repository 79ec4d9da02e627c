"""Words of a period beside a fact of that very period: "next week" is told by `plan.next_week`, which counts it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.meaning import meaning_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bulletin.formats.figures import Figure
    from bulletin.model import Fact
    from bulletin.scrutiny.case import Case
    from bulletin.scrutiny.loose import Loose

TIMES = frozenset({"date", "span"})


def tells_own_period(case: Case, figure: Figure, facts: Iterable[Fact]) -> bool:
    """Whether a date in words is the period of one of these facts."""
    if case.language is None or figure.kind not in TIMES:
        return False
    periods = {meaning_of(fact).period for fact in facts} & case.language.periods.keys()
    return any(case.language.periods[period].fullmatch(figure.text) for period in periods)


def is_carried(case: Case, loose: Loose) -> bool:
    """Whether a date in prose is the period of a fact in its own sentence."""
    if not loose.is_date:
        return False
    at = loose.figure.start
    passages = (passage for passage in case.passages if passage.block is loose.block and passage.sentence.holds(at))
    stretches = (stretch for passage in passages for stretch in passage.stretches)
    return any(tells_own_period(case, loose.figure, case.reading_of[stretch.claim.start].facts) for stretch in stretches)
