"""A figure in prose that is bound to no fact.

Figures are what readers remember and repeat, and a figure typed by hand is right on the day it is typed at best. So every
number in digits or words, every fraction, "twice" and "a dozen" stands in one of the three forms. Free are names, versions,
addresses, ordinary idioms, the ordinals of headings and steps, and the as-of date's own week, month and year. The offer is the
fact that has that value or, failing that, the one that the words around the figure speak of.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.offers import loose_fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Fault

NAME = "number-without-fact"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = 'the figure "{words}" is bound to no fact{nearest}'
ACCEPTED: tuple[str, ...] = (
    "We boxed {{ boxed.week }} looms.",
    "[About forty looms]{boxed.week} were boxed.",
    "The Heron 12 folds flat, as every one of you knows.",
    "Thanks a million for your patience.",
)
REJECTED: tuple[str, ...] = (
    "We boxed «87» looms.",
    "We boxed «eighty-seven» looms.",
    "«A dozen» looms wait for a warp beam.",
    "«Half» of the looms are boxed.",
    "We boxed *«8*7» looms.",
)


def check(case: Case) -> Iterator[Fault]:
    """Loose figures that are no dates."""
    for loose in case.loose:
        if not loose.is_date:
            yield loose_fault(case, loose)
