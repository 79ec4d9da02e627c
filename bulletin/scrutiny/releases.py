"""What releases claiming words: a clause that orders, supposes, denies, thanks, or is about a person or something else.

The scope is the clause, for claims hide behind a harmless half. A clause without a subject of its own ("... and burned my thumb")
goes with the one before. Which releases count for which words stands with the words: nobody's mother makes a superlative true.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bulletin.draft.language import ClaimWords, Language
    from bulletin.draft.sentences import Span

LOOSE_SIGNS = re.compile(r"[\s,;:.!\u2026\u2013\u2014()\"\u201c\u201e\u00ab\u3001\u3002*-]+")
WORD = re.compile(r"\w")
INHERITED = ("order", "person", "supposition", "topic")
"""Releases by how a clause begins and what it is about; a clause without a subject inherits them."""


@dataclass(frozen=True, slots=True)
class Clause:
    """A clause of a sentence: its text, where it lies in the sentence, where it begins behind "and", "so", "please"."""

    text: str
    span: Span
    head: int
    before: Clause | None = None

    @staticmethod
    def all_of(sentence: str, spans: Sequence[Span], language: Language) -> list[Clause]:
        """The clauses of a sentence, each with the one before it."""
        found: list[Clause] = []
        for span in spans:
            text = sentence[span.start : span.end]
            found.append(Clause(text, span, head_of(text, language), found[-1] if found else None))
        return found


def is_released(group: ClaimWords, clause: Clause, language: Language) -> bool:
    """Whether claiming words of a clause say nothing of the business."""
    if group.unless and group.unless.search(clause.text):
        return True
    if any(RELEASES[name](clause, language) for name in group.released_by):
        return True
    return (
        _goes_on(clause, language)
        and clause.before is not None
        and any(RELEASES[name](clause.before, language) for name in INHERITED if name in group.released_by)
    )


def _goes_on(clause: Clause, language: Language) -> bool:
    """Whether a clause begins with its verb behind "and", so that the subject is that of the clause before."""
    joined = WORD.search(clause.text, 0, clause.head) is not None
    return joined and language.releases["continuations"].match(clause.text, clause.head) is not None


def head_of(text: str, language: Language) -> int:
    """Where a clause begins, with signs and words that only join or ask kindly left aside."""
    at, openers = 0, language.releases["openers"]
    while True:
        signs = LOOSE_SIGNS.match(text, at)
        at = signs.end() if signs else at
        opener = openers.match(text, at)
        if opener is None or opener.end() == at:
            return at
        at = opener.end()


def _order(clause: Clause, language: Language) -> bool:
    """An imperative, told by its form at the head or, where the language has it there, at the end; none that tells something."""
    if language.classes["announcing"].match(clause.text, clause.head) is not None:
        return False
    return language.releases["orders"].match(clause.text, clause.head) is not None or (
        language.releases["order_ends"].search(clause.text) is not None
    )


def _person(clause: Clause, language: Language) -> bool:
    """Somebody who is not the business as the subject at the head."""
    return language.releases["persons"].match(clause.text, clause.head) is not None


def _supposition(clause: Clause, language: Language) -> bool:
    """A condition, a wish, or what nobody knows."""
    supposed = language.releases["suppositions"].match(clause.text, clause.head)
    return supposed is not None or language.releases["wishes"].search(clause.text) is not None


def _denial(clause: Clause, language: Language) -> bool:
    """Words that say it is not so, or not yet."""
    return language.releases["denials"].search(clause.text) is not None


def _courtesy(clause: Clause, language: Language) -> bool:
    """Thanks, greetings, apologies."""
    return language.releases["courtesies"].search(clause.text) is not None


def _attitude(clause: Clause, language: Language) -> bool:
    """What people like, know or feel."""
    return language.releases["attitudes"].search(clause.text) is not None


def _topic(clause: Clause, language: Language) -> bool:
    return is_about_else(clause.text, language)


def is_about_else(text: str, language: Language, reach: int | None = None) -> bool:
    """Whether kin, animals, food, weather or pastimes are its subject or object; an adjunct does not count ("by the fire").

    `reach` is how far from its beginning, in characters, such a word may begin; anywhere without it.
    """
    for topic in language.releases["topics"].finditer(text):
        if reach is not None and topic.start() > reach:
            return False
        before = language.releases["adjuncts_before"].search(text[: topic.start()])
        behind = language.releases["adjuncts_behind"].match(text, topic.end())
        if before is None and behind is None:
            return True
    return False


RELEASES = {
    "order": _order,
    "person": _person,
    "supposition": _supposition,
    "denial": _denial,
    "courtesy": _courtesy,
    "attitude": _attitude,
    "topic": _topic,
}
