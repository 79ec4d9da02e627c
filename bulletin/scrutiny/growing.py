"""Counts that may still grow: whether a form tells one as if it were the last word, or only that it is not less."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.expressions import Reference, comparisons, is_value, spell
from bulletin.scrutiny.bounds import MIRRORED

if TYPE_CHECKING:
    from bulletin.draft.expressions import Expression
    from bulletin.model import Fact
    from bulletin.scrutiny.beside import Setting
    from bulletin.scrutiny.case import Case

NO_LESS = frozenset({"above", "at_least"})
LOWER = frozenset({">", ">="})


def tells_a_bound(case: Case, setting: Setting, fact: Fact) -> bool:
    """Whether a form tells a growing count with an upper end: by printing it, by a figure, or by what it is held against.

    "More than 50" and "at least 60" stay true whatever comes.
    """
    if setting.is_printed:
        return True
    figures = case.told_figures[setting.stretch.claim.start]
    if figures:
        return any(figure.rounding not in NO_LESS for figure in figures)
    expression = setting.stretch.claim.expression
    return is_value(expression) or any(operator not in LOWER for operator in _held_to(expression, fact))


def _held_to(expression: Expression, fact: Fact) -> list[str]:
    """The operators by which a condition holds the fact against something, as seen from the fact."""
    found: list[str] = []
    for part in comparisons(expression):
        found += [part.operator] if _is(part.left, fact) else []
        found += [MIRRORED[part.operator]] if _is(part.right, fact) else []
    return found


def _is(side: Expression, fact: Fact) -> bool:
    return isinstance(side, Reference) and spell(side.path) == fact.spelling
