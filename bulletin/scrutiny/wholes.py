"""What leaves nothing over: a zero, the whole of a share, a count that is all of what it is a part of.

"All" and "none" are borne out by the whole of that fact alone: a queue of one is not nobody, two equal counts of two weeks are no
whole, and nobody late in one market is not nobody late.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from bulletin.draft.expressions import Arithmetic, Both, Comparison, Not, Number, Reference, Text, is_value, spell
from bulletin.scrutiny.bounds import DENIED, MIRRORED

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bulletin.draft.expressions import Expression
    from bulletin.model import Fact
    from bulletin.scrutiny.case import Reading

PARTS_OF = frozenset(
    {
        ("remedied", "affected"), ("address_confirmed", "affected"), ("failed", "checked"), ("for_orders", "total"),
        ("usable", "needed"), ("kits", "unremedied"), ("kits", "affected"), ("buildable", "waiting"), ("delivered", "out"),
    }
)  # fmt: skip
"""Facts and what they are all of, or enough for, when they come to as much."""
ENOUGH = frozenset({"usable", "kits", "buildable"})
"""What may be more than what it is enough for; a part may not."""
FINISHED = frozenset({"fixed", "closed", "kept", "released", "complete", "in_force", "withdrawn", "delivered", "shipped"})
"""States behind which nothing is left to do."""
NARROWED = ("of", "in_market")
GENERAL_ANSWERS = ("in_force", "accepted")
"""Yes/no facts that are true of everybody they are about."""


def leaves_nothing_over(reading: Reading) -> bool:
    """Whether a condition is a whole or a zero. A value passes: what its words tell of it is for number-off-fact to judge."""
    expression = reading.claim.expression
    return (is_value(expression) and not _is_answer(expression, reading)) or closes(reading)


def closes(reading: Reading) -> bool:
    """Whether any part of a condition holds something to a whole, a zero or a state that is final."""
    facts = {fact.spelling: fact for fact in reading.facts}
    expression = reading.claim.expression
    closed = any(_closes(operator, left, right, facts) for operator, left, right in sides(expression))
    return closed or any(map(_is_general, _parts(expression))) or _has_equal_counts(expression)


def sides(expression: Expression) -> Iterator[tuple[str, Expression, Expression]]:
    """Each comparison both ways round, a denied one by its opposite."""
    for part in _parts(expression):
        inner = part.inner if isinstance(part, Not) else part
        if isinstance(inner, Comparison):
            operator = DENIED[inner.operator] if isinstance(part, Not) else inner.operator
            yield operator, inner.left, inner.right
            yield MIRRORED[operator], inner.right, inner.left


def _parts(expression: Expression) -> tuple[Expression, ...]:
    return expression.parts if isinstance(expression, Both) else (expression,)


def _is_answer(expression: Expression, reading: Reading) -> bool:
    return isinstance(expression, Reference) and any(isinstance(fact.value, bool) for fact in reading.facts)


def _has_equal_counts(expression: Expression) -> bool:
    """Whether two counts are held to the same number, one of which is all of the other ("15 had it, and all 15 are repaired")."""
    held = [(left, right.value) for operator, left, right in sides(expression) if operator == "==" and isinstance(right, Number)]
    return any(number == other and _is_all_of("==", left, right) for left, number in held for right, other in held)


def _is_general(part: Expression) -> bool:
    inner = part.inner if isinstance(part, Not) else part
    return isinstance(inner, Reference) and inner.path[-1].text in GENERAL_ANSWERS


def _closes(operator: str, left: Expression, right: Expression, facts: Mapping[str, Fact]) -> bool:
    if isinstance(right, Number):
        return _is_nothing(operator, right.value) or (operator in ("==", ">=") and _is_whole(left, right.value, facts))
    if isinstance(right, Text):
        return operator == "==" and right.text in FINISHED
    return isinstance(left, Reference) and isinstance(right, Reference) and _is_all_of(operator, left, right)


def _is_nothing(operator: str, number: Fraction) -> bool:
    return (operator in ("==", "<=") and number == 0) or (operator == "<" and number == 1)


def _is_whole(side: Expression, number: Fraction, facts: Mapping[str, Fact]) -> bool:
    """Whether a number is all of what a side is a share of: 1, or 100 of a hundredfold."""
    if isinstance(side, Arithmetic) and side.operator == "*":
        factors = [side.left, side.right]
        shares = [factor for factor in factors if not (isinstance(factor, Number) and factor.value == 100)]
        return len(shares) == 1 and _is_whole(shares[0], number / 100, facts)
    if isinstance(side, Arithmetic) and side.operator == "/":
        parts = isinstance(side.left, Reference) and isinstance(side.right, Reference)
        return number == 1 and parts and _is_all_of("==", side.left, side.right)
    if number != 1 or not isinstance(side, Reference):
        return False
    fact = facts.get(spell(side.path))
    return fact is not None and fact.unit == "share" and isinstance(fact.value, Fraction)


def _is_all_of(operator: str, left: Expression, right: Expression) -> bool:
    """Whether a count that comes to as much as another one is the whole of it, or enough for it."""
    if not isinstance(left, Reference) or not isinstance(right, Reference):
        return False
    ours, theirs = [step.text for step in left.path], [step.text for step in right.path]
    if operator not in (("==", ">=") if ours[-1] in ENOUGH else ("==",)):
        return False
    same = ours[0] == theirs[0] or ours[-1] == "buildable"
    if (ours[-1], theirs[-1]) in PARTS_OF:
        return same and (ours[1:-1] == theirs[1:-1] or not theirs[1:-1])
    return ours[-1] == theirs[-1] and ours[0] == theirs[0] and len(ours) > len(theirs) and any(name in ours for name in NARROWED)
