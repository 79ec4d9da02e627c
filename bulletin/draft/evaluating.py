"""Conditions held against the facts: exact arithmetic, and what cannot be compared is a fault, not a false."""

from __future__ import annotations

import operator
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal, localcontext
from fractions import Fraction
from typing import Any

from bulletin.draft.expressions import Arithmetic, Both, Comparison, Expression, Fault, Not, Number, Reference, Text, spell
from bulletin.model import Absent, Basis, Fact, Money, Name, Path, Value

Find = Callable[[Path], Fact | Absent]

COMPARE: dict[str, Callable[[Any, Any], bool]] = {
    "==": operator.eq, "!=": operator.ne, "<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge,
}  # fmt: skip
RECKON: dict[str, Callable[[Fraction, Fraction], Fraction]] = {
    "+": operator.add, "-": operator.sub, "*": operator.mul, "/": operator.truediv,
}  # fmt: skip
YES_NO = {"yes": True, "no": False}
MONEY_PLACES = Decimal("1e-12")


@dataclass(frozen=True, slots=True)
class Amount:
    """Money of one currency while it is reckoned with: exact, also where no decimal number is (a third)."""

    currency: str
    value: Fraction


Exact = Value | Amount


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a condition comes to.

    `value` is exact (numbers as Fraction, money in major units); None where a fact is absent or something does not fit.
    `facts` are those it touches, in the order they are written, each once; `numbers` those that stand in the condition.
    """

    value: Value | None
    facts: tuple[Fact, ...]
    absent: tuple[Absent, ...]
    numbers: tuple[Fraction, ...]
    faults: tuple[Fault, ...]

    @property
    def holds(self) -> bool | None:
        """Whether the condition is true; None where it is a value or could not be told."""
        return self.value if isinstance(self.value, bool) else None

    @property
    def basis(self) -> Basis | None:
        """The weakest basis of its facts; None where it touches none."""
        return max((fact.basis for fact in self.facts), key=lambda basis: basis.weakness, default=None)


def evaluate(expression: Expression, find: Find) -> Outcome:
    """Hold a condition against the facts. All its facts are looked up, also those behind a part that is false already."""
    evaluation = Evaluation(find)
    value = evaluation.value(expression)
    return Outcome(
        _as_money(value) if isinstance(value, Amount) else value,
        tuple(evaluation.facts.values()),
        tuple(evaluation.absent.values()),
        tuple(evaluation.numbers),
        tuple(sorted(evaluation.faults, key=lambda fault: (fault.start, fault.end))),
    )


@dataclass(slots=True)
class Evaluation:
    """One condition on its way: what it touched and what did not fit. A value of None is already accounted for."""

    find: Find
    facts: dict[str, Fact] = field(default_factory=dict)
    absent: dict[str, Absent] = field(default_factory=dict)
    numbers: list[Fraction] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)

    def value(self, node: Expression) -> Exact | None:
        """The exact value of a node, or None with the reason noted."""
        match node:
            case Number(value=number):
                self.numbers.append(number)
                return number
            case Text(text=text):
                return text
            case Reference():
                return self._fact(node)
            case Arithmetic():
                return self._reckon(node, self.value(node.left), self.value(node.right))
            case Comparison():
                return self._compare(node, self.value(node.left), self.value(node.right))
            case Not(inner=inner):
                held = self._yes_no(inner)
                return None if held is None else not held
            case Both(parts=parts):
                held_parts = [self._yes_no(part) for part in parts]
                return None if None in held_parts else all(held_parts)

    def _fact(self, node: Reference) -> Exact | None:
        found = self.find(node.path)
        if isinstance(found, Absent):
            self.absent.setdefault(spell(node.path), found)
            return None
        self.facts.setdefault(spell(node.path), found)
        value = found.value
        return Fraction(value) if isinstance(value, int | Decimal) and not isinstance(value, bool) else value

    def _yes_no(self, node: Expression) -> bool | None:
        value = self.value(node)
        if value is None or isinstance(value, bool):
            return value
        self._fault(node, f"{_written(node)} is {_kind(value)}, where a comparison or a yes/no is wanted")
        return None

    def _reckon(self, node: Arithmetic, left: Exact | None, right: Exact | None) -> Exact | None:
        if left is None or right is None:
            return None
        if isinstance(left, Fraction) and isinstance(right, Fraction):
            return self._reckon_numbers(node, left, right)
        if isinstance(left, Money | Amount) or isinstance(right, Money | Amount):
            return self._reckon_money(node, left, right)
        if isinstance(left, date) and node.operator in ("+", "-"):
            return self._reckon_days(node, left, right)
        return self._misfit(node, left, right)

    def _reckon_numbers(self, node: Arithmetic, left: Fraction, right: Fraction) -> Fraction | None:
        if node.operator == "/" and right == 0:
            self._fault(node.right, f"{_written(node.right)} is 0, and nothing can be divided by it")
            return None
        return RECKON[node.operator](left, right)

    def _reckon_money(self, node: Arithmetic, left: Exact, right: Exact) -> Exact | None:
        """Sums of one currency, an amount times or by a number, and an amount by an amount, which is a plain number."""
        ours, theirs = _amount(left), _amount(right)
        if ours and theirs and ours.currency == theirs.currency and node.operator != "*":
            reckoned = self._reckon_numbers(node, ours.value, theirs.value)
            return reckoned if node.operator == "/" or reckoned is None else Amount(ours.currency, reckoned)
        if ours and isinstance(right, Fraction) and node.operator in ("*", "/"):
            reckoned = self._reckon_numbers(node, ours.value, right)
            return None if reckoned is None else Amount(ours.currency, reckoned)
        if theirs and isinstance(left, Fraction) and node.operator == "*":
            return Amount(theirs.currency, left * theirs.value)
        return self._misfit(node, left, right)

    def _reckon_days(self, node: Arithmetic, left: date, right: Exact) -> Exact | None:
        """A date and whole days, or the days between two dates."""
        if isinstance(right, date) and node.operator == "-":
            return Fraction((left - right).days)
        if not isinstance(right, Fraction) or right.denominator != 1:
            return self._misfit(node, left, right)
        try:
            return left + timedelta(days=int(right if node.operator == "+" else -right))
        except OverflowError:
            self._fault(node, "this leads to no date in the calendar")
            return None

    def _compare(self, node: Comparison, left: Exact | None, right: Exact | None) -> Exact | None:
        if left is None or right is None:
            return None
        equality = node.operator in ("==", "!=")
        pair = _equal_kinds(left, right) if equality else _ordered_kinds(left, right)
        return self._misfit(node, left, right) if pair is None else COMPARE[node.operator](*pair)

    def _misfit(self, node: Arithmetic | Comparison, left: Exact, right: Exact) -> Exact | None:
        done = "compared by" if isinstance(node, Comparison) else "reckoned with"
        self._fault(
            node, f"{_written(node.left)} is {_kind(left)}, {_written(node.right)} {_kind(right)}: not {done} {node.operator}"
        )
        return None

    def _fault(self, node: Expression, what: str) -> None:
        """Note what does not fit; nothing comes of it."""
        self.faults.append(Fault(node.start, node.end, what))


def _ordered_kinds(left: Exact, right: Exact) -> tuple[Any, Any] | None:
    """Both sides in a form that < and > order, or None: numbers, dates, amounts of one currency (also with a number)."""
    if isinstance(left, Fraction) and isinstance(right, Fraction):
        return left, right
    if isinstance(left, date) and isinstance(right, date):
        return left, right
    ours, theirs = _amount(left), _amount(right)
    if ours and theirs and ours.currency == theirs.currency:
        return ours.value, theirs.value
    if ours and isinstance(right, Fraction):
        return ours.value, right
    if theirs and isinstance(left, Fraction):
        return left, theirs.value
    return None


def _equal_kinds(left: Exact, right: Exact) -> tuple[Any, Any] | None:
    """Both sides in a form that == compares, or None where the answer could only mislead."""
    if isinstance(right, str):
        return _equal_to_text(left, right)
    if isinstance(left, Name) and isinstance(right, Name):
        return (left.kind, left.id), (right.kind, right.id)
    if isinstance(left, Money) and isinstance(right, Money):
        return (left.amounts, right.amounts) if _same_currencies(left, right) else None
    return (left, right) if type(left) is type(right) else _ordered_kinds(left, right)


def _equal_to_text(left: Exact, text: str) -> tuple[Any, Any] | None:
    """A text by its words, a name by its text or id, a date as ISO 8601, yes/no by that word."""
    if isinstance(left, str):
        return left, text
    if isinstance(left, Name):
        return text in (left.text, left.id), True
    if isinstance(left, bool):
        return (left, YES_NO[text]) if text in YES_NO else None
    if isinstance(left, date):
        try:
            return left, date.fromisoformat(text)
        except ValueError:
            return None
    return None


def _same_currencies(left: Money, right: Money) -> bool:
    return [code for code, _ in left.amounts] == [code for code, _ in right.amounts]


def _amount(value: Exact) -> Amount | None:
    """Money in one currency, ready to be reckoned with."""
    if isinstance(value, Money) and len(value.amounts) == 1:
        currency, amount = value.amounts[0]
        return Amount(currency, Fraction(amount))
    return value if isinstance(value, Amount) else None


def _as_money(amount: Amount) -> Money:
    """Money as a value; an amount that no decimal number holds is rounded to 12 places, far below any minor unit."""
    with localcontext(prec=1000):
        exact = Decimal(amount.value.numerator) / Decimal(amount.value.denominator)
        return Money(((amount.currency, exact.quantize(MONEY_PLACES) if exact % MONEY_PLACES else exact),))


def _written(node: Expression) -> str:
    """A node as messages name it."""
    match node:
        case Reference(path=path):
            return spell(path)
        case Number(value=value):
            return str(float(value)) if value.denominator != 1 else str(value)
        case Text(text=text):
            return f'"{text}"'
        case _:
            return "the value"


KINDS: tuple[tuple[type, str], ...] = (
    (bool, "a yes/no"),
    (Fraction, "a number"),
    (date, "a date"),
    (str, "a text"),
    (Name, "a name"),
)


def _kind(value: Exact) -> str:
    if isinstance(value, Amount):
        return f"money in {value.currency}"
    if isinstance(value, Money):
        return f"money in {' and '.join(code for code, _ in value.amounts) or 'no currency'}"
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return "a window of two days" if isinstance(value[0], date) else "a range of two numbers"
    return next((name for kind, name in KINDS if isinstance(value, kind)), "a list")
