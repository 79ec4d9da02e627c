"""Words made into patterns over level text: alternatives, joined shapes whose groups can be asked for, whole phrases."""

from __future__ import annotations

import re
from collections.abc import Iterable

NEVER = re.compile(r"(?!)")
SPACE = r"[ \t]*\n?[ \t]*"


def alternatives(words: Iterable[str]) -> str:
    """Words as one pattern, the longest first; a pattern that never matches where there are none."""
    listed = sorted(words, key=lambda word: (-len(word), word))
    return "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in listed) or "(?!)"


def any_of(patterns: Iterable[str]) -> re.Pattern[str]:
    """Patterns as one; `group` finds what their named groups matched."""
    joined = "|".join(f"(?:{_renumbered(pattern, number)})" for number, pattern in enumerate(patterns))
    return re.compile(joined) if joined else NEVER


def _renumbered(pattern: str, number: int) -> str:
    """Group names made unique, so that patterns can be joined."""
    return re.sub(r"\(\?P<(\w+)>", rf"(?P<\g<1>{number}>", pattern)


def group(match: re.Match[str], name: str) -> str | None:
    """The first group of that name that matched in a pattern made of several."""
    return next((text for key, text in match.groupdict().items() if text and key.rstrip("0123456789") == name), None)


def phrases(words: Iterable[str], bordered: bool) -> re.Pattern[str]:
    """Any of the phrases, as whole words where the language has borders between words."""
    listed = alternatives(words)
    return re.compile(rf"(?<!\w)(?:{listed})(?!\w)" if bordered else f"(?:{listed})")
