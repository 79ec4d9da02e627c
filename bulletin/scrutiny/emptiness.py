"""Whether a condition could fail at all: one that holds whatever the records say carries no words.

Each fact in turn is given other values; where the condition holds through all of them (`x == x`, `x < x + 1`, `x >= 0` of a
count, `x - x + 900`), it says nothing about the records.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from bulletin.draft.evaluating import evaluate
from bulletin.model import Fact, Money, Name, Range, Window

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.evaluating import Outcome
    from bulletin.draft.expressions import Expression
    from bulletin.model import Absent, Facts, Path, Value

HUGE = 10**9
YEARS = timedelta(days=4000)


def says_nothing(expression: Expression, outcome: Outcome, facts: Facts) -> bool:
    """Whether a condition comes to the same with every other value of every one of its facts."""
    return not any(
        _with(expression, facts, replace(fact, value=value)) not in (outcome.value, None)
        for fact in outcome.facts
        for value in _other_values(fact.value)
    )


def _with(expression: Expression, facts: Facts, changed: Fact) -> Value | None:
    def find(path: Path) -> Fact | Absent:
        found = facts.find(path)
        return changed if isinstance(found, Fact) and found.key == changed.key else found

    return evaluate(expression, find).value


def _other_values(value: Value) -> Iterator[Value]:
    """Values of the same kind that the records might have held: numbers are never negative."""
    match value:
        case bool():
            yield not value
        case int() | Fraction() | Decimal():
            yield from (other for other in (value + 1, value - 1, 0, 2 * value + 1, HUGE) if other >= 0)
        case Money():
            yield Money(tuple((code, amount + 1) for code, amount in value.amounts))
            yield Money(tuple((code, Decimal(0)) for code, amount in value.amounts))
        case Window():
            yield from (Window(value.first + shift, value.last + shift) for shift in (YEARS, -YEARS))
        case Range():
            yield from (Range(value.low + 1, value.high + 1), Range(0, 0), Range(HUGE, HUGE))
        case date():
            yield from (value + YEARS, value - YEARS)
        case Name():
            yield Name(value.kind, f"{value.id}?", f"{value.text}?")
        case str():
            yield f"{value}?"
        case _:
            yield ()
