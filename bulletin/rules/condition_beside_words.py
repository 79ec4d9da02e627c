"""A condition that does not carry the words of its claim.

A true condition may say nothing (`boxed.week == boxed.week`), or something else than the words: "our best week" needs the record
of the weeks before, "all" and "none" the whole of that fact or its zero, "more" two facts and that way round, "rising" two
periods, "more reliable" an exact test (`better_than`, `rate_fell`), "in stock" what lies on the shelf, "solved" nothing left.
What the words speak of (faults, stock, the queue, refunds) must be what the condition is about, and a yes/no must answer what
they ask. A number that the condition reckons with must be told in the words, for else any figure could be reckoned from any fact.
What can't be bound is marked as an opinion, or somebody answers for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.expressions import Arithmetic, Number, walk
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.emptiness import says_nothing
from bulletin.scrutiny.warrants import uncarried

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case, Reading

NAME = "condition-beside-words"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = 'the condition does not carry "{words}": {why}'
ACCEPTED: tuple[str, ...] = (
    "This was [our best week so far]{boxed.week > boxed.best_week}.",
    "[Nobody is past the date we told]{orders.past_promise == 0}.",
    "[Twice as many as last week]{boxed.week >= 2 * boxed.last_week} were boxed.",
    "[More than last week]{boxed.week > boxed.last_week} were boxed.",
    '[All looms of lot L-2602 have their guard]{defects["D-9"].remedied == defects["D-9"].affected}.',
    '[Spare springs are in stock]{coverage.part["P-110"].shop > 0}.',
)
REJECTED: tuple[str, ...] = (
    "This was [«a fine week»]{boxed.week == boxed.week}.",
    "This was [«a fine week»]{boxed.week >= 0}.",
    "This was [«our biggest week»]{boxed.week > boxed.last_week}.",
    "This was [«our best week»]{boxed.best_week < boxed.best_week + 1}.",
    "[«All parts»]{coverage.parts_in_house > 0.9} are in the house.",
    "[«Fewer than last week»]{boxed.week > boxed.last_week} were boxed.",
    "[«We boxed 900 looms»]{boxed.week + 859}.",
    "[«The looms are more reliable now»]{boxed.week > boxed.last_week}.",
    "[«Output is rising»]{boxed.week > 30}.",
    "[«The crank problem is solved»]{boxed.week > 30}.",
    "[«Warp beams are in stock»]{boxed.week > 30}.",
    '[«Every loom is safe»]{policies["P-1"].in_force}.',
)
PERCENT = 100


def check(case: Case) -> Iterator[Fault]:
    """Claims whose condition holds and yet carries nothing, or not these words; the first reason of each."""
    for reading in case.readings:
        outcome = reading.outcome
        if reading.claim.kind != "claim" or outcome is None or outcome.absent or outcome.faults or outcome.holds is False:
            continue
        why = next((why for test in TESTS if (why := test(case, reading))), "")
        if why:
            yield Fault(reading.claim.words_start, case.words_of(reading.claim), {"why": why})


def _nothing(case: Case, reading: Reading) -> str:
    if not reading.facts:
        return "it touches no fact"
    empty = reading.outcome is not None and says_nothing(reading.claim.expression, reading.outcome, case.facts)
    return "it holds whatever the records say" if empty else ""


def _untold_number(case: Case, reading: Reading) -> str:
    """A number that is added, taken away or multiplied with, and not told; 100 makes percent of a share."""
    told = {figure.value for figure in case.told_figures[reading.claim.start]}
    for node in walk(reading.claim.expression):
        terms = (node.left, node.right) if isinstance(node, Arithmetic) else ()
        for term in terms:
            if isinstance(term, Number) and term.value not in told and term.value != PERCENT:
                return f"it reckons with {term.value}, which the words do not tell"
    return ""


TESTS: tuple[Callable[[Case, Reading], str], ...] = (_nothing, _untold_number, uncarried)
