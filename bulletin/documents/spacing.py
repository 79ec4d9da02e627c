"""Lists as people write them and the checker reads them.

Markdown wants a blank line before a list and would run "1. Cut" into the paragraph above it, its number standing bare; and
it takes any number that opens a line for the mark of a list, so that "10. May" would become whatever comes after nine.
"""

from __future__ import annotations

import re

ITEM = re.compile(r"([ >]*)(?:[-*+]|\d{1,9}[.)])[ \t]+\S")
NUMBERED = re.compile(r"(?m)^([ \t>]*)(\d{1,9})[.)](?=[ \t])")
FENCE = re.compile(r"[ >]*(?:```|~~~)")
HEADING = re.compile(r"[ >]*#")
WIDE = re.compile(r"[\u3000-\u30ff\u3400-\u9fff\uff00-\uff60]")
BLANK = re.compile(r"[ \t>]*")


def part_lists(text: str) -> str:
    """Put a blank line between a paragraph and a list that follows it at once; fenced code stays as it is."""
    parted: list[str] = []
    fenced, opens = False, True
    for line in text.split("\n"):
        fence = FENCE.match(line) is not None
        item = None if fenced or fence else ITEM.match(line)
        if item and not opens:
            parted.append(item[1].rstrip())
        parted.append(line)
        fenced ^= fence
        opens = bool(item or BLANK.fullmatch(line) or fence or HEADING.match(line)) or (opens and _within(parted))
    return "\n".join(parted)


def _within(lines: list[str]) -> bool:
    """Whether the last line goes on with a list item: since the last blank line there was one."""
    for line in reversed(lines):
        if BLANK.fullmatch(line):
            return False
        if ITEM.match(line):
            return True
    return False


def join_lines(text: str) -> str:
    """Join lines of a paragraph that break between two wide characters, where a space would be read (Japanese, Chinese)."""
    joined: list[str] = []
    fenced = False
    for line in text.split("\n"):
        fenced ^= FENCE.match(line) is not None
        before = joined[-1] if joined else ""
        if WIDE.match(line) and WIDE.match(before[-1:]) and not (fenced or HEADING.match(before)):
            joined[-1] += line
        else:
            joined.append(line)
    return "\n".join(joined)


def list_marks(text: str) -> list[tuple[int, int]]:
    """Where numbers are marks of a list: 1, or in order after the one before at the same depth. Others are the author's words."""
    marks: list[tuple[int, int]] = []
    last: dict[int, int] = {}
    for found in NUMBERED.finditer(text):
        depth, number = len(found[1]), int(found[2])
        if number in (1, last.get(depth, 0), last.get(depth, 0) + 1):
            last[depth] = number
            marks.append(found.span(2))
    return marks
