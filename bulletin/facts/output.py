"""What the evidence draws of the line: its output week by week, and faults a hundred units without and with each change."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.facts.counting.day_counts import day_counts
from bulletin.facts.counting.units import units_of
from bulletin.facts.counting.weeks import worked_weeks
from bulletin.facts.statistics.individuals import limits_of
from bulletin.model import Fact, Output, OutputWeek, Step

if TYPE_CHECKING:
    from bulletin.facts.book import Book
    from bulletin.facts.scopes.day import Day


def output_of(day: Day) -> Output | None:
    """The individuals chart that `boxed.unusual` is read from: all completed weeks; None of fewer than two."""
    weeks = worked_weeks(day.calendar, day_counts(day.once(units_of).day), day.as_of)
    limits = limits_of([week.rate for week in weeks])
    if limits is None:
        return None
    drawn = tuple(OutputWeek(week.days.first, week.rate, not limits.hold(week.rate)) for week in weeks)
    return Output(drawn, limits.low, limits.centre, limits.high)


def changed_rates(book: Book) -> tuple[tuple[Fact, Fact], ...]:
    """Affected units a hundred without and with each change of changes.csv that has both, in the order of their names."""
    if book.day.lacks(("changes",)):
        return ()
    changes = sorted(set(book.day.table("changes").frame["change"]))
    pairs = [[_rate(book, change, name) for name in ("rate_before", "rate")] for change in changes]
    return tuple((before, after) for before, after in pairs if isinstance(before, Fact) and isinstance(after, Fact))


def _rate(book: Book, change: str, name: str) -> object:
    return book.find((Step("name", "changes"), Step("item", change), Step("name", name)))
