"""Rows of cells as columns of plain text."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence


def columns(rows: Sequence[Sequence[str]]) -> str:
    """Rows of cells, all equally many, in columns two spaces apart; line breaks in cells are shown as spaces."""
    flat = [[" ".join(cell.split()) for cell in row] for row in rows]
    widths = [max(width(row[at]) for row in flat) for at in range(len(flat[0]))]
    return "\n".join("  ".join(map(padded, row, widths)).rstrip() for row in flat)


def padded(cell: str, to: int) -> str:
    """A cell filled up with spaces."""
    return cell + " " * (to - width(cell))


def width(text: str) -> int:
    """The cells that a text takes in a terminal: East Asian wide signs take two, marks on letters none."""
    wide = sum(unicodedata.east_asian_width(sign) in "WF" for sign in text)
    return len(text) + wide - sum(unicodedata.combining(sign) > 0 for sign in text)


def indented(text: str) -> str:
    """A block of lines, moved in."""
    return "\n".join(f"    {line}" if line else line for line in text.split("\n"))
