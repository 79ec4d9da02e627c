"""Rows in blocks that fit the processor's cache: what is worked out on the way to a result takes no room of its own then."""

from __future__ import annotations

from collections.abc import Iterator

BLOCK = 1 << 15


def blocks(rows: int, least: int = BLOCK) -> Iterator[slice]:
    """All rows, one block after the other, each of `BLOCK` rows or of `least` if that is more."""
    width = max(least, BLOCK)
    return (slice(at, at + width) for at in range(0, rows, width))
