"""Words that tell a value without a figure: nothing for 0, all for a whole share, a name or a statement up to inflection."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bulletin.draft.language import Language
    from bulletin.model import Value

WORD = re.compile(r"\w+")
UNSPACED = re.compile(r"[\u3040-\u30ff\u3400-\u9fff]")
LONGEST_ENDING = 3


def tells_zero(words: str, value: Value, language: Language) -> bool:
    """Whether the words say "none" of a value that is exactly 0."""
    return isinstance(value, int | Fraction | Decimal) and value == 0 and language.has("zero", words)


def tells_whole(words: str, value: Value, language: Language) -> bool:
    """Whether the words say "all" of a share that is exactly the whole."""
    return isinstance(value, Fraction | Decimal) and value == 1 and language.has("whole", words)


def tells_one(words: str, value: Value, language: Language) -> bool:
    """Whether the words say "one" of a value that is exactly 1."""
    return isinstance(value, int | Fraction | Decimal) and value == 1 and language.has("single", words)


def tells_words(words: str, text: str) -> bool:
    """Whether the words hold a text, word for word in its order, endings apart."""
    ours, theirs = WORD.findall(words.casefold()), WORD.findall(text.casefold())
    if UNSPACED.search(text):
        return text.casefold() in words.casefold()
    starts = range(len(ours) - len(theirs) + 1)
    return bool(theirs) and any(all(map(_akin, ours[start:], theirs)) for start in starts)


def _akin(ours: str, theirs: str) -> bool:
    """Whether two words differ in their endings at most; short words and those with digits not at all."""
    if ours == theirs:
        return True
    stem = max(len(ours), len(theirs)) - LONGEST_ENDING
    return stem >= LONGEST_ENDING and ours.isalpha() and theirs.isalpha() and ours[:stem] == theirs[:stem]
