"""Clauses of the prose with the printed facts and claims that stand in them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bulletin.draft.sentences import Span, clauses, sentences

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.language import Language
    from bulletin.draft.prose import Block
    from bulletin.draft.visible import Stretch

REACH = 300
"""Words further away in characters belong to no figure; it bounds what a clause without an end may cost."""


@dataclass(frozen=True, slots=True)
class Passage:
    """A clause: its span and its sentence's span in a block's text, and the stretches that begin in it."""

    block: Block
    span: Span
    sentence: Span
    stretches: tuple[Stretch, ...]

    def near(self, start: int, end: int) -> Span:
        """The clause around a stretch of it, and all of the stretch; of an endless clause what lies within REACH."""
        return Span(max(min(self.span.start, start), start - REACH), min(max(self.span.end, end), end + REACH))

    @property
    def sentence_text(self) -> str:
        """The whole sentence it is part of."""
        return self.block.text[self.sentence.start : self.sentence.end]


def passages_of(blocks: tuple[Block, ...], locale: str, language: Language | None) -> Iterator[Passage]:
    """Every clause in order; without word lists a sentence is one clause."""
    for block in blocks:
        for sentence in sentences(block.text, locale):
            spans = clauses(block.text, sentence, language) if language else [sentence]
            for span in spans:
                within = tuple(stretch for stretch in block.stretches if span.holds(stretch.start))
                yield Passage(block, span, sentence, within)
