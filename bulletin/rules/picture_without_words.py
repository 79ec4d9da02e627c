"""A picture without a text alternative.

Readers who hear their mail, and all whose program shows no pictures, are told nothing by one without words. The text is prose
like the rest and is checked like it.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "picture-without-words"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = "the picture {words} has no text alternative"
ACCEPTED: tuple[str, ...] = ("![A loom in its box](loom.png)",)
REJECTED: tuple[str, ...] = ("«![](loom.png)»", "«![  ][loom]»\n\n[loom]: https://fennmoor.example/loom.png")
PICTURE = re.compile(r"(?<!\\)!\[\s*\](?:\(\s*<?([^\s()<>]*)[^()]*\)|\[([^\[\]]*)\])")


def check(case: Case) -> Iterator[Fault]:
    """Pictures whose text is empty."""
    draft = case.draft
    for picture in PICTURE.finditer(draft.source, draft.body_start):
        if not any(start <= picture.start() < end for start, end in (*draft.code, *draft.notes)):
            yield Fault(picture.start(), picture[1] or picture[2] or picture[0])
