"""A link that is not https or mailto.

A link in a mail is an invitation to trust its target. One without encryption can be changed on its way, one to a script or a
local file does harm or leads nowhere, and a reader can't tell before clicking.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.links import targets

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
SAFE = ("https:", "mailto:")


def check(case: Case) -> Iterator[Fault]:
    """Targets of links, of link definitions and addresses in angle brackets; sources of pictures may be local."""
    for target in targets(case.draft):
        is_local_picture = target.is_picture and ":" not in target.text
        if not target.text.lower().startswith(SAFE) and not is_local_picture:
            yield Fault(target.at, target.text)
