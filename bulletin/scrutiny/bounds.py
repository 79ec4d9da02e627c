"""Whether a figure in the words of a claim may lean on a number that stands in its condition.

"More than 30" may lean on `> 30`, "we passed 1,000" on `>= 1000`, "twice" on a factor of 2. A number that stands there for show
carries nothing: "We boxed 900" does not follow from `boxed.week < 900`, nor from `boxed.week > 0 - 900`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.expressions import Arithmetic, Comparison, Number, comparisons, negated
from bulletin.formats.rounding import is_of_kind
from bulletin.scrutiny.measures import measured

if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction

    from bulletin.draft.expressions import Expression
    from bulletin.draft.language import Language
    from bulletin.formats.figures import Figure
    from bulletin.model import Claim
    from bulletin.scrutiny.case import Case

MIRRORED = {"<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "==", "!=": "!="}
DENIED = {"<": ">=", "<=": ">", ">": "<=", ">=": "<", "==": "!=", "!=": "=="}
CARRIES = {
    "above": frozenset({">"}),
    "at_least": frozenset({">", ">=", "=="}),
    "below": frozenset({"<"}),
    "at_most": frozenset({"<", "<=", "=="}),
}
FACTORS = frozenset({"multiple", "fraction", "share"})


def stands_in_condition(figure: Figure, claim: Claim, case: Case) -> bool:
    """Whether a number of the condition is this figure, of what is held against it, and on the side that the words say."""
    words, language = case.words_of(claim), case.language
    for operator, side, other in _sides(claim.expression):
        is_told = isinstance(side, Number) and _equals(figure, side.value) and _carries(figure, operator, words, language)
        if is_told and _is_of_kind(figure, other, case):
            return True
        if isinstance(side, Arithmetic) and _is_term(figure, side, words, language):
            return True
    return False


def _is_of_kind(figure: Figure, other: Expression, case: Case) -> bool:
    """Whether the figure can tell what the number is held against; an ordinal tells which one a count has come to."""
    against = measured(other, case.facts.find)
    return figure.kind == "ordinal" or (against is not None and is_of_kind(figure, against))


def _sides(expression: Expression) -> Iterator[tuple[str, Expression, Expression]]:
    """Each side of each comparison with the other one, and the operator as seen from there."""
    denied = [(DENIED[part.operator], part) for part in negated(expression) if isinstance(part, Comparison)]
    for operator, part in [*((part.operator, part) for part in comparisons(expression)), *denied]:
        yield operator, part.right, part.left
        yield MIRRORED[operator], part.left, part.right


def _carries(figure: Figure, operator: str, words: str, language: Language | None) -> bool:
    if figure.rounding:
        return operator in CARRIES.get(figure.rounding, frozenset())
    if operator == "==" or language is None:
        return operator == "=="
    bound = {"<": "bounds", "<=": "bounds", ">": "beyond", ">=": "beyond"}.get(operator)
    return bound is not None and language.has(bound, words)


def _is_term(figure: Figure, side: Arithmetic, words: str, language: Language | None) -> bool:
    """A factor is told by "twice" or "half", a term of a sum by "3 more than"."""
    terms = [part for part in (side.left, side.right) if isinstance(part, Number)]
    if side.operator in "*/":
        return figure.kind in FACTORS and any(_equals(figure, term.value) for term in terms)
    more = language is not None and language.has("difference", words)
    return more and any(_equals(figure, term.value) for term in terms)


def _equals(figure: Figure, number: Fraction) -> bool:
    if figure.value is None:
        return False
    return figure.value == number or (figure.kind == "share" and figure.value * 100 == number)
