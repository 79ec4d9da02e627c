"""The small language of conditions as a tree: what may stand between `{` and `}` of a claim.

Facts, item access, calls with string arguments, exact numbers, + - * /, comparisons joined by `and`, `not` before one. Nodes
know where they stand: `start` and `end` are offsets of the draft's source, so that a rule can point at any of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from bulletin.keys import is_plain, quote
from bulletin.model import Path, Step

ArithmeticOperator = Literal["+", "-", "*", "/"]
ComparisonOperator = Literal["==", "!=", "<", "<=", ">", ">="]


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a condition, where in the source, and the condition in its right form where that is known.

    `what` is a whole clause without a full stop, as a reader of the draft will see it.
    """

    start: int
    end: int
    what: str
    offer: str = ""


@dataclass(frozen=True, slots=True)
class Number:
    """An exact number."""

    value: Fraction
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Text:
    """A string, on the right of == or != only."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Reference:
    """A fact, by its path."""

    path: Path
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """Two values made one."""

    operator: ArithmeticOperator
    left: Expression
    right: Expression
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two values held against each other."""

    operator: ComparisonOperator
    left: Expression
    right: Expression
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Not:
    """The opposite of a comparison or of a fact that answers yes or no."""

    inner: Expression
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Both:
    """Comparisons that must all hold."""

    parts: tuple[Expression, ...]
    start: int
    end: int


Expression = Number | Text | Reference | Arithmetic | Comparison | Not | Both


def walk(expression: Expression) -> Iterator[Expression]:
    """The node and all below it, in the order they are written."""
    yield expression
    match expression:
        case Arithmetic(left=left, right=right) | Comparison(left=left, right=right):
            yield from walk(left)
            yield from walk(right)
        case Not(inner=inner):
            yield from walk(inner)
        case Both(parts=parts):
            for part in parts:
                yield from walk(part)


def references(expression: Expression) -> list[Reference]:
    """The facts it names, in the order they are written."""
    return [node for node in walk(expression) if isinstance(node, Reference)]


def numbers(expression: Expression) -> list[Number]:
    """The numbers that stand in it, in the order they are written."""
    return [node for node in walk(expression) if isinstance(node, Number)]


def comparisons(expression: Expression) -> list[Comparison]:
    """The comparisons that must hold, in the order they are written; denied ones are not among them."""
    return [part for part in _parts(expression) if isinstance(part, Comparison)]


def negated(expression: Expression) -> list[Expression]:
    """What stands behind each `not`: comparisons and facts that must not hold."""
    return [part.inner for part in _parts(expression) if isinstance(part, Not)]


def is_value(expression: Expression) -> bool:
    """Whether it is a fact or arithmetic on facts, so that the words of the claim must hold a figure."""
    return isinstance(expression, Number | Text | Reference | Arithmetic)


def _parts(expression: Expression) -> tuple[Expression, ...]:
    return expression.parts if isinstance(expression, Both) else (expression,)


KEY_PART = re.compile(r"""\.?\[(?:"([^"]*)"|'([^']*)'|([^\]]*))\]|\.?([^.\[]+)""")


def spell(path: Path) -> str:
    """A path as a draft writes it: `boxed.of("Heron 8").week`."""
    spelled = ""
    for position, step in enumerate(path):
        if step.kind == "item":
            spelled += f"[{quote(step.text)}]"
        elif step.kind == "call":
            before = position > 0 and path[position - 1].kind == "call"
            spelled = f"{spelled[:-1]}, {quote(step.text)})" if before else f"{spelled}({quote(step.text)})"
        else:
            spelled += f".{step.text}" if spelled else step.text
    return spelled


def key(path: Path) -> str:
    """A path as the command line and JSON write it: `boxed.of.Heron 8.week`; Fact.key knows names that need brackets too."""
    written = ""
    for step in path:
        written += (f".{step.text}" if written else step.text) if is_plain(step.text) else f"[{quote(step.text)}]"
    return written


def parse_key(text: str) -> Path:
    """A dotted key of the command line as a path; never fails, a key that makes no sense leads nowhere.

    Steps are of kind `any` (the book of facts knows which are items), those in `["..."]` of kind `item`.
    """
    steps: list[Step] = []
    for match in KEY_PART.finditer(text.strip()):
        plain = match[4]
        quoted = next((group for group in match.groups()[:3] if group is not None), "")
        steps.append(Step("item", quoted) if plain is None else Step("any" if steps else "name", plain))
    return tuple(steps)
