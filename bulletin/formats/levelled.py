"""Text made level for reading: lower case, plain spaces, signs and digits, character for character so that offsets hold."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from types import MappingProxyType

SPACES = "\u00a0\u202f\u2009\u2007\u2008\u200a\u2002\u2003\u3000\t"
INVISIBLE = "\u200b\u2060\u00ad\ufeff\u200e\u200f\u061c"
"""Characters nobody sees; between digits they would hide a figure."""
SIGNS: Mapping[str, str] = MappingProxyType(
    {
        "−": "-", "‐": "-", "‑": "-", "﹣": "-", "－": "-", "’": "'", "＄": "$", "％": "%", "，": ",", "．": ".", "：": ":",
        "／": "/", "٫": ".", "٬": ",", "＋": "+", "〜": "～", "٪": "%", "￥": "¥",
    }
)  # fmt: skip


class Levels(dict[int, str]):
    """A translation table that works out the level form of a character when it first meets it."""

    def __missing__(self, code: int) -> str:
        """The level form of a character, kept for the rest of the text."""
        character = chr(code)
        if character.isdecimal():
            plain = str(unicodedata.decimal(character))
        else:
            lower = character.lower()
            plain = lower if len(lower) == 1 else character
        self[code] = plain
        return plain


def level(text: str) -> str:
    """The level form of a text, of the same length."""
    return text.translate(Levels({**{ord(space): " " for space in SPACES}, **{ord(odd): sign for odd, sign in SIGNS.items()}}))


class Taken:
    """Which characters of a text belong to a figure or a name already."""

    def __init__(self, length: int) -> None:
        """Nothing is taken at first."""
        self._marks = bytearray(length)

    def free(self, start: int, end: int) -> bool:
        """Whether nothing between two offsets is taken."""
        return self._marks.find(1, start, end) < 0

    def take(self, start: int, end: int) -> None:
        """Take all between two offsets."""
        self._marks[start:end] = b"\x01" * (end - start)
