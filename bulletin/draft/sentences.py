"""Sentences and clauses of a block, as offsets of its visible text.

The scope of words is the clause: claims hide behind a harmless half ("..., and the boards are done"). A few words before a comma
that hold no form ("This week, ...") belong to the clause behind it.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

import sentencex  # type: ignore[import-untyped]

from bulletin.draft.visible import FORM

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.language import Language

ADVERBIAL_WORDS = 4
WORD = re.compile(rf"[\w{FORM}]")
FIGURE_STOP = re.compile(rf"\d\.\s+(?={FORM})")


class Span(NamedTuple):
    """Two offsets, the second behind the last character."""

    start: int
    end: int

    def holds(self, at: int) -> bool:
        """Whether a character lies in it."""
        return self.start <= at < self.end


def sentences(text: str, locale: str) -> list[Span]:
    """The sentences of a block; together they are the whole of it."""
    spans: list[Span] = []
    at = 0
    for sentence in sentencex.segment(locale.split("-")[0], text):
        found = text.find(sentence, at)
        if found >= 0 and sentence:
            at = found + len(sentence)
            spans.append(Span(spans[-1].end if spans else 0, at))
    if not spans or spans[-1].end < len(text):
        spans.append(Span(spans[-1].end if spans else 0, len(text)))
    return [Span(start, end) for span in spans for start, end in _before_forms(text, span)]


def _before_forms(text: str, span: Span) -> Iterator[tuple[int, int]]:
    """A full stop behind a figure and before a printed fact ends a sentence, though it may pass for that of an ordinal."""
    at = span.start
    for stop in FIGURE_STOP.finditer(text, *span):
        yield at, stop.end()
        at = stop.end()
    yield at, span.end


def clauses(text: str, sentence: Span, language: Language) -> list[Span]:
    """The clauses of a sentence, split at commas, dashes, brackets and conjunctions."""
    parts = list(clause_parts(text, sentence, language))
    if not language.spaced:
        return parts
    joined: list[Span] = []
    for part in parts:
        before = joined[-1] if joined else None
        if before and len(joined) == 1 and _is_adverbial(text[before.start : before.end]):
            joined[-1] = Span(before.start, part.end)
        else:
            joined.append(part)
    return joined


def clause_parts(text: str, sentence: Span, language: Language) -> Iterator[Span]:
    """The parts of a sentence between commas, dashes, brackets and conjunctions, each with the sign or word that opens it."""
    at = sentence.start
    for separator in language.classes["clause_ends"].finditer(text, *sentence):
        if WORD.search(text, at, separator.start()):
            yield Span(at, separator.start())
            at = separator.start()
    if at < sentence.end:
        yield Span(at, sentence.end)


def _is_adverbial(words: str) -> bool:
    return FORM not in words and len(words.split()) <= ADVERBIAL_WORDS
