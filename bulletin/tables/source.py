"""The text of a table's file: its records, and the true line and column of each cell.

The bytes are kept, and places are worked out from them only when somebody asks for one: reading a million good rows costs nothing
here. A line ends at LF, CR LF or a lone CR. Columns count characters of the line, from 1, at which a cell begins (its quote, if
it has one). Bytes are UTF-8 from here on, whatever the file's encoding was.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from bulletin.model import Place

TAB, LF, CR, SPACE = 9, 10, 13, 32


@dataclass(frozen=True, eq=False)
class Source:
    """`original` are the bytes of the file, `text` the same in UTF-8 without a byte order mark.

    `record_lines` are the lines on which the records begin (from 1), the header's first; None where every line that is not
    blank is a record.
    """

    file: str
    original: bytes
    text: bytes
    delimiter: str
    record_lines: NDArray[np.int64] | None = None

    @cached_property
    def digest(self) -> str:
        """SHA-256 of the file as it was read."""
        return hashlib.sha256(self.original).hexdigest()

    @cached_property
    def _line_starts(self) -> NDArray[np.int64]:
        """The offset of each line; one more at the end of the text."""
        codes = np.frombuffer(self.text, dtype=np.uint8)
        ends = codes == LF
        if b"\r" in self.text:
            lone = codes == CR
            lone[:-1] &= codes[1:] != LF
            ends |= lone
        starts = np.concatenate(([0], np.flatnonzero(ends) + 1))
        return starts if starts[-1] == len(self.text) else np.append(starts, len(self.text))

    @cached_property
    def _records(self) -> NDArray[np.int64]:
        """The line of each record, the header's first."""
        if self.record_lines is not None:
            return self.record_lines
        starts = self._line_starts
        begins = np.frombuffer(self.text, dtype=np.uint8)[starts[:-1]] if len(starts) > 1 else np.empty(0, np.uint8)
        filled = (begins != LF) & (begins != CR)
        blanks = b" \t\r\n".replace(self.delimiter.encode(), b"")
        for line in np.flatnonzero((begins == SPACE) | (begins == TAB)):
            filled[line] = bool(self.text[starts[line] : starts[line + 1]].strip(blanks))
        return np.flatnonzero(filled) + 1

    @property
    def longest_line(self) -> int:
        """The bytes of the longest line."""
        return int(np.diff(self._line_starts).max(initial=0))

    def without(self, continued: list[NDArray[np.int64]]) -> Source:
        """The same text, of which some lines begin no record because the one before goes on in them."""
        lines = np.concatenate(continued) if continued else np.empty(0, dtype=np.int64)
        return replace(self, record_lines=np.setdiff1d(self._records, lines, assume_unique=True)) if len(lines) else self

    def line(self, record: int) -> int:
        """The line on which a record begins; -1 is the header."""
        return int(self._records[record + 1])

    def place(self, record: int, column: int) -> Place:
        """Where a cell begins: the record (-1: the header) and the number of its column in the file, from 0.

        A cell that a short record lacks stands where the record ends.
        """
        text = self._record_text(record)
        place = Place(self.file, self.line(record))
        for number, (start, end) in enumerate(_spans(text, self.delimiter)):
            place = _moved(text, start, self.line(record), self.file)
            if number == column:
                return place
            place = _moved(text, end, self.line(record), self.file)
        return place

    def cells(self, record: int) -> list[str]:
        """The cells of a record as the file has them, without their quotes."""
        text = self._record_text(record)
        return [_unquoted(text[start:end]) for start, end in _spans(text, self.delimiter)]

    def broken_cell(self, record: int) -> tuple[Place, str]:
        """Where the csv module gave a record up, and why: a quote stays open, something follows it, a cell is too long."""
        text = self._record_text(record)
        for number, (start, end) in enumerate(_spans(text, self.delimiter)):
            if text.startswith('"', start):
                closed = _quote_end(text, start)
                if text[closed - 1] != '"' or closed - 1 == start:
                    return self.place(record, number), "quote-open"
                if closed < end:
                    return self.place(record, number), "quote-followed"
        return Place(self.file, self.line(record)), "cell-too-long"

    def _record_text(self, record: int) -> str:
        records = self._records
        first = records[record + 1]
        after = records[record + 2] if record + 2 < len(records) else len(self._line_starts)
        start, end = self._line_starts[first - 1], self._line_starts[min(after - 1, len(self._line_starts) - 1)]
        return self.text[start:end].decode("utf-8")


def _moved(text: str, offset: int, line: int, file: str) -> Place:
    """The place of an offset in a record's text that begins on a line."""
    before = text[:offset].replace("\r\n", "\n").replace("\r", "\n")
    return Place(file, line + before.count("\n"), len(before) - before.rfind("\n"))


def _spans(text: str, delimiter: str) -> Iterator[tuple[int, int]]:
    """The start and end of each cell in the text of one record, quotes included, the end of the line not."""
    start = at = 0
    while True:
        at = _cell_end(text, start, delimiter)
        yield start, at
        if at >= len(text) or text[at] != delimiter:
            return
        start = at + 1


def _cell_end(text: str, start: int, delimiter: str) -> int:
    at = start
    if text.startswith('"', at):
        at = _quote_end(text, at)
    while at < len(text) and text[at] != delimiter and text[at] not in "\r\n":
        at += 1
    return at


def _quote_end(text: str, start: int) -> int:
    """The offset after the closing quote; the end of the text where it is missing."""
    at = start + 1
    while (quote := text.find('"', at)) >= 0:
        if not text.startswith('""', quote):
            return quote + 1
        at = quote + 2
    return len(text)


def _unquoted(cell: str) -> str:
    if not cell.startswith('"'):
        return cell
    end = _quote_end(cell, 0)
    return cell[1 : end - 1].replace('""', '"') + cell[end:]
