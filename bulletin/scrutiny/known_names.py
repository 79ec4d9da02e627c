"""Names that claim nothing, found in text: models, parts, titles, the settings' own names.

Found by their first word in a dictionary, so that thousands of names cost no more than a few.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

WORD = re.compile(r"[\u30a0-\u30ff]+|[\u3005-\u309f\u3400-\u9fff]+|[^\W\u3005-\u30ff\u3400-\u9fff]+")
"""A word; where no spaces part them, a run of one script."""
GOES_ON = re.compile(r"(?:['\u2019]?s)?(?![^\W\u3005-\u30ff\u3400-\u9fff]|%)(?![.,]\d)")


class Named(NamedTuple):
    """Where a name stands in a text."""

    start: int
    end: int
    name: str


@dataclass(frozen=True, slots=True)
class KnownNames:
    """Names by their first word in lower case, longer names before shorter ones."""

    by_first_word: Mapping[str, tuple[str, ...]]

    @staticmethod
    def of(names: frozenset[str]) -> KnownNames:
        """Ready to look for these names.

        One without a letter is left out, since it could pass for a figure, and one letter alone, which may be an article.
        """
        found: dict[str, list[str]] = {}
        for name in sorted(names, key=lambda name: (-len(name), name)):
            first = WORD.search(name)
            if first and any(sign.isalpha() for sign in name) and len(name) > 1:
                found.setdefault(first[0].lower(), []).append(name)
        return KnownNames({first: tuple(several) for first, several in found.items()})

    def find(self, text: str) -> Iterator[Named]:
        """Names in a text from left to right, not overlapping; "Heron 12" is not found in "Heron 12,000"."""
        lower, behind = text.lower(), 0
        if len(lower) != len(text):
            lower = text
        for word in WORD.finditer(lower):
            for name in self.by_first_word.get(word[0], ()) if word.start() >= behind else ():
                start = word.start() - name.lower().index(word[0])
                end = start + len(name)
                if start >= behind and lower.startswith(name.lower(), start) and GOES_ON.match(lower, end):
                    yield Named(start, end, name)
                    behind = end
                    break
