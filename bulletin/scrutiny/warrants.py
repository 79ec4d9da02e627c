"""What the words of a claim call for: a record, a whole, two periods, an exact test, a shelf, what is about the same thing.

Each test says why a true condition does not carry the words; empty where it does, or where they call for nothing of the kind.
Which words these are stands in `draft/languages`, and in what the words would remark in plain prose.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from bulletin.draft.expressions import Text, walk
from bulletin.draft.sentences import Span
from bulletin.model import Basis
from bulletin.scrutiny.answers import unanswered, unavailable, unsettled
from bulletin.scrutiny.carrying import (
    against_the_words,
    compares,
    has_two_periods,
    has_unequal_periods,
    has_unequal_units,
    is_signed,
    is_tested,
    is_textual,
    record_held,
)
from bulletin.scrutiny.free import blot
from bulletin.scrutiny.narrowing import unnamed
from bulletin.scrutiny.subjects import other_subject
from bulletin.scrutiny.wholes import leaves_nothing_over

if TYPE_CHECKING:
    from collections.abc import Callable

    from bulletin.draft.language import Language
    from bulletin.scrutiny.case import Case, Reading

NEAR = 3
"""Words between "all" and the number that it is of ("all of the 41")."""
FORETELLING = Basis.POLICY.weakness
"""From this basis on a fact may be about what is to come."""
THAN = re.compile(r"\w+ (?:than|als|que|de|qu[\x27\u2019])\s*\Z")
"""A comparing word right before a figure belongs to the figure."""


@dataclass(frozen=True, eq=False)
class Told:
    """A claim whose condition holds, with the language of its words."""

    case: Case
    reading: Reading
    language: Language

    @cached_property
    def words(self) -> str:
        """The words as a reader sees them."""
        return self.case.words_of(self.reading.claim)

    @cached_property
    def figures(self) -> list[Span]:
        """Where figures stand in its block, with what rounds or bounds them: they compare with nothing else."""
        seen, spans = self.case.seen.get(self.reading.claim.start), []
        for figure in self.case.told_figures[self.reading.claim.start] if seen else ():
            than = THAN.search(seen[0].text, 0, figure.rounding_start) if seen else None
            spans.append(Span(than.start() if than else figure.rounding_start, figure.end))
        return spans

    @cached_property
    def plainly(self) -> str:
        """The words without their figures."""
        block, stretch = self.case.seen.get(self.reading.claim.start, (None, None))
        return blot(block.text, self.figures)[stretch.start : stretch.end] if block and stretch else self.words

    def has(self, name: str) -> bool:
        """Whether the words hold one of a class."""
        return self.language.has(name, self.words)

    def remarks(self, kind: str) -> bool:
        """Whether the words would remark something of a kind in plain prose, their figures apart."""
        told = (remark.span for remark in self.case.claimed.get(self.reading.claim.start, ()) if remark.group.kind == kind)
        return any(all(span.end <= figure.start or figure.end <= span.start for figure in self.figures) for span in told)


def _superlative(told: Told) -> str:
    if not (told.has("superlatives") or told.has("ever")):
        return ""
    record = record_held(told.reading)
    if record is None:
        return "a superlative needs the record of the periods before"
    times = {noun for noun in ("day", "week", "month") if told.language.nouns[noun].search(told.words)}
    if record and times and record not in times:
        return f"it holds the record of one {record}"
    return "the record is that of the best" if record and told.has("worst") else ""


def _absolute(told: Told) -> str:
    words = told.language.classes["not_all"].sub(" ", told.words)
    if not any(told.language.has(name, words) for name in ("absolutes", "everyone")):
        return ""
    if not leaves_nothing_over(told.reading) or _goes_beyond_its_figure(told):
        return '"all" and "none" need the whole of that fact or its zero'
    narrowed = unnamed(told.case, told.reading)
    return f"it is of {narrowed} alone, which the paragraph does not name" if narrowed else ""


def _goes_beyond_its_figure(told: Told) -> bool:
    """Whether words of a number say all or none of something else than that number: "10 a day and never fewer"."""
    seen, outcome = told.case.seen.get(told.reading.claim.start), told.reading.outcome
    if seen is None or outcome is None or not isinstance(outcome.value, int | Fraction | Decimal) or outcome.holds is not None:
        return False
    text = told.language.classes["not_all"].sub(lambda found: " " * len(found[0]), seen[0].text)
    words = told.language.classes["absolutes"].finditer(text, seen[1].start, seen[1].end)
    return bool(told.figures) and not all(
        any(found.end() <= figure.start and len(text[found.end() : figure.start].split()) <= NEAR for figure in told.figures)
        for found in words
    )


def _units(told: Told) -> str:
    return "it compares what is counted in other units" if has_unequal_units(told.reading) else ""


def _direction(told: Told) -> str:
    return "it compares the other way round" if against_the_words(told.reading, told.words, told.language) else ""


def _quality(told: Told) -> str:
    better = told.has("quality") and not is_tested(told.reading)
    return "how well things are made needs better_than or rate_fell" if better else ""


def _trend(told: Told) -> str:
    reading = told.reading
    if not told.language.has("trend", told.plainly) or is_textual(reading) or _names_a_state(reading):
        return ""
    carried = has_two_periods(reading) or (compares(reading) and told.has("comparing"))
    return "" if carried else "a trend needs two periods, or what was told and what is"


def _comparison(told: Told) -> str:
    if not told.remarks("comparison"):
        return ""
    if has_unequal_periods(told.reading):
        return "it compares periods of another length"
    carried = compares(told.reading) or is_textual(told.reading)
    return "" if carried else "a comparison needs both facts that are compared"


def _future(told: Told) -> str:
    if any(fact.basis.weakness >= FORETELLING for fact in told.reading.facts) or is_textual(told.reading):
        return ""
    compared = compares(told.reading) and told.remarks("future") and told.has("comparing")
    return "" if compared or not told.remarks("future") else "it tells nothing of what is to come"


def _excellence(told: Told) -> str:
    return "excellence needs a comparison that somebody signed" if told.remarks("excellence") else ""


def _vague(told: Told) -> str:
    return "the words name no time" if told.remarks("vague-time") else ""


def _settled(told: Told) -> str:
    return "it leaves some of it over, or is about something else" if unsettled(told.case, told.reading) else ""


def _stock(told: Told) -> str:
    return unavailable(told.case, told.reading)


def _answer(told: Told) -> str:
    fact = unanswered(told.case, told.reading)
    return f"{fact} answers another question" if fact else ""


def _subject(told: Told) -> str:
    subject = other_subject(told.case, told.reading)
    return f"it is not about {subject}" if subject else ""


def _names_a_state(reading: Reading) -> bool:
    return any(isinstance(node, Text) for node in walk(reading.claim.expression))


WARRANTS: tuple[Callable[[Told], str], ...] = (
    _units, _superlative, _absolute, _direction, _quality, _trend, _comparison, _future, _excellence, _vague, _settled, _stock,
    _answer, _subject,
)  # fmt: skip


def uncarried(case: Case, reading: Reading) -> str:
    """The first thing that the words call for and the condition does not hold; a signed statement stands for itself."""
    if case.language is None or is_signed(reading):
        return ""
    told = Told(case, reading, case.language)
    return next((why for test in WARRANTS if (why := test(told))), "")
