"""A figure in the words of a claim that disagrees with the facts of its condition.

A true condition does not make the words true: "[We boxed 900 looms]{boxed.week > 10}" says more than it holds. Every figure in
the words must agree with a fact that the condition touches, within what its rounding word admits ("about", "more than",
"nearly"), or stand in the condition itself on the side that the words say. Where the condition is a value, the words must tell
it. What disagrees with the records can't be answered for, so that this rule can't be waived.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.formats.rounding import agrees
from bulletin.model import Name
from bulletin.scrutiny.bounds import stands_in_condition
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.measures import measured
from bulletin.scrutiny.own_periods import tells_own_period
from bulletin.scrutiny.wording import tells_one, tells_whole, tells_words, tells_zero

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.formats.figures import Figure
    from bulletin.model import Level, Value
    from bulletin.scrutiny.case import Case, Reading

NAME = "number-off-fact"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = '"{words}" does not tell what the records say: {values}'
ACCEPTED: tuple[str, ...] = (
    "[About 1,300 looms]{boxed.total} have left the bench.",
    "[More than 30 looms]{boxed.week > 30} were boxed.",
    "[Twice as many as last week]{boxed.week >= 2 * boxed.last_week} were boxed.",
    "The oldest order has waited [for more than 20 weeks]{orders.oldest_wait}.",
)
REJECTED: tuple[str, ...] = (
    "[We boxed «900» looms]{boxed.week > 10}.",
    "[We boxed «900» looms]{boxed.week < 900}.",
    "[«Plenty of looms»]{boxed.week} were boxed.",
    "[Over «1,400» looms]{boxed.total} have left the bench.",
    "[It took «41 weeks»]{boxed.week}.",
    "[It took more than «8 weeks»]{boxed.week > 8}.",
    "[We took in more than «€10»]{boxed.week > 10}.",
)


def check(case: Case) -> Iterator[Fault]:
    """Figures in the words of claims, and value conditions whose words tell no value."""
    for reading in case.readings:
        outcome = reading.outcome
        if reading.claim.kind != "claim" or outcome is None or outcome.absent or outcome.faults:
            continue
        words = case.words_of(reading.claim)
        figures = case.told_figures[reading.claim.start]
        yield from (_fault(case, reading, figure) for figure in figures if not _is_borne_out(case, reading, figure))
        if outcome.value is not None and outcome.holds is None and not figures and not _tells(case, reading, outcome.value):
            yield Fault(reading.claim.words_start, words, {"values": _values(case, reading)}, _offer(reading))


def _is_borne_out(case: Case, reading: Reading, figure: Figure) -> bool:
    outcome = reading.outcome
    if outcome is None:
        return False
    if any(agrees(figure, fact, case.today) for fact in outcome.facts):
        return True
    whole = measured(reading.claim.expression, case.facts.find) if outcome.holds is None else None
    if whole is not None and agrees(figure, whole, case.today):
        return True
    return stands_in_condition(figure, reading.claim, case) or tells_own_period(case, figure, outcome.facts)


def _tells(case: Case, reading: Reading, value: Value) -> bool:
    """Whether words without a figure tell a value all the same: nothing, the whole, a name, a text, a printed fact inside."""
    words = case.words_of(reading.claim)
    if reading.claim.inside:
        return True
    if isinstance(value, Name):
        return tells_words(words, value.text)
    if isinstance(value, str):
        return tells_words(words, value)
    if isinstance(value, tuple) and not hasattr(value, "_fields"):
        return all(tells_words(words, item.text if isinstance(item, Name) else item) for item in value)
    return case.language is not None and any(tells(words, value, case.language) for tells in (tells_zero, tells_one, tells_whole))


def _fault(case: Case, reading: Reading, figure: Figure) -> Fault:
    block, stretch = case.seen[reading.claim.start]
    at = block.origin(max(figure.start, stretch.start))
    return Fault(at, figure.text, {"values": _values(case, reading)}, _offer(reading))


def _values(case: Case, reading: Reading) -> str:
    told = "; ".join(f"{fact.spelling} is {case.told(fact)}" for fact in reading.facts)
    return told or "the condition touches no fact"


def _offer(reading: Reading) -> str:
    return f"{{{{ {reading.facts[0].spelling} }}}}" if len(reading.facts) == 1 else ""
