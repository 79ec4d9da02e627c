"""The grammar of the small language, by recursive descent over the signs of one condition.

condition  = part { "and" part }
part       = [ "not" ] comparison
comparison = sum [ ( "==" | "!=" | "<" | "<=" | ">" | ">=" ) sum ]
sum        = product { ( "+" | "-" ) product }
product    = factor { ( "*" | "/" ) factor }
factor     = [ "-" ] number | string | fact | "(" comparison ")"
fact       = name { "." name | "[" string "]" | "(" string { "," string } ")" }
printed    = fact { "|" filter [ "(" string ")" ] }
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import cast

from bulletin.draft.expressions import (
    Arithmetic,
    ArithmeticOperator,
    Both,
    Comparison,
    ComparisonOperator,
    Expression,
    Fault,
    Not,
    Number,
    Reference,
    Text,
)
from bulletin.draft.tokens import Edit, Signs, Token
from bulletin.model import Call, Path, Step

COMPARING = ("==", "!=", "<", "<=", ">", ">=")
FILTERS = ("units", "words", "short", "date", "share")
DEEPEST = 30
NO_SUCH_WORDS = {
    "or": "there is no `or`: make two claims of it",
    "||": "there is no `or`: make two claims of it",
    "|": "there is no `or`: make two claims of it",
    "if": "there is no `if`: a claim holds or it does not",
    "else": "there is no `else`: a claim holds or it does not",
    "in": "there is no `in`: compare with == or take the item",
    "is": "there is no `is`: compare with ==",
    "**": "there are no powers, only + - * /",
    ")": ") closes nothing",
    "]": "] closes nothing",
    "and": "`and` stands between two comparisons",
    "not": "`not` stands once, before a comparison",
}


class Unreadable(Exception):  # noqa: N818
    """The part at hand makes no sense, its fault is noted; caught where the next part begins, never leaves this module."""


@dataclass(slots=True)
class Reader:
    """Goes over the signs of one condition; faults and right forms gather in `signs`. `text` begins at offset `base`."""

    signs: Signs
    text: str
    base: int
    at: int = 0
    depth: int = 0

    @property
    def token(self) -> Token:
        """The sign at hand."""
        return self.signs.tokens[self.at]

    def condition(self) -> Expression | None:
        """The whole condition, each part read by itself so that one fault does not hide another; None with a fault."""
        if self.token.kind == "end":
            self._fault(self.token, "there is nothing between the braces")
            return None
        parts = [self._whole_part()]
        while self._take("and"):
            parts.append(self._whole_part())
        readable = [part for part in parts if part is not None]
        if len(readable) < len(parts):
            return None
        return parts[0] if len(parts) == 1 else Both(tuple(readable), readable[0].start, readable[-1].end)

    def printed(self) -> tuple[Reference | None, tuple[Call, ...]]:
        """One fact, then filters behind `|`; no fact where a fault was noted."""
        try:
            if self.token.kind != "name":
                raise self._unreadable(self.token, "between {{ and }} stands the name of a fact")
            reference = self._reference()
            filters: list[Call] = []
            while self._take("|"):
                filters.append(self._filter())
            if not self._at_end():
                raise self._unreadable(self.token, "one fact is printed here, nothing is reckoned: arithmetic stands in a claim")
        except Unreadable:
            return None, ()
        return reference, tuple(filters)

    def _whole_part(self) -> Expression | None:
        """One part up to the next `and`; whatever is left over before it is a fault."""
        part = None
        try:
            part = self._part()
            if not self._at_border():
                raise self._unreadable(self.token, NO_SUCH_WORDS.get(self.token.text, f"{self.token.text} is not expected here"))
        except Unreadable:
            part = None
        while not self._at_border():
            self.at += 1
        return part

    def _at_end(self) -> bool:
        return self.token.kind == "end"

    def _at_border(self) -> bool:
        return self._at_end() or (self.token.kind == "name" and self.token.text == "and")

    def _part(self) -> Expression:
        begin = self.token
        if not self._take("not"):
            return self._comparison()
        inner = self._comparison()
        return Not(inner, begin.start, inner.end)

    def _comparison(self) -> Expression:
        left = self._sum()
        if not self._comes(COMPARING):
            return left
        operator = cast("ComparisonOperator", self._next().text)
        right = self._sum()
        self._unchain(right)
        return Comparison(operator, left, right, left.start, right.end)

    def _unchain(self, middle: Expression) -> None:
        """Note `a < b < c` as a fault, understood as far as to offer `a < b and b < c`."""
        while self._comes(COMPARING):
            sign = self._next()
            self._fault(sign, "comparisons are not chained: join two by `and`")
            again = self.text[middle.start - self.base : middle.end - self.base]
            self.signs.edits.append(Edit(sign.start, sign.start, f"and {again} "))
            middle = self._sum()

    def _sum(self) -> Expression:
        return self._reckoned(("+", "-"), self._product)

    def _product(self) -> Expression:
        return self._reckoned(("*", "/"), self._factor)

    def _reckoned(self, operators: tuple[str, ...], inner: Callable[[], Expression]) -> Expression:
        left = inner()
        while self._comes(operators):
            operator = cast("ArithmeticOperator", self._next().text)
            right = inner()
            left = Arithmetic(operator, left, right, left.start, right.end)
        return left

    def _factor(self) -> Expression:
        token = self.token
        if token.kind == "name":
            return self._reference()
        if token.kind == "number":
            self._next()
            return Number(Fraction(token.text), token.start, token.end)
        if token.kind == "text":
            self._next()
            return Text(token.text, token.start, token.end)
        if token.text == "-":
            return self._negative()
        if token.text == "(":
            return self._bracketed()
        if token.text == "[":
            raise self._unreadable(token, "there are no lists: [ ] stands right behind the family whose item it takes")
        missing = "at the end" if token.kind == "end" else f"before {token.text}"
        raise self._unreadable(token, f"a fact or a number is missing {missing}")

    def _negative(self) -> Expression:
        sign = self._next()
        if self.token.kind != "number":
            raise self._unreadable(sign, "- stands between two values or before a number")
        number = self._next()
        return Number(-Fraction(number.text), sign.start, number.end)

    def _bracketed(self) -> Expression:
        opening = self._next()
        self.depth += 1
        if self.depth > DEEPEST:
            raise self._unreadable(opening, "the brackets are nested too deeply")
        inner = self._comparison()
        self._close(opening, ")")
        self.depth -= 1
        closed = self.signs.tokens[self.at - 1]
        return replace(inner, start=opening.start, end=closed.end) if isinstance(inner, Arithmetic | Comparison) else inner

    def _reference(self) -> Reference:
        first = self._next()
        if first.text in NO_SUCH_WORDS:
            raise self._unreadable(first, NO_SUCH_WORDS[first.text])
        steps = [Step("name", first.text)]
        while self._comes((".", "[", "(")):
            steps.extend(self._steps())
        return Reference(tuple(steps), first.start, self.signs.tokens[self.at - 1].end)

    def _steps(self) -> Path:
        opening = self._next()
        if opening.text == "(":
            return tuple(Step("call", argument) for argument in self._arguments(opening))
        if opening.text == "[":
            item = self._argument(opening)
            self._close(opening, "]")
            return (Step("item", item),)
        if self.token.kind != "name":
            raise self._unreadable(opening, "a name is missing after the point")
        return (Step("name", self._next().text),)

    def _arguments(self, opening: Token) -> list[str]:
        if self._comes((")",)):
            self.signs.edits.append(Edit(opening.start, self._next().end, ""))
            self._fault(opening, "what takes no arguments is written without brackets")
            return []
        arguments = [self._argument(opening)]
        while self._take(","):
            arguments.append(self._argument(opening))
        self._close(opening, ")")
        return arguments

    def _argument(self, opening: Token) -> str:
        """A string. A bare number is taken for one; other bare words are a fault, understood well enough to offer quotes."""
        token = self.token
        if token.kind in ("end", "sign"):
            raise self._unreadable(opening, f"a string is missing after {opening.text}")
        self._next()
        if token.kind == "text":
            return token.text
        while self.token.kind in ("name", "number") or self._comes(("-", ".")):
            self._next()
        end = self.signs.tokens[self.at - 1].end
        written = self.text[token.start - self.base : end - self.base]
        self.signs.edits.append(Edit(token.start, end, f'"{written}"'))
        if token.kind != "number" or end != token.end:
            self.signs.faults.append(Fault(token.start, end, f'items and arguments stand in quotes: "{written}"'))
        return written

    def _filter(self) -> Call:
        name = self.token
        if name.text not in FILTERS:
            raise self._unreadable(name, f"after | stands one of {', '.join(FILTERS)}")
        self._next()
        opening = self.token
        return Call(name.text, tuple(self._arguments(opening)) if self._take("(") else ())

    def _close(self, opening: Token, closing: str) -> None:
        if not self._take(closing):
            raise self._unreadable(opening, f"{opening.text} is not closed by {closing}")

    def _comes(self, signs: tuple[str, ...]) -> bool:
        return self.token.kind == "sign" and self.token.text in signs

    def _next(self) -> Token:
        token = self.token
        if token.kind != "end":
            self.at += 1
        return token

    def _take(self, text: str) -> bool:
        taken = self.token.text == text and self.token.kind in ("sign", "name")
        self.at += taken
        return taken

    def _fault(self, token: Token, what: str) -> None:
        self.signs.faults.append(Fault(token.start, max(token.end, token.start + 1), what))

    def _unreadable(self, token: Token, what: str) -> Unreadable:
        self._fault(token, what)
        return Unreadable()
