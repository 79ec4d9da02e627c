"""What a reader sees of marked-up words, each character with the offset it came from.

A figure must not hide behind markup: `8*7*`, `&#56;7`, full-width or Arabic digits, a zero-width space inside a number all reach
the reader as 87, so they are 87 here. Targets of links are left out, words of claims are kept and their conditions dropped.
"""

from __future__ import annotations

import html
import re
import unicodedata
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bulletin.model import Claim, Draft

FORM = "\N{OBJECT REPLACEMENT CHARACTER}"
"""Stands for a printed fact in text that a reader sees."""

SIGN = re.compile(r"[\\`*_\[!<&{\n\r\t]|[^\x00-\x7f]")
ENTITY = re.compile(r"&(?:#[0-9]{1,8}|#[xX][0-9a-fA-F]{1,8}|[a-zA-Z][a-zA-Z0-9]{0,40});")
ADDRESS_IN_ANGLES = re.compile(r"<((?:https?|mailto|ftp):[^\s<>]*|[^\s<>@]+@[^\s<>]+)>")
TAG = re.compile(r"<!--.*?-->|<[a-zA-Z/!?][^<>]*>", re.DOTALL)
TARGET = re.compile(r"""\(\s*(?:<[^<>\n]*>|(?:[^\s()]|\([^\s()]*\))*)(?:\s+(?:"([^"]*)"|'([^']*)'|\(([^()]*)\)))?\s*\)""")
LABEL = re.compile(r"[ ]?\[([^\[\]]*)\]")
LINE_HEAD = re.compile(r"\n[ \t]*(?:>[ \t]?)*[ \t]*")
LOOKALIKES = str.maketrans(
    "\u0430\u0435\u043e\u0440\u0441\u0443\u0445\u0456\u0458\u0455\u0501\u04bb\u051b\u051d\u03bf\u03bd\u03b1\u03b9\u03c1\u0415\u041e\u0422\u041d\u0406\u039f\u0395\u03a4\u0397\u0399",
    "aeopcyxijsdhqwovaipEOTHIOETHI",
)
MIXED = re.compile(r"[^\W\d_]*(?:[a-zA-Z][\u0370-\u052f]|[\u0370-\u052f][a-zA-Z])[^\W\d_]*")
UNSEEN = frozenset("\u034f\u115f\u1160\u17b4\u17b5\u180b\u180c\u180d\u3164\uffa0")
BRACKET = re.compile(r"\\.|[\[\]]|\n[ \t]*\n", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Stretch:
    """Where a form lies in visible text: the words of a claim or opinion, or the place of a printed fact."""

    start: int
    end: int
    claim: Claim


@dataclass(slots=True)
class Sight:
    """Visible text while it is gathered; `asides` are places in the source seen elsewhere: texts of pictures, tips of links."""

    characters: list[str] = field(default_factory=list)
    origins: list[int] = field(default_factory=list)
    stretches: list[Stretch] = field(default_factory=list)
    asides: list[tuple[str, int, int]] = field(default_factory=list)

    def add(self, text: str, origin: int) -> None:
        """Characters that all came from one place."""
        self.characters.extend(text)
        self.origins.extend([origin] * len(text))


@dataclass(frozen=True, slots=True)
class Markup:
    """What must be known to see through a draft's markup: its forms, code and notes by where they start, its link labels."""

    source: str
    forms: Mapping[int, Claim]
    code: Mapping[int, int]
    notes: Mapping[int, int]
    labels: frozenset[str]
    pairs: Mapping[int, int]

    @staticmethod
    def of(draft: Draft, labels: frozenset[str]) -> Markup:
        """The markup of a draft; `labels` are those of its link definitions, in lower case."""
        forms = {form.start: form for form in forms_of(draft)}
        return Markup(draft.source, forms, dict(draft.code), dict(draft.notes), labels, bracket_pairs(draft.source))

    def see(self, start: int, end: int) -> Sight:
        """What a reader sees of the source between two offsets."""
        sight = Sight()
        self._read(sight, start, end)
        return sight

    def _read(self, sight: Sight, start: int, end: int) -> None:
        at = start
        while at < end:
            sign = SIGN.search(self.source, at, end)
            stop = sign.start() if sign else end
            sight.characters.extend(self.source[at:stop])
            sight.origins.extend(range(at, stop))
            at = self._sign(sight, stop, end) if sign else end

    def _sign(self, sight: Sight, at: int, end: int) -> int:
        """Take in whatever a sign at an offset means; gives the offset behind it."""
        if at in self.forms:
            return self._form(sight, self.forms[at])
        if at in self.notes:
            return self.notes[at]
        if at in self.code:
            return self._code(sight, at)
        match self.source[at]:
            case "\\" | "&" | "\n" | "\r" | "\t":
                return self._escape(sight, at, end)
            case "*" | "_" | "`":
                return self._emphasis(sight, at, end)
            case "[" | "!":
                return self._bracket(sight, at, end)
            case "<":
                return self._angle(sight, at, end)
            case character:
                sight.add(plain_character(character), at)
                return at + 1

    def _form(self, sight: Sight, form: Claim) -> int:
        begin = len(sight.characters)
        if form.kind == "printed":
            sight.add(FORM, form.start)
        else:
            self._read(sight, form.words_start, form.words_end)
        sight.stretches.append(Stretch(begin, len(sight.characters), form))
        return form.end

    def _code(self, sight: Sight, at: int) -> int:
        end = self.code[at]
        fence = len(self.source[at:end]) - len(self.source[at:end].lstrip("`~"))
        for offset in range(at + fence, max(at + fence, end - fence)):
            sight.add(plain_character(self.source[offset]), offset)
        return end

    def _escape(self, sight: Sight, at: int, end: int) -> int:
        entity = ENTITY.match(self.source, at, end)
        if entity:
            for character in html.unescape(entity[0]):
                sight.add(plain_character(character), at)
            return entity.end()
        head = LINE_HEAD.match(self.source, at, end)
        if head:
            sight.add(" ", at)
            return head.end()
        escaped = self.source[at] == "\\" and at + 1 < end and self.source[at + 1] in "\\`*_{}[]()<>#+-.!|~&\"'"
        sight.add(self.source[at + escaped].replace("\t", " ").replace("\r", " "), at + escaped)
        return at + 1 + escaped

    def _emphasis(self, sight: Sight, at: int, end: int) -> int:
        """Drop marks of emphasis and stray backticks; keep a star between spaces and an underscore inside a word."""
        run = at
        while run < end and self.source[run] == self.source[at]:
            run += 1
        before, after = self.source[at - 1 : at], self.source[run : run + 1]
        loose = self.source[at] == "*" and not before.strip() and not after.strip()
        if loose or (self.source[at] == "_" and before.isalnum() and after.isalnum()):
            sight.characters.extend(self.source[at:run])
            sight.origins.extend(range(at, run))
        return run

    def _bracket(self, sight: Sight, at: int, end: int) -> int:
        picture = self.source.startswith("![", at)
        close = self.pairs.get(at + picture, end)
        behind = self._behind(close, end, at + picture) if close < end else None
        if behind is None:
            sight.add(self.source[at], at)
            return at + 1
        if picture:
            sight.add(" ", at)
            sight.asides.append(("picture", at + 2, close))
        else:
            self._read(sight, at + 1, close)
        target = TARGET.match(self.source, close + 1, end)
        group = target.lastindex if target else None
        if target and group:
            sight.asides.append(("tip", *target.span(group)))
        return behind

    def _behind(self, close: int, end: int, opened: int) -> int | None:
        """Where a link ends whose text closes here: behind its target or label; None where it is no link."""
        target = TARGET.match(self.source, close + 1, end)
        if target:
            return target.end()
        label = LABEL.match(self.source, close + 1, end)
        named = (label[1] if label else "") or self.source[opened + 1 : close]
        if " ".join(named.lower().split()) not in self.labels:
            return None
        return label.end() if label else close + 1

    def _angle(self, sight: Sight, at: int, end: int) -> int:
        address = ADDRESS_IN_ANGLES.match(self.source, at, end)
        if address:
            self._copy(sight, *address.span(1))
            return address.end()
        tag = TAG.match(self.source, at, end)
        if tag:
            return tag.end()
        sight.add("<", at)
        return at + 1

    def _copy(self, sight: Sight, start: int, end: int) -> None:
        sight.characters.extend(self.source[start:end])
        sight.origins.extend(range(start, end))


def fold_lookalikes(text: str) -> str:
    """Letters of other alphabets inside Latin words as what they look like, character for character."""
    return text if text.isascii() else MIXED.sub(lambda word: word[0].translate(LOOKALIKES), text)


def forms_of(draft: Draft) -> Iterator[Claim]:
    """All forms of a draft, those inside the words of others too."""
    for claim in draft.claims:
        yield claim
        yield from claim.inside


def bracket_pairs(source: str) -> dict[int, int]:
    """Each opening bracket with the one that closes it in the same paragraph; brackets behind a backslash are none."""
    pairs: dict[int, int] = {}
    opened: list[int] = []
    for sign in BRACKET.finditer(source):
        if sign[0] == "[":
            opened.append(sign.start())
        elif sign[0] == "]" and opened:
            pairs[opened.pop()] = sign.start()
        elif sign[0][0] == "\n":
            opened.clear()
    return pairs


def plain_character(character: str) -> str:
    """A character as it reads: nothing for an invisible one, ASCII for digits of any script and letters of compatibility."""
    if character.isascii():
        return " " if character in "\t\r\n" else character
    category = unicodedata.category(character)
    if category in ("Cf", "Cc") or character in UNSEEN or "\ufe00" <= character <= "\ufe0f":
        return ""
    if category == "Zs" or character in "\u2028\u2029":
        return " "
    digit = unicodedata.digit(character, None)
    if digit is not None:
        return str(digit)
    number = unicodedata.numeric(character, None) if category == "No" else None
    if number is not None and number == int(number):
        return str(int(number))
    folded = unicodedata.normalize("NFKC", character)
    return folded if folded.isascii() and folded.isalnum() else character
