"""A link that is not https or mailto.

A link in a mail is an invitation to trust its target. One without encryption can be changed on its way, one to a script or a
local file does harm or leads nowhere, and a reader can't tell before clicking.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "bare-link"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = "the link to {words} is neither https nor mailto"
ACCEPTED: tuple[str, ...] = (
    "Read [how we box](https://fennmoor.example/boxing).",
    "Write to <mailto:help@fennmoor.example>.",
    "![A loom in its box](pictures/loom.png)",
)
REJECTED: tuple[str, ...] = (
    "Read [how we box](«http://fennmoor.example/boxing»).",
    "Read [how we box][here].\n\n[here]: «ftp://fennmoor.example/boxing»",
    "See <«http://fennmoor.example»>.",
)
LINK = re.compile(
    r"(?<!\\)\]\(\s*<?([^\s()<>]+)|^ {0,3}\[[^\[\]]+\]:[ \t]*<?([^\s<>]+)|<([a-zA-Z][a-zA-Z0-9+.-]*:[^\s<>]*)>", re.MULTILINE
)
PICTURE = re.compile(r"!\[[^\[\]]*\Z")
SAFE = ("https:", "mailto:")


def check(case: Case) -> Iterator[Fault]:
    """Targets of links, of link definitions and addresses in angle brackets; sources of pictures may be local."""
    draft = case.draft
    for link in LINK.finditer(draft.source, draft.body_start):
        group = link.lastindex or 1
        target, at = link[group], link.start(group)
        picture = group == 1 and PICTURE.search(draft.source[max(draft.body_start, at - 300) : link.start()]) is not None
        safe = target.lower().startswith(SAFE) or (picture and ":" not in target)
        if not safe and not any(start <= at < end for start, end in (*draft.code, *draft.notes)):
            yield Fault(at, target)
