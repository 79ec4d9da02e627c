"""The shapes of conditions that carry kinds of words: a record, a whole or a zero, a comparison one way or the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.expressions import Comparison, Number, Reference, Text, comparisons, is_value, negated, references, spell
from bulletin.scrutiny.bounds import DENIED, MIRRORED
from bulletin.scrutiny.meaning import meaning_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bulletin.draft.expressions import Expression
    from bulletin.draft.language import Language
    from bulletin.scrutiny.case import Reading

EXTREMES = ("best_", "oldest_", "tightest")
MORE = frozenset({">", ">="})
FEWER = frozenset({"<", "<="})
RUNNING = {"week": "last_week", "month": "last_month", "today": "yesterday"}


def has_record(reading: Reading) -> bool:
    """Whether a condition tells an extreme, or holds something above the record of the periods before."""
    expression = reading.claim.expression
    if is_value(expression):
        return any(_is_extreme(reference) for reference in references(expression))
    sides = list(_held(expression))
    named = any(operator == "==" and _is_extreme(side) for operator, side in sides)
    return named or any(operator in MORE and _is_extreme(side) for operator, side in sides)


def has_whole(reading: Reading) -> bool:
    """Whether a condition is a yes/no, a text, two counts that are equal, exactly nothing or the whole.

    A value passes: what its words tell of it is for number-off-fact to judge.
    """
    expression = reading.claim.expression
    if is_value(expression):
        return True
    return any(_closes(operator, side) for operator, side in _held(expression)) or any(
        isinstance(part, Reference) for part in (expression, *negated(expression))
    )


def against_the_words(reading: Reading, words: str, language: Language) -> bool:
    """Whether the words say more and the condition fewer, or the other way round, of a period and the one before it."""
    expression = reading.claim.expression
    if is_value(expression) or language.has("fewer", words) == language.has("more", words):
        return False
    wrong = MORE if language.has("fewer", words) else FEWER
    periods = {fact.spelling: meaning_of(fact).period for fact in reading.facts}
    return any(
        operator in wrong and RUNNING.get(_period(periods, left), "none") == _period(periods, right)
        for operator, left, right in _both_ways(expression)
    )


def _period(periods: Mapping[str, str], side: Expression) -> str:
    return periods.get(spell(side.path), "") if isinstance(side, Reference) else ""


def _both_ways(expression: Expression) -> Iterator[tuple[str, Expression, Expression]]:
    denied = [(DENIED[part.operator], part) for part in negated(expression) if isinstance(part, Comparison)]
    for operator, part in [*((part.operator, part) for part in comparisons(expression)), *denied]:
        yield operator, part.left, part.right
        yield MIRRORED[operator], part.right, part.left


def _held(expression: Expression) -> Iterator[tuple[str, Expression]]:
    """Each side of each comparison, with the operator as seen from the other side."""
    return ((operator, right) for operator, _, right in _both_ways(expression))


def _is_extreme(side: Expression) -> bool:
    return any(step.text.startswith(EXTREMES) for step in side.path) if isinstance(side, Reference) else False


def _closes(operator: str, side: Expression) -> bool:
    """Whether a comparison leaves nothing over: equal to nothing, to the whole, to another count or to a word."""
    if isinstance(side, Number):
        return (
            (operator in ("==", "<=") and side.value == 0)
            or (operator == "<" and side.value == 1)
            or (operator in ("==", ">=") and side.value in (1, 100))
        )
    return operator == "==" and isinstance(side, Reference | Text)
