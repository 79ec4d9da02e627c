"""Conditions and printed facts, from text to tree.

All faults are found at once, each with the whole in its right form where that is known.
"""

from __future__ import annotations

from collections.abc import Iterator

from bulletin.draft.expressions import Arithmetic, Both, Comparison, Expression, Fault, Not, Reference, Text, is_value, references
from bulletin.draft.grammar import Reader
from bulletin.draft.tokens import read_signs, repaired
from bulletin.model import Call

LONGEST_CONDITION = 300


def parse(text: str, base: int = 0) -> tuple[Expression | None, list[Fault]]:
    """A condition as a tree, or None with any fault; faults in the order they stand. Never raises.

    `base` is the offset of the text in the draft's source; all offsets count from there.
    """
    if len(text) > LONGEST_CONDITION:
        return None, [Fault(base, base + len(text), f"a condition has {LONGEST_CONDITION} characters at most")]
    reader = Reader(read_signs(text, base), text, base)
    expression = reader.condition()
    faults = reader.signs.faults or (list(_misplaced(expression)) if expression is not None else [])
    return _result(expression, faults, reader)


def parse_printed(text: str, base: int = 0) -> tuple[Reference | None, tuple[Call, ...], list[Fault]]:
    """What stands between `{{` and `}}`: one fact and its filters; None with any fault. Never raises."""
    if len(text) > LONGEST_CONDITION:
        return None, (), [Fault(base, base + len(text), f"a printed fact has {LONGEST_CONDITION} characters at most")]
    reader = Reader(read_signs(text, base), text, base)
    reference, filters = reader.printed()
    found, faults = _result(reference, reader.signs.faults, reader)
    return (found if isinstance(found, Reference) else None), filters, faults


def _result(expression: Expression | None, faults: list[Fault], reader: Reader) -> tuple[Expression | None, list[Fault]]:
    """The tree, or the faults with the condition in its right form as their offer, if every one of them is understood."""
    if not faults:
        return expression, []
    right = repaired(reader.text, reader.base, reader.signs.edits)
    offer = right if expression is not None and right != " ".join(reader.text.split()) else ""
    offered = [Fault(fault.start, fault.end, fault.what, offer) for fault in faults]
    return None, sorted(offered, key=lambda fault: (fault.start, fault.end))


def _misplaced(expression: Expression) -> Iterator[Fault]:
    """What the grammar lets through and yet means nothing: literals alone, strings and comparisons out of their place."""
    for part in expression.parts if isinstance(expression, Both) else (expression,):
        inner = part.inner if isinstance(part, Not) else part
        if is_value(inner) and not references(inner):
            yield Fault(inner.start, inner.end, "a literal alone bears nothing out: name a fact")
        elif isinstance(part, Not) and isinstance(inner, Arithmetic):
            yield Fault(inner.start, inner.end, "`not` stands before a comparison or a fact that answers yes or no")
        elif isinstance(expression, Both) and isinstance(inner, Arithmetic):
            yield Fault(inner.start, inner.end, "`and` joins comparisons, and this is a number")
        yield from _misplaced_inside(inner)


def _misplaced_inside(node: Expression) -> Iterator[Fault]:
    if not isinstance(node, Arithmetic | Comparison):
        return
    for side in (node.left, node.right):
        compared = isinstance(node, Comparison) and node.operator in ("==", "!=") and side is node.right
        if isinstance(side, Text) and not compared:
            yield Fault(side.start, side.end, "strings stand on the right of == and != only")
        elif not is_value(side):
            yield Fault(side.start, side.end, "the outcome of a comparison is no value to reckon with")
        yield from _misplaced_inside(side)
