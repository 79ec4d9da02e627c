"""What a condition, or one side of it, comes to with its unit, so that only figures of that kind can tell it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from bulletin.draft.evaluating import evaluate
from bulletin.draft.expressions import Arithmetic, Reference
from bulletin.formats.rounding import Measured
from bulletin.model import Fact

if TYPE_CHECKING:
    from bulletin.draft.evaluating import Find
    from bulletin.draft.expressions import Expression

DAYS = frozenset({"day", "working day"})


def measured(expression: Expression, find: Find) -> Measured | None:
    """The value of an expression with its unit; None where it has no value."""
    value = evaluate(expression, find).value
    return None if value is None else Measured(value, unit_of(expression, find))


def unit_of(expression: Expression, find: Find) -> str:
    """The unit of a fact or of what is reckoned with facts; `ratio` for how one number stands to another, empty where unsure."""
    match expression:
        case Reference(path=path):
            found = find(path)
            return found.unit if isinstance(found, Fact) else ""
        case Arithmetic(operator="/"):
            return _quotient(unit_of(expression.left, find), unit_of(expression.right, find))
        case Arithmetic(operator="-") if isinstance(evaluate(expression.right, find).value, date):
            return "day"
        case Arithmetic():
            return unit_of(expression.left, find) or unit_of(expression.right, find)
        case _:
            return ""


def _quotient(unit: str, by: str) -> str:
    """Looms by looms are a ratio, looms by orders too; looms by days are a rate."""
    return "" if by in DAYS and unit not in DAYS else "ratio"
