"""Facts in their setting: a printed fact or a claim with the clause and the sentence it stands in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from bulletin.draft.parsing import parse_printed
from bulletin.model import Fact
from bulletin.scrutiny.meaning import Meaning, meaning_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bulletin.draft.language import Words
    from bulletin.draft.sentences import Span
    from bulletin.draft.visible import Stretch
    from bulletin.scrutiny.case import Case
    from bulletin.scrutiny.passages import Passage


@dataclass(frozen=True, slots=True)
class Setting:
    """A form with the facts it touches, what they are about, and where it stands; `span` is its clause and all its words."""

    passage: Passage
    stretch: Stretch
    facts: tuple[Fact, ...]
    meanings: tuple[Meaning, ...]
    span: Span

    @property
    def text(self) -> str:
        """The clause as a reader sees it, with all the words of the form and the heads over its block."""
        block = self.passage.block
        clause = block.text[self.span.start : self.span.end]
        return f"{block.heads} | {clause}" if block.heads else clause

    @property
    def before(self) -> str:
        """What stands before the form in its clause."""
        return self.passage.block.text[self.span.start : self.stretch.start]

    @property
    def behind(self) -> str:
        """What stands behind the form in its sentence."""
        return self.passage.block.text[self.stretch.end : self.passage.sentence.end]

    @property
    def is_printed(self) -> bool:
        """Whether it prints a fact."""
        return self.stretch.claim.kind == "printed"


class Misfit(NamedTuple):
    """Words that do not fit a fact, why, and what fits them."""

    fact: Fact
    words: str
    why: str
    offer: str = ""


def settings_of(case: Case) -> Iterator[Setting]:
    """Every form that touches facts, in the order of the text."""
    for passage in case.passages:
        for stretch in passage.stretches:
            facts = case.reading_of[stretch.claim.start].facts
            if facts:
                span = passage.near(stretch.start, stretch.end)
                yield Setting(passage, stretch, facts, tuple(map(meaning_of, facts)), span)


def named(patterns: Mapping[str, Words], text: str) -> list[tuple[int, int, str]]:
    """Which names of periods, states or nouns a text speaks of: start, end and name, the longer words of two that overlap."""
    found = [(*match.span(), name) for name, words in patterns.items() for match in words.finditer(text)]
    kept: list[tuple[int, int, str]] = []
    for start, end, name in sorted(found, key=lambda entry: (entry[0] - entry[1], entry[0], entry[2])):
        if all(end <= other[0] or start >= other[1] for other in kept):
            kept.append((start, end, name))
    return sorted(kept)


def known_fact(case: Case, spelling: str) -> Fact | None:
    """The fact of a spelling, if it can be told."""
    reference, _, _ = parse_printed(spelling)
    found = case.facts.find(reference.path) if reference else None
    return found if isinstance(found, Fact) else None
