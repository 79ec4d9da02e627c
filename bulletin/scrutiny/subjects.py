"""What the words of a claim speak of, and whether its condition is about that: a true count of something else carries nothing."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from bulletin.draft.sentences import Span, clauses
from bulletin.scrutiny.meaning import meaning_of, name_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bulletin.draft.language import Language
    from bulletin.model import Fact
    from bulletin.scrutiny.case import Case, Reading

TEXTUAL = frozenset({"promises", "policies", "attested"})
"""Families whose items say in their own words what they are about."""
SETTLING = frozenset(
    {
        "defects", "changes", "coverage", "promises", "refunds", "credits", "orders", "policies", "attested", "reboxed_week",
    }
)  # fmt: skip
"""Families and facts in which something is settled."""
SPOKEN_FOR: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "about_faults": frozenset({"defects", "inspections", "changes", "reboxed_week"}),
        "about_stock": frozenset({"coverage", "kits"}),
        "about_queue": frozenset({"orders", "forecast", "coverage", "credits", "defects", "refunds"}),
        "about_refunds": frozenset({"refunds", "credits"}),
        "about_credit": frozenset({"credits"}),
        "about_tests": frozenset({"inspections", "defects", "changes", "coverage"}),
        "about_cancelling": frozenset({"orders"}),
        "about_delivery": frozenset({"orders", "forecast", "coverage", "defects"}),
    }
)
"""What words speak of, and the families and facts that can speak of it; items with words of their own always can."""
NAMES = MappingProxyType(
    {
        "about_faults": "faults", "about_stock": "stock", "about_queue": "the queue", "about_refunds": "refunds",
        "about_credit": "credit",
        "about_tests": "tests", "about_cancelling": "cancelled orders", "about_delivery": "shipping",
    }
)  # fmt: skip


def other_subject(case: Case, reading: Reading) -> str:
    """What a clause of the words speaks of where no fact of the condition does; empty where all is well."""
    seen, language = case.seen.get(reading.claim.start), case.language
    if seen is None or language is None or all(meaning_of(fact).family in TEXTUAL for fact in reading.facts):
        return ""
    block, stretch = seen
    facts = [*reading.facts, *(fact for inner in reading.claim.inside for fact in case.reading_of[inner.start].facts)]
    for span in clauses(block.text, Span(stretch.start, stretch.end), language):
        clause = block.text[span.start : span.end]
        spoken = spoken_of(clause, language)
        if spoken and not any(speaks(fact, subject) for fact in facts for subject in spoken):
            return NAMES[spoken[0]]
    return ""


def spoken_of(text: str, language: Language) -> list[str]:
    """The subjects that a text has words of."""
    return [subject for subject in SPOKEN_FOR if language.has(subject, text)]


def speaks(fact: Fact, subject: str) -> bool:
    """Whether a fact can speak of a subject."""
    return bool(SPOKEN_FOR[subject] & {meaning_of(fact).family, name_of(fact)})
