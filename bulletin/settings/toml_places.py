"""Where each key of a TOML text stands: the standard library's reader forgets the places.

The text has been read by `tomllib` already, so this walk over it may trust that it is well formed.
"""

from __future__ import annotations

import re
import tomllib

from bulletin.model import Place

Keys = tuple[str | int, ...]
"""A path to a value: keys of tables, and numbers (from 0) of items in arrays."""

BLANK = re.compile(r"(?:[\s]|#[^\n]*)*")
BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
QUOTED = re.compile(r'"""(?:\\.|[^\\])*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:\\.|[^"\\])*"|\'[^\']*\'', re.DOTALL)
SCALAR = re.compile(r"[^,\]}#\n]+")


class TomlPlaces:
    """The places of all keys and array items of a text."""

    def __init__(self, file: str, text: str) -> None:
        """Walk the text once; `file` is what the places name."""
        self.file = file
        self._text = text
        self._at = 0
        self._offsets: dict[Keys, int] = {}
        self._walk()

    def find(self, path: Keys) -> Place:
        """The place of a key, or of the nearest table around it that stands in the text."""
        for length in range(len(path), 0, -1):
            if path[:length] in self._offsets:
                return self._place(self._offsets[path[:length]])
        return Place(self.file)

    def _place(self, offset: int) -> Place:
        line_start = self._text.rfind("\n", 0, offset) + 1
        return Place(self.file, self._text.count("\n", 0, offset) + 1, offset - line_start + 1)

    def _walk(self) -> None:
        table: Keys = ()
        self._skip(BLANK)
        while self._at < len(self._text):
            table = self._header() if self._text[self._at] == "[" else self._pair(table)
            self._skip(BLANK)

    def _skip(self, pattern: re.Pattern[str]) -> str:
        match = pattern.match(self._text, self._at)
        self._at = match.end() if match else self._at + 1
        return match.group() if match else ""

    def _header(self) -> Keys:
        array = self._text.startswith("[[", self._at)
        self._at += 2 if array else 1
        path = self._key(())
        self._at = self._text.index("]", self._at) + (2 if array else 1)
        if not array:
            return path
        item = (*path, sum(1 for known in self._offsets if known[:-1] == path and isinstance(known[-1], int)))
        self._offsets[item] = self._offsets[path]
        return item

    def _pair(self, table: Keys) -> Keys:
        path = self._key(table)
        self._at = self._text.index("=", self._at) + 1
        self._value(path)
        return table

    def _key(self, table: Keys) -> Keys:
        """Read a dotted key; what follows `[[x]]` belongs to its last item."""
        path = table
        while True:
            self._skip(BLANK)
            start = self._at
            quoted = self._text[start] in "\"'"
            word = self._skip(QUOTED if quoted else BARE_KEY)
            path = (*self._last_item(path), str(tomllib.loads(f"k = {word}")["k"]) if quoted else word)
            self._offsets.setdefault(path, start)
            self._skip(BLANK)
            if self._text[self._at : self._at + 1] != ".":
                return path
            self._at += 1

    def _last_item(self, path: Keys) -> Keys:
        count = 0
        while (*path, count) in self._offsets:
            count += 1
        return (*path, count - 1) if count else path

    def _value(self, path: Keys) -> None:
        self._skip(BLANK)
        opening = self._text[self._at]
        if opening in "\"'":
            self._skip(QUOTED)
        elif opening == "[":
            self._items(path)
        elif opening == "{":
            self._inline_table(path)
        else:
            self._skip(SCALAR)

    def _items(self, path: Keys) -> None:
        self._at += 1
        number = 0
        while self._more("]"):
            self._offsets[(*path, number)] = self._at
            self._value((*path, number))
            number += 1

    def _inline_table(self, path: Keys) -> None:
        self._at += 1
        while self._more("}"):
            self._pair(path)

    def _more(self, closing: str) -> bool:
        """Whether another item follows before the closing bracket, which is passed over."""
        self._skip(BLANK)
        if self._text[self._at] == ",":
            self._at += 1
            self._skip(BLANK)
        if self._text[self._at] != closing:
            return True
        self._at += 1
        return False
