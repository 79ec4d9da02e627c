"""Where a draft's links lead: targets of links, of link definitions, and addresses in angle brackets."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Draft

LINK = re.compile(
    r"(?<!\\)\]\(\s*<?([^\s()<>]+)|^ {0,3}\[[^\[\]]+\]:[ \t]*<?([^\s<>]+)|<([a-zA-Z][a-zA-Z0-9+.-]*:[^\s<>]*)>", re.MULTILINE
)
PICTURE = re.compile(r"!\[[^\[\]]*\Z")


class Target(NamedTuple):
    """Where a target stands in the source, what it is, and whether it is that of a picture."""

    at: int
    text: str
    is_picture: bool


def targets(draft: Draft) -> Iterator[Target]:
    """Every target of the body, in its order, outside code and notes."""
    for link in LINK.finditer(draft.source, draft.body_start):
        group = link.lastindex or 1
        at = link.start(group)
        if not any(start <= at < end for start, end in (*draft.code, *draft.notes)):
            before = draft.source[max(draft.body_start, at - 300) : link.start()]
            yield Target(at, link[group], group == 1 and PICTURE.search(before) is not None)
