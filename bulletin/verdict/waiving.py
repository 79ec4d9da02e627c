"""Which `Waive:` line answers for a finding: the one that names its rule, and its words where they stand or the item it is about.

A line answers for one sentence: a common word would else let through whatever else it stands in. Two sentences take two lines. An
item (`PR-4`, a fact's name) is answered for wherever it is found.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

from bulletin.draft.sentences import Span, sentences

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.prose import Block
    from bulletin.model import Place, Waiver
    from bulletin.scrutiny.case import Case, Fault, Rule

EDGES = " .,;:!?\"'"
UNSPACED = re.compile(r"[\u3040-\u30ff\u3400-\u9fff]")


class Where(NamedTuple):
    """A sentence of the visible text: its block's first offset in the source, and where it begins in the block."""

    block: int
    sentence: int


@dataclass(slots=True)
class Answers:
    """The waivers of a draft while its findings are gone through; `given` is the sentence that each has answered for."""

    case: Case
    given: dict[Place, Where] = field(default_factory=dict)

    def waiver(self, rule: Rule, fault: Fault) -> Waiver | None:
        """The waiver that answers for a finding of a rule; None where nobody may, or nobody does."""
        if not (rule.WAIVABLE and fault.waivable):
            return None
        for waiver in self.case.draft.header.waivers:
            if waiver.rule == rule.NAME and self._answers(waiver, fault):
                return waiver
        return None

    def _answers(self, waiver: Waiver, fault: Fault) -> bool:
        named = _plain(waiver.words)
        if fault.item and named == _plain(fault.item):
            return True
        where = next((place for place in _places(self.case, fault) if _names(waiver, fault, place)), None)
        if where is None:
            return not isinstance(fault.at, int) and named == _plain(fault.words) != ""
        block, sentence, _ = where
        return self.given.setdefault(waiver.place, Where(block.origins[0], sentence.start)) == (block.origins[0], sentence.start)


Standing = tuple["Block", Span, int]


def _places(case: Case, fault: Fault) -> Iterator[Standing]:
    """The block and the sentence that a finding stands in, and its offset in the block."""
    if not isinstance(fault.at, int):
        return
    for block in case.blocks:
        if block.origins[0] <= fault.at <= block.origins[-1]:
            position = bisect_right(block.origins, fault.at) - 1
            yield from ((block, span, position) for span in sentences(block.text, case.draft.locale) if span.holds(position))


def _names(waiver: Waiver, fault: Fault, where: Standing) -> bool:
    """Whether the waiver's words are the finding's, or stand around it in its sentence."""
    block, sentence, position = where
    if _plain(waiver.words) == _plain(fault.words) != "":
        return True
    end = position + len(fault.words.strip(EDGES))
    found = _pattern(waiver.words).finditer(block.text, *sentence)
    return any(match.start() <= position and end <= match.end() for match in found)


def _pattern(words: str) -> re.Pattern[str]:
    """Words as whole words, however they are spaced; where no spaces part them, anywhere."""
    stripped = words.strip(EDGES)
    written = r"\s+".join(map(re.escape, stripped.split()))
    return re.compile(written if UNSPACED.search(stripped) else rf"(?<!\w){written}(?!\w)", re.IGNORECASE)


def _plain(words: str) -> str:
    return " ".join(words.casefold().split()).strip(EDGES)
