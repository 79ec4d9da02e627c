"""Signed statements in prose: an `Attested:` line makes its own words usable, word for word, until it expires."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bulletin.draft.sentences import Span
from bulletin.scrutiny.free import blot

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date

    from bulletin.draft.prose import Block
    from bulletin.model import Attestation

LEAST_WORDS = 3
"""A statement says something of something; "87" or "always" alone would free these words wherever they stand."""
LEAST_SIGNS = 6
UNSPACED = re.compile(r"[\u3040-\u30ff\u3400-\u9fff]")
OPENS = re.compile(r"(?:\A|[\u3001\u3002\u300c.,;:!?\u2026\u2013\u2014(\"\u201c\u201e\u00ab])\s*\Z")
CLOSES = re.compile(r"\s*(?:\Z|[\u3001\u3002\u300d.,;:!?\u2026\u2013\u2014)\"\u201d\u00bb])")


@dataclass(frozen=True, slots=True)
class Attested:
    """Where the words of a statement stand in a block."""

    block: Block
    span: Span
    statement: Attestation


def is_expired(statement: Attestation, as_of: date) -> bool:
    """Whether a statement no longer holds on a day; its last day still counts."""
    return statement.until is not None and statement.until < as_of


def attested_in(blocks: Sequence[Block], statements: Sequence[Attestation], as_of: date) -> Iterator[Attested]:
    """The whole sentences or clauses of prose that equal a statement which still holds."""
    for statement in statements:
        words = statement.text.rstrip(" .!\u3002").split()
        if not _says_something(words) or is_expired(statement, as_of):
            continue
        pattern = re.compile(r"\s+".join(map(re.escape, words)), re.IGNORECASE)
        for block in blocks:
            for match in pattern.finditer(block.plain):
                if OPENS.search(block.text[: match.start()]) and CLOSES.match(block.text, match.end()):
                    yield Attested(block, Span(*match.span()), statement)


def _says_something(words: Sequence[str]) -> bool:
    """Whether words are enough for a statement; without spaces between them, enough signs."""
    return len(words) >= LEAST_WORDS or (UNSPACED.search("".join(words)) is not None and len("".join(words)) >= LEAST_SIGNS)


def without_attested(block: Block, attested: Sequence[Attested]) -> str:
    """The plain text of a block without the statements that somebody signed for."""
    spans = [found.span for found in attested if found.block is block]
    return blot(block.plain, spans) if spans else block.plain
