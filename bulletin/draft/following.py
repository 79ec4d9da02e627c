"""What a translation follows: the digest of its original, and one of each of its paragraphs, so that what changed can be named.

`Follows: WHOLE FIRST.SECOND...`: sixteen hexadecimal digits of the whole text, six of the title and of each paragraph. Line
breaks within a paragraph and notes to oneself are no change; who reads it and the day it is of are.
"""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Draft

WHOLE, PART = 16, 6
BREAK = re.compile(r"\n[ \t]*(?:\n[ \t]*)+")
LINE = re.compile(r"^Follows[ \t]*:.*$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph of a draft, in one line: where it begins and what it says."""

    line: int
    text: str

    @property
    def digest(self) -> str:
        """Six digits that stand for it."""
        return _digest(self.text)[:PART]


def paragraphs(draft: Draft) -> list[Paragraph]:
    """The title and all paragraphs of a draft, without its notes."""
    source = _without_notes(draft)
    found = [Paragraph(draft.header.title_place.line, draft.header.title)]
    for start, end in _between_breaks(source, draft.body_start):
        text = " ".join(source[start:end].split())
        if text:
            at = start + len(source[start:end]) - len(source[start:end].lstrip())
            found.append(Paragraph(draft.source.count("\n", 0, at) + 1, text))
    return found


def follows_line(original: Draft) -> str:
    """What stands behind `Follows:` in a translation of this draft as it is now."""
    parts = paragraphs(original)
    head = [str(original.header.as_of), original.header.readers]
    whole = _digest("\n".join([*head, *(part.text for part in parts)]))[:WHOLE]
    return f"{whole} {'.'.join(part.digest for part in parts)}"


def changed_paragraphs(original: Draft, follows: str) -> tuple[list[Paragraph], int]:
    """The paragraphs of the original that are new or other than those which `follows` stands for, and how many are gone."""
    before = follows.split(" ")[1].split(".") if " " in follows else []
    now = paragraphs(original)
    matcher = SequenceMatcher(None, before, [part.digest for part in now], autojunk=False)
    changed: list[Paragraph] = []
    gone = 0
    for kind, first, last, begin, end in matcher.get_opcodes():
        if kind != "equal":
            changed += now[begin:end]
            gone += max(0, (last - first) - (end - begin))
    return changed, gone


def with_follows(source: str, body_start: int, line: str) -> str:
    """A translation's text with its `Follows:` line said anew, or as the last line on top where there was none."""
    head, body = source[:body_start], source[body_start:]
    if LINE.search(head):
        return LINE.sub(f"Follows: {line}", head, count=1) + body
    top = head.rstrip()
    return f"{top}\nFollows: {line}{head[len(top) :]}{body}"


def _between_breaks(source: str, start: int) -> Iterator[tuple[int, int]]:
    at = start
    for found in BREAK.finditer(source, start):
        yield at, found.start()
        at = found.end()
    yield at, len(source)


def _without_notes(draft: Draft) -> str:
    """The source with every note blotted out, as long as before."""
    parts, at = [], 0
    for start, end in draft.notes:
        parts += [draft.source[at:start], re.sub(r"[^\n]", " ", draft.source[start:end])]
        at = end
    return "".join([*parts, draft.source[at:]])


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()
