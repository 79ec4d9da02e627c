"""A date or a span of time in prose that is bound to no fact.

"On Friday" and "in three weeks" are promises, whoever types them. Where the records know a date, it is printed; where they
forecast one, it is a window. Free are the as-of date's own week, month, year and day, words about days that have a fact of
their own ("this week", "yesterday"), habits ("every Friday") and farewells ("see you next week").
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.offers import loose_fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Fault

NAME = "date-without-fact"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" is a date or a span of time that is bound to no fact{nearest}'
ACCEPTED: tuple[str, ...] = (
    "What happened in week 13 of 2026.",
    "This week we boxed {{ boxed.week }} looms.",
    "Every Friday we write to you.",
)
REJECTED: tuple[str, ...] = (
    "The next beams come on «April 17».",
    "All of you will hear from us in «three weeks».",
    "We ship it «tomorrow».",
)


def check(case: Case) -> Iterator[Fault]:
    """Loose dates and spans."""
    for loose in case.loose:
        if loose.is_date:
            yield loose_fault(case, loose)
