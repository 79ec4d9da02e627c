"""Facts from tables that nobody has brought up to date.

A count of boxes that were scanned last week is not this week's count. Where more working days than `stale_after_days` lie between
the newest row of a family that the draft speaks of and the as-of date, or between the as-of date and the day of publishing, the
draft warns; to issue it, the tables must be fresh or somebody must answer for it.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from bulletin.facts.scopes.calendar import Calendar
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.meaning import meaning_of

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "tables-stale"
LEVEL: Level = "warn"
WAIVABLE = True
SENTENCE = "{words} can't be relied on: {why}; a bulletin is not issued like that"
ACCEPTED: tuple[str, ...] = ("We boxed {{ boxed.week }} looms.",)
REJECTED: tuple[str, ...] = ("«»We have {{ coverage.short_parts }} parts on order.",)


def check(case: Case) -> Iterator[Fault]:
    """Families that the draft speaks of with old rows, and an old as-of date."""
    meanings = (meaning_of(fact) for reading in case.readings for fact in reading.facts)
    for family in sorted({meaning.family for meaning in meanings if not meaning.recorded}):
        newest = case.facts.newest(family)
        if newest is not None:
            yield from _gap(case, family, (newest, case.as_of))
    published = case.run.published.astimezone(case.run.settings.maker.zone).date()
    if published < case.as_of:
        yield Fault(None, "the as-of date", {"why": f"{case.as_of} has not come on {published}"}, item="the as-of date")
    yield from _gap(case, "the as-of date", (case.as_of, published))


def _gap(case: Case, what: str, days: tuple[date, date]) -> Iterator[Fault]:
    first, last = days
    limit = case.run.settings.checks.stale_after_days
    between = len(Calendar.of(case.run.settings).working_days(first + timedelta(days=1), last))
    if between > limit:
        why = f"{between} working days lie between {first} and {last}, more than {limit}"
        yield Fault(None, what, {"why": why}, item=what)
