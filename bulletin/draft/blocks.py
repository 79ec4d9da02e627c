"""The blocks of a draft: paragraphs, headings, items, cells of tables, by lines, before anything inside them is read."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from bulletin.draft.visible import forms_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Draft

Kind = Literal["title", "paragraph", "heading", "item", "cell", "picture", "tip"]

NOTE = "\x00"
BLANK = re.compile(r"[ \t\x00>]*")
FENCE = re.compile(r"[ \t>]*(?:```+|~~~+)")
HEADING = re.compile(r"[ \t>]*#{1,6}[ \t]*(.*?)[ \t]*#*[ \t]*")
UNDERLINE = re.compile(r"[ \t>]*(?:=+|-+)[ \t]*")
RULE = re.compile(r"[ \t>]*(?:(?:\*[ \t]*){3,}|(?:-[ \t]*){3,}|(?:_[ \t]*){3,})")
ITEM = re.compile(r"([ \t>]*)(?:[-*+]|(\d{1,9})[.)])[ \t]+")
NUMBERED = re.compile(r"(\d{1,4})(?:(?:\.\d{1,3})+\.?|[.)])[ \t]+")
DELIMITER = re.compile(r"[ \t>]*\|?[ \t]*:?-+:?[ \t]*(?:\|[ \t]*:?-+:?[ \t]*)*\|?[ \t]*")
DEFINITION = re.compile(r"""[ ]{0,3}\[([^\[\]]+)\]:[ \t]*<?[^\s>]+>?(?:[ \t]+(?:"([^"]*)"|'([^']*)'|\(([^()]*)\)))?[ \t]*""")
BAR = re.compile(r"(?<!\\)\|")


@dataclass(frozen=True, slots=True)
class Piece:
    """One block of a draft's source by its offsets, without the marks that made it one; of a cell also the heads over it."""

    kind: Kind
    start: int
    end: int
    heads: tuple[tuple[int, int], ...] = ()


@dataclass(slots=True)
class Splitter:
    """A walk over the lines of `shape`: a draft's source with its forms, code and notes blotted out, offsets kept."""

    shape: str
    paragraph: list[tuple[int, int]] = field(default_factory=list)
    kind: Kind = "paragraph"
    ordinals: dict[str, int] = field(default_factory=dict)
    labels: set[str] = field(default_factory=set)
    in_table: bool = False
    columns: list[tuple[int, int]] = field(default_factory=list)

    def split(self, start: int) -> Iterator[Piece]:
        """All blocks from an offset on, in order."""
        lines = list(_lines(self.shape, start))
        for number, (first, last) in enumerate(lines):
            following = lines[number + 1] if number + 1 < len(lines) else (last, last)
            yield from self._line(first, last, self.shape[slice(*following)])
        yield from self._flush()

    def _line(self, first: int, last: int, following: str) -> Iterator[Piece]:
        line = self.shape[first:last]
        if BLANK.fullmatch(line) or FENCE.match(line) or (RULE.fullmatch(line) and not self._underlines(line)):
            yield from self._flush()
            self.in_table = False
        elif self._underlines(line):
            self.kind = "heading"
            yield from self._flush()
        elif self.in_table or ("|" in line and "|" in following and DELIMITER.fullmatch(following)):
            yield from self._flush()
            yield from self._cells(first, line)
        else:
            yield from self._words(first, last, line)

    def _words(self, first: int, last: int, line: str) -> Iterator[Piece]:
        heading, item, definition = HEADING.fullmatch(line), ITEM.match(line), DEFINITION.fullmatch(line)
        if heading:
            yield from self._flush()
            yield Piece("heading", first + self._behind_ordinal(line, heading.start(1)), first + heading.end(1))
        elif definition:
            yield from self._flush()
            self.labels.add(" ".join(definition[1].lower().split()))
            if definition.lastindex and definition.lastindex > 1:
                start, end = definition.span(definition.lastindex)
                yield Piece("tip", first + start, first + end)
        elif item:
            yield from self._flush()
            self.kind = "item"
            self.paragraph = [(first + self._behind_marker(item), last)]
        else:
            self.paragraph.append((first + len(line) - len(line.lstrip(" \t>")), last))

    def _underlines(self, line: str) -> bool:
        return self.kind == "paragraph" and len(self.paragraph) == 1 and UNDERLINE.fullmatch(line) is not None

    def _behind_marker(self, item: re.Match[str]) -> int:
        """Where the words of an item begin; a number out of its order is one of them, for the reader takes it as one."""
        if item[2] is None or self._in_order(f"item {len(item[1])}", int(item[2])):
            return item.end()
        return item.start(2)

    def _behind_ordinal(self, line: str, at: int) -> int:
        numbered = NUMBERED.match(line, at)
        return numbered.end() if numbered and self._in_order("heading", int(numbered[1])) else at

    def _in_order(self, level: str, number: int) -> bool:
        before = self.ordinals.get(level, 0)
        fits = number in (1, before, before + 1)
        if fits:
            self.ordinals[level] = number
        return fits

    def _cells(self, first: int, line: str) -> Iterator[Piece]:
        if not self.in_table:
            self.columns = []
        if DELIMITER.fullmatch(line):
            return
        cells = list(_cells(line, first))
        for column, cell in enumerate(cells):
            over = self.columns[column : column + 1] if self.in_table else []
            beside = cells[:1] if column else []
            if cell[0] < cell[1]:
                yield Piece("cell", *cell, tuple(head for head in (*beside, *over) if head[0] < head[1]))
        self.columns = self.columns if self.in_table else cells
        self.in_table = True

    def _flush(self) -> Iterator[Piece]:
        if self.paragraph:
            yield Piece(self.kind, self.paragraph[0][0], self.paragraph[-1][1])
        self.paragraph, self.kind = [], "paragraph"


def shape_of(draft: Draft) -> str:
    """The source with forms and code as letters and notes as nothing, so that only the draft's own marks make blocks."""
    shape = draft.source
    blots = [(form.start, form.end, "x") for form in forms_of(draft)]
    blots += [(*code, "x") for code in draft.code] + [(*note, NOTE) for note in draft.notes]
    parts, at = [], 0
    for start, end, blot in sorted(blots):
        if start >= at:
            parts += [shape[at:start], blot * (end - start)]
            at = end
    return "".join([*parts, shape[at:]])


def _cells(line: str, first: int) -> Iterator[tuple[int, int]]:
    """The offsets of a row's cells without the space around them; an outer bar opens none."""
    start = line.index("|") + 1 if line.lstrip(" \t>").startswith("|") else 0
    for bar in [*(match.start() for match in BAR.finditer(line, start)), len(line)]:
        cell = line[start:bar]
        if bar < len(line) or cell.strip():
            begin = start + len(cell) - len(cell.lstrip())
            yield first + begin, first + max(begin, start + len(cell.rstrip()))
        start = bar + 1


def _lines(text: str, start: int) -> Iterator[tuple[int, int]]:
    """The offsets of the lines from an offset on, without their line ends."""
    while start < len(text):
        end = text.find("\n", start)
        end = len(text) if end < 0 else end
        yield start, end
        start = end + 1
