"""How texts are written in the paths of facts: the same in drafts, in keys and in messages."""

from __future__ import annotations

import re

PLAIN_PART = re.compile(r"[\w \-]+")


def is_plain(text: str) -> bool:
    """Whether a part of a key needs no brackets: letters of any script, digits, space, _ and - alone."""
    return PLAIN_PART.fullmatch(text) is not None


def quote(text: str) -> str:
    """A string as drafts and keys write it; there are no escapes, so one with a double quote stands in single ones."""
    return f"'{text}'" if '"' in text else f'"{text}"'
