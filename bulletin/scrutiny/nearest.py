"""What to write instead of a loose figure: the countable facts nearest to it by value, by the words around it, by closeness."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from bulletin.formats.rounding import agrees, is_of_kind
from bulletin.model import Fact, Range
from bulletin.scrutiny.meaning import Meaning, meaning_of

if TYPE_CHECKING:
    from bulletin.draft.language import Language
    from bulletin.formats.figures import Figure
    from bulletin.formats.told_days import Today
    from bulletin.model import Facts, Value

LEAST_POINTS = 2
TELLING = 10
FAR = 0.1
"""Twice what "about" and "nearly" admit."""
BOUNDS = frozenset({"above", "at_least", "below", "at_most"})
WORD = re.compile(r"[^\W\d_]{3,}")


class Offer(NamedTuple):
    """What may be pasted, the fact it tells, and whether nothing else is as likely to be meant."""

    text: str
    fact: Fact
    is_alone: bool


@dataclass(frozen=True, eq=False)
class Nearest:
    """The countable facts of a day, looked through only once something has to be offered."""

    facts: Facts
    language: Language | None
    today: Today

    @cached_property
    def _known(self) -> list[Fact]:
        found = (self.facts.find(path) for path in self.facts.countable())
        return [fact for fact in found if isinstance(fact, Fact)]

    def offer(self, figure: Figure, clause: str) -> Offer | None:
        """What to paste in place of a figure; None where nothing is near enough to be meant."""
        ranked = self._scored(figure, clause)
        if not ranked:
            return None
        alone = len(ranked) == 1 or ranked[0][0] > ranked[1][0]
        return Offer(written(figure, ranked[0][1], self.today), ranked[0][1], alone)

    def ranked(self, figure: Figure, clause: str) -> list[Fact]:
        """Facts that may be meant, the likeliest first."""
        return [fact for _, fact in self._scored(figure, clause)]

    def _scored(self, figure: Figure, clause: str) -> list[tuple[int, Fact]]:
        """The same with how much speaks for each."""
        stems, periods, states = _stems(clause), self._named("periods", clause), self._named("states", clause)
        scored = []
        for fact in self._known:
            if not fits(figure, fact):
                continue
            meaning = meaning_of(fact)
            points = self._value_points(figure, fact) + min(2, len(_stems(fact.key) & stems)) + _model_points(meaning, clause)
            points += _match_points(meaning.period, periods, 3) - 2 * (not meaning.period and bool(periods))
            points += _match_points(meaning.state, states, 2)
            if points >= LEAST_POINTS:
                scored.append((-points, _distance(figure, fact.value), len(fact.key), fact.key, fact))
        return [(-points, fact) for points, *_, fact in sorted(scored, key=lambda entry: entry[:4])]

    def _value_points(self, figure: Figure, fact: Fact) -> int:
        only_weekday = figure.day is not None and figure.day.month is None
        if only_weekday or _is_far(figure, fact) or not agrees(figure, fact, self.today):
            return 0
        return 4 if figure.value is None or abs(figure.value) >= TELLING else 2

    def _named(self, section: str, clause: str) -> frozenset[str]:
        if self.language is None:
            return frozenset()
        patterns = self.language.periods if section == "periods" else self.language.states
        return frozenset(name for name, words in patterns.items() if words.search(clause))


def _is_far(figure: Figure, fact: Fact) -> bool:
    """Whether a count is so far from a number that no rounding brings them together; told without exact arithmetic, for speed."""
    if figure.kind != "number" or figure.rounding in BOUNDS or figure.value is None or type(fact.value) is not int:
        return False
    return abs(fact.value - float(figure.value)) > max(1, FAR * abs(fact.value))


def fits(figure: Figure, fact: Fact) -> bool:
    """Whether a fact's value is of the kind that a figure tells."""
    return is_of_kind(figure, fact)


def written(figure: Figure, fact: Fact, today: Today) -> str:
    """The fact as it may be pasted: words that agree with it become its claim, others give way to the fact itself."""
    in_words = figure.rounding or not any(sign.isdigit() for sign in figure.text)
    if in_words and agrees(figure, fact, today):
        return f"[{figure.text}]{{{fact.spelling}}}"
    return f"{{{{ {fact.spelling} }}}}"


def _match_points(own: str, named: frozenset[str], points: int) -> int:
    """For what the words name; against a fact of something else; nothing where words or fact are silent."""
    if not own or not named:
        return 0
    return points if own in named else -points


def _model_points(meaning: Meaning, clause: str) -> int:
    if not meaning.model:
        return 0
    return 3 if meaning.model.lower() in clause.lower() else -3


def _stems(text: str) -> frozenset[str]:
    return frozenset(word[0].lower()[:5] for word in WORD.finditer(text.replace("_", " ")))


def _distance(figure: Figure, value: Value) -> float:
    """How far a number is from the figure, relative to it; 1 for what is no number."""
    if isinstance(value, Range):
        value = value.low
    if figure.value is None or not isinstance(value, int | Fraction | Decimal):
        return 1.0
    return float(abs(Fraction(value) - figure.value) / max(abs(figure.value), Fraction(1)))
