"""Questions and the words of others: neither is said by the maker.

A question asks and a quoted reader speaks for himself. A little question behind a sentence ("..., isn't it?") asks for assent, so
that the sentence before it stays said; words in quotation marks are somebody else's only where the text says whose.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bulletin.draft.sentences import Span
from bulletin.scrutiny.free import blot

if TYPE_CHECKING:
    from bulletin.draft.language import Language

QUOTED = re.compile(
    '["\u201c\u201d\u201e][^"\u201c\u201d\u201e]{1,400}["\u201c\u201d]|\u00ab[^\u00ab\u00bb]{1,400}\u00bb|\u00bb[^\u00ab\u00bb]{1,400}\u00ab'
    "|\u300c[^\u300c\u300d]{1,400}\u300d|\u300e[^\u300e\u300f]{1,400}\u300f"
)
ASKS = re.compile(r"[?\uff1f][\s\"\u201d\u00bb\u300d)]*\Z")
ENDS = re.compile(r"[.!?]\s")
REACH = 90
"""How far from a quotation its speaker may stand, in characters."""


def without_quotations(text: str, language: Language) -> str:
    """The text without what others are quoted with, as long as before."""
    spans = [
        Span(*quoted.span())
        for quoted in QUOTED.finditer(text)
        if _is_reported(text, quoted, language)
    ]
    return blot(text, spans) if spans else text


def _is_reported(text: str, quoted: re.Match[str], language: Language) -> bool:
    """Whether the text says who is quoted, and it is nobody of the maker's own people."""
    around = ((max(0, quoted.start() - REACH), quoted.start()), (quoted.end(), quoted.end() + REACH))
    spoken = [text[start:end] for start, end in around if language.releases["reporting"].search(text, start, end)]
    return bool(spoken) and not any(language.has("own_voice", _nearest(side)) for side in spoken)


def _nearest(side: str) -> str:
    """What stands in the same sentence as the quotation, before or behind it."""
    return next((part for part in ENDS.split(side) if part.strip()), "")


def is_question(sentence: str, language: Language) -> bool:
    """Whether a sentence asks, and does not tell what it asks ("Did you know that ...?")."""
    return not language.has("presuming", sentence) and _asks(sentence, language)


def _asks(sentence: str, language: Language) -> bool:
    return ASKS.search(sentence) is not None or language.releases["questions"].search(sentence) is not None


def tag_of(sentence: str, language: Language) -> int | None:
    """Where a little question for assent begins behind what is said; None where the whole sentence asks."""
    tag = language.releases["tags"].search(sentence)
    return tag.start() if tag else None
