"""The signs of a condition, read tolerantly: what is unambiguous is understood, what is not becomes a fault with its right form.

Word processors put typographic quotes, no-break spaces, `≥` and full-width brackets where a draft needs plain ones; these are
understood. `1,300`, `=` or `&&` may mean two things, or teach a second spelling: they are named, with what to write instead.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from typing import Literal

from bulletin.draft.expressions import Fault

Kind = Literal["name", "number", "text", "sign", "end"]


@dataclass(frozen=True, slots=True)
class Token:
    """One sign; `text` in its right form, offsets as written."""

    kind: Kind
    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Edit:
    """A stretch of the condition and what should stand there."""

    start: int
    end: int
    text: str


@dataclass(slots=True)
class Signs:
    """What the reader of signs has found so far."""

    tokens: list[Token] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    edits: list[Edit] = field(default_factory=list)


CLOSING = {
    '"': '"“”„', "'": "'‘’‚", "“": '”“"', "„": '“”"', "”": '”"', "«": "»", "»": "«»", "‘": "’‘'", "‚": "‘’'",
    "’": "’'", "‹": "›", "›": "‹›", "「": "」", "『": "』", "＂": "＂", "＇": "＇",
}  # fmt: skip
UNDERSTOOD = {
    "≥": ">=", "≤": "<=", "≠": "!=", "×": "*", "−": "-", "÷": "/", "［": "[", "］": "]", "（": "(", "）": ")", "．": ".",
    "＞": ">", "＜": "<", "＋": "+", "＊": "*", "／": "/", "，": ",", "⩾": ">=", "⩽": "<=",
}  # fmt: skip
WRONG_SIGNS = {
    "===": ("==", "equality is written =="),
    "!==": ("!=", "inequality is written !="),
    "<>": ("!=", "inequality is written !="),
    "=>": (">=", "at least is written >="),
    "=<": ("<=", "at most is written <="),
    "&&": ("and", "comparisons are joined by `and`"),
    "&": ("and", "comparisons are joined by `and`"),
    "=": ("==", "equality is written =="),
    "＝": ("==", "equality is written =="),
    "!": ("not", "the opposite is written `not`"),
    "–": ("-", "minus is written -"),
    "—": ("-", "minus is written -"),
    "//": ("/", "division is written /"),
}
WRONG_NAMES = {"AND": "and", "And": "and", "und": "and", "et": "and", "NOT": "not", "Not": "not"}

SPACE = re.compile(r"[\s\u00a0\u202f\u2000-\u200b\u3000\ufeff]+")
GROUPED = re.compile(r"[0-9]{1,3}(?:[,'’\u00a0\u202f_ ][0-9]{3})+(?:\.[0-9]+)?(?![0-9])")
NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
DECIMAL_COMMA = re.compile(r"[0-9]+,[0-9]+(?![0-9])")
OTHER_DIGITS = re.compile(r"\d+(?:[.．]\d+)?")
NAME = re.compile(r"[^\W\d]\w*")
SIGN = re.compile(r"===|!==|==|!=|<>|<=|>=|=>|=<|&&|\|\||//|\*\*|[<>+\-*/()\[\].,=!&|–—＝]|" + "|".join(UNDERSTOOD))
PERCENT = re.compile(r"[\s\u00a0\u202f]*[%％]")
ODD_SPACES = re.compile(r"[\u00a0\u202f\u2000-\u200a\u3000\n\t]")
LONGEST_NUMBER = 30
INSIDE_CALL = {"(", ","}


def read_signs(text: str, base: int = 0) -> Signs:
    """All signs of a condition, with an `end` behind the last; offsets begin at `base`. Never raises."""
    signs = Signs()
    at = 0
    while at < len(text):
        space = SPACE.match(text, at)
        at = space.end() if space else _read_one(text, at, base, signs)
    signs.tokens.append(Token("end", "", base + len(text), base + len(text)))
    return signs


def _read_one(text: str, at: int, base: int, signs: Signs) -> int:
    """Read the sign that begins at `at`; returns where the next one may begin."""
    if text[at] in CLOSING:
        return _read_text(text, at, base, signs)
    if text[at].isdigit():
        return _read_number(text, at, base, signs)
    name = NAME.match(text, at)
    if name:
        return _read_name(name, base, signs)
    sign = SIGN.match(text, at)
    if sign:
        return _read_sign(sign, base, signs)
    _fault(signs, (base + at, base + at + 1), f"{_called(text[at])} has no meaning in a condition", "")
    return at + 1


def _called(character: str) -> str:
    if character.isprintable():
        return character
    return unicodedata.name(character, f"the character U+{ord(character):04X}").lower()


def _fault(signs: Signs, span: tuple[int, int], what: str, right: str | None = None) -> None:
    """Note a fault; where its right form is known, that is what the condition will be offered with."""
    signs.faults.append(Fault(span[0], span[1], what))
    if right is not None:
        signs.edits.append(Edit(span[0], span[1], right))


def _read_text(text: str, at: int, base: int, signs: Signs) -> int:
    closing = CLOSING[text[at]]
    end = next((index for index in range(at + 1, len(text)) if text[index] in closing), None)
    if end is None:
        signs.faults.append(Fault(base + at, base + len(text), "this string has no closing quote"))
        return len(text)
    signs.tokens.append(Token("text", ODD_SPACES.sub(" ", text[at + 1 : end]), base + at, base + end + 1))
    if text[at] not in "\"'" or text[end] != text[at]:
        quoted = '"' if '"' not in text[at + 1 : end] else "'"
        signs.edits.append(Edit(base + at, base + end + 1, f"{quoted}{text[at + 1 : end]}{quoted}"))
    return end + 1


def _read_number(text: str, at: int, base: int, signs: Signs) -> int:
    grouped = GROUPED.match(text, at)
    comma = DECIMAL_COMMA.match(text, at)
    plain = NUMBER.match(text, at)
    last = signs.tokens[-1].text if signs.tokens else ""
    found = grouped or (comma if last not in INSIDE_CALL else None) or plain or OTHER_DIGITS.match(text, at)
    if found is None:
        _fault(signs, (base + at, base + at + 1), f"{_called(text[at])} has no meaning in a condition", "")
        return at + 1
    written, span = found[0], (base + at, base + found.end())
    right = "".join(character for character in _plain_digits(written) if character in "0123456789.")
    if found is grouped:
        _fault(signs, span, f"numbers are written without grouping, {right} instead of {written}", right)
    elif found is comma:
        right = written.replace(",", ".")
        _fault(signs, span, f"numbers are written with a point, {right} instead of {written}", right)
    elif found is not plain:
        signs.edits.append(Edit(*span, right))
    if len(right) > LONGEST_NUMBER:
        _fault(signs, span, "this number is too long")
        right = "1"
    signs.tokens.append(Token("number", right, *span))
    return _read_percent(text, found.end(), (span[0], base), signs, right)


def _read_percent(text: str, at: int, starts: tuple[int, int], signs: Signs, number: str) -> int:
    """A percent sign behind a number: shares are fractions of one here."""
    sign = PERCENT.match(text, at)
    if not sign:
        return at
    right = _hundredth(number)
    _fault(signs, (starts[0], starts[1] + sign.end()), f"shares are written as fractions of one, {right}", right)
    return sign.end()


def _hundredth(number: str) -> str:
    whole, _, decimals = number.partition(".")
    padded = whole.rjust(3, "0")
    moved = f"{padded[:-2].lstrip('0') or '0'}.{padded[-2:]}{decimals}".rstrip("0")
    return moved.rstrip(".")


def _plain_digits(text: str) -> str:
    return "".join(str(unicodedata.digit(character, 0)) if character.isdigit() else character for character in text)


def _read_name(name: re.Match[str], base: int, signs: Signs) -> int:
    span = (base + name.start(), base + name.end())
    before = signs.tokens[-1].text if signs.tokens else ""
    right = WRONG_NAMES.get(name[0]) if before != "." else None
    if right:
        _fault(signs, span, f"{name[0]} is written {right}", right)
    signs.tokens.append(Token("name", right or name[0], *span))
    return name.end()


def _read_sign(sign: re.Match[str], base: int, signs: Signs) -> int:
    span, text = (base + sign.start(), base + sign.end()), sign[0]
    if text in UNDERSTOOD:
        text = UNDERSTOOD[text]
        signs.edits.append(Edit(*span, text))
    elif text in WRONG_SIGNS:
        text, what = WRONG_SIGNS[text]
        _fault(signs, span, what, f" {text} " if text.isalpha() else text)
    signs.tokens.append(Token("name" if text in ("and", "not") else "sign", text, *span))
    return sign.end()


def repaired(text: str, base: int, edits: list[Edit]) -> str:
    """The condition with every known right form in its place, spaces made plain."""
    written, at = "", 0
    for edit in sorted(edits, key=lambda edit: (edit.start, -edit.end)):
        if edit.start - base < at:
            continue
        written += text[at : edit.start - base] + edit.text
        at = edit.end - base
    return " ".join((written + text[at:]).split())
