"""What a bulletin says, passage by passage, each claim with the facts that bear it out: the matter of the evidence."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup

from bulletin.documents.body import printed_fact, render_claim
from bulletin.documents.marks import mark_printed, mark_words
from bulletin.documents.reader import Reader, reader_of
from bulletin.draft.expressions import references, spell
from bulletin.draft.prose import prose_of

if TYPE_CHECKING:
    from bulletin.draft.prose import Block
    from bulletin.model import Bulletin, Claim, Fact, Judged

LANGUAGE = "en"
"""The evidence is written in English, like the checker's messages and the facts' own sentences."""


@dataclass(frozen=True, slots=True)
class Lines:
    """The rows behind a fact in one file: how many, and on which lines they begin."""

    file: str
    count: int
    lines: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Support:
    """A fact as the evidence shows it."""

    fact: Fact
    shown: Markup
    how: Markup
    rows: tuple[Lines, ...]


@dataclass(frozen=True, slots=True)
class Statement:
    """A claim or printed fact as the evidence shows it; `filled` is its condition with the values in it."""

    judged: Judged
    words: Markup
    filled: str
    supports: tuple[Support, ...]


def statements(bulletin: Bulletin) -> list[Statement]:
    """Every claim and printed fact of a bulletin, in the order of the draft."""
    ours, theirs = Reader(LANGUAGE, bulletin.as_of, bulletin.names), reader_of(bulletin)
    return [
        Statement(
            judged,
            render_claim(judged.claim, bulletin, theirs),
            filled(judged, bulletin, ours),
            tuple(_support(fact, ours) for fact in judged.facts),
        )
        for judged in bulletin.verdict.judged
    ]


def _support(fact: Fact, reader: Reader) -> Support:
    lines, counts = fact.rows.lines(), fact.rows.counts()
    rows = tuple(Lines(file, counts[file], tuple(lines.get(file, ()))) for file in sorted(counts))
    return Support(fact, mark_printed(reader.format.print_fact(fact), reader), mark_words(fact.how, reader), rows)


def filled(judged: Judged, bulletin: Bulletin, reader: Reader) -> str:
    """The condition of a claim with each fact replaced by its value: `41 > 38`. Empty for opinions."""
    claim = judged.claim
    if claim.expression is None:
        return ""
    by_spelling = {fact.spelling: fact for fact in judged.facts}
    source = bulletin.draft.source
    pieces: list[str] = []
    start = at = source.index(claim.condition, claim.start if claim.kind == "printed" else claim.words_end)
    for reference in sorted(references(claim.expression), key=lambda reference: reference.start):
        fact = by_spelling.get(spell(reference.path))
        shown = reader.format.figure(fact) if fact else source[reference.start : reference.end]
        pieces += [source[at : reference.start], shown]
        at = reference.end
    return " ".join("".join([*pieces, source[at : start + len(claim.condition)]]).split())


@dataclass(frozen=True, slots=True)
class Passage:
    """A paragraph, heading, item or cell as readers get it, and what it states."""

    words: Markup
    statements: tuple[Statement, ...]


def passages(bulletin: Bulletin) -> list[Passage]:
    """Every passage that states something, in the order of the draft; opinions too."""
    told = {statement.judged.claim.start: statement for statement in statements(bulletin)}
    reader = reader_of(bulletin)
    found = []
    for block in prose_of(bulletin.draft):
        starts = sorted({stretch.claim.start for stretch in block.stretches} & told.keys())
        if starts:
            found.append(Passage(_words(block, bulletin, reader), tuple(told.pop(start) for start in starts)))
    return [*found, *(Passage(statement.words, (statement,)) for statement in told.values())]


def _words(block: Block, bulletin: Bulletin, reader: Reader) -> Markup:
    pieces, at = [], 0
    for stretch in sorted(block.stretches, key=lambda stretch: stretch.start):
        if stretch.claim.kind == "printed":
            pieces += [mark_words(block.text[at : stretch.start], reader), _printed(stretch.claim, bulletin, reader)]
            at = stretch.end
    return Markup("").join([*pieces, mark_words(block.text[at:], reader)])


def _printed(claim: Claim, bulletin: Bulletin, reader: Reader) -> Markup:
    return mark_printed(reader.format.print_fact(printed_fact(claim, bulletin.verdict), claim.filters), reader)
