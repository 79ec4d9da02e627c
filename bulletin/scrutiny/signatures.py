"""What a form says apart from its words: the fact it prints or tells, or its condition, written one way however it was typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.expressions import Arithmetic, Both, Comparison, Not, Number, Reference, Text, spell
from bulletin.draft.visible import forms_of

if TYPE_CHECKING:
    from bulletin.draft.expressions import Expression
    from bulletin.model import Claim, Draft


def signatures(draft: Draft) -> dict[str, Claim]:
    """Everything that a draft prints or claims, with the first form that does; opinions say nothing."""
    found: dict[str, Claim] = {}
    for form in forms_of(draft):
        if form.expression is not None:
            found.setdefault(signature(form.expression), form)
    return found


def signature(expression: Expression) -> str:
    """An expression as it may be compared."""
    match expression:
        case Number(value=value):
            return str(value)
        case Text(text=text):
            return repr(text)
        case Reference(path=path):
            return spell(path)
        case Arithmetic(operator=operator, left=left, right=right) | Comparison(operator=operator, left=left, right=right):
            return f"({signature(left)} {operator} {signature(right)})"
        case Not(inner=inner):
            return f"not {signature(inner)}"
        case Both(parts=parts):
            return " and ".join(map(signature, parts))
