"""Where quotes open and close in a whole file, block by block: what pandas' own engine must be told before it may be trusted.

A quote opens a cell at its beginning, is doubled inside of it, and closes it at its end. A file that keeps to this is read alike
by the engine and by the csv module; all others are left to the latter, which says where they break the rule.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

QUOTE, LF, CR = 34, 10, 13
BLOCK = 1 << 20


@dataclass(eq=False)
class Quotes:
    """What was seen up to a place: delimiters outside of quotes, lines that begin inside of them, whether one is open."""

    delimiters: int = 0
    lines: int = 1
    opened: bool = False
    continued: list[NDArray[np.int64]] = field(default_factory=list)


def read_quotes(text: bytes, delimiter: str) -> Quotes | None:
    """The quotes of a text whose lines end at LF or CR LF; None where one stands out of place or is never closed."""
    codes, seen = np.frombuffer(text, dtype=np.uint8), Quotes()
    for at in range(0, len(codes), BLOCK):
        block = codes[at : at + BLOCK]
        inside = np.bitwise_xor.accumulate((block == QUOTE).view(np.uint8)) ^ np.uint8(seen.opened)
        quotes = np.flatnonzero(block == QUOTE)
        opens = inside[quotes] == 1
        if not _in_place(codes, (quotes[opens] + at, quotes[~opens] + at), ord(delimiter)):
            return None
        seen.delimiters += int(np.count_nonzero((block == ord(delimiter)) & (inside == 0)))
        ends = np.flatnonzero(block == LF)
        seen.continued.append(np.flatnonzero(inside[ends]) + seen.lines + 1)
        seen.lines += len(ends)
        seen.opened = bool(inside[-1])
    return None if seen.opened else seen


def _in_place(codes: NDArray[np.uint8], quotes: tuple[NDArray[np.int64], NDArray[np.int64]], delimiter: int) -> bool:
    """Whether each quote that opens stands at the beginning of a cell, each that closes at its end, or beside its double."""
    opening, closing = quotes
    before, after = codes[np.maximum(opening - 1, 0)], codes[np.minimum(closing + 1, len(codes) - 1)]
    begins = (before == delimiter) | (before == LF) | (before == QUOTE) | (opening == 0)
    ends = (after == delimiter) | (after == LF) | (after == CR) | (after == QUOTE) | (closing == len(codes) - 1)
    return bool(begins.all() and ends.all())
