"""The shapes of conditions that carry kinds of words: a record, a comparison one way or the other, two periods, an exact test."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.expressions import Arithmetic, Reference, is_value, references, spell
from bulletin.model import Basis
from bulletin.scrutiny.meaning import TESTED, meaning_of, name_of
from bulletin.scrutiny.subjects import TEXTUAL
from bulletin.scrutiny.wholes import sides

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bulletin.draft.expressions import Expression
    from bulletin.draft.language import Language
    from bulletin.scrutiny.case import Reading
    from bulletin.scrutiny.meaning import Meaning

BEST = "best_"
EXTREMES = (BEST, "oldest_", "tightest")
MORE = frozenset({">", ">="})
FEWER = frozenset({"<", "<="})
KINDS = {
    "unit": "count", "order": "count", "part": "count", "part line": "count", "defect": "count",
    "promise": "count", "refund": "count", "ratio": "share",
}  # fmt: skip
"""What may be compared with each other: everything that is counted by the piece."""
LENGTHS = {
    "today": "day", "yesterday": "day", "week": "week", "last_week": "week", "next_week": "week", "month": "month",
    "last_month": "month", "next_month": "month", "total": "all",
}  # fmt: skip
RUNNING = {"week": "last_week", "month": "last_month", "today": "yesterday"}
AGAINST_SOMETHING = frozenset(
    {
        "usual_lateness", "late_by", "slip", "retold", "past_promise", "overdue", "late", "moved", "unusual", "short",
        "short_parts", "short_names", "held_up", "parts_in_house", "kept_share", "share", "reboxed_week",
    }
)  # fmt: skip
"""Facts that hold something against something by themselves: a promise, a need, a whole."""


def is_tested(reading: Reading) -> bool:
    """Whether a condition rests on an exact test of how well things are made."""
    return any(name_of(fact) in TESTED for fact in reading.facts)


def is_signed(reading: Reading) -> bool:
    """Whether all that a condition rests on are signed statements, whose own words stand for themselves."""
    return bool(reading.facts) and all(fact.basis is Basis.ATTESTED for fact in reading.facts)


def is_textual(reading: Reading) -> bool:
    """Whether all that a condition rests on are items that say in their own words what they are about."""
    return bool(reading.facts) and all(meaning_of(fact).family in TEXTUAL for fact in reading.facts)


def record_held(reading: Reading) -> str | None:
    """The period of the record that a condition tells, or holds its own count to; empty for an extreme of all, None without."""
    expression = reading.claim.expression
    if is_value(expression):
        return next((_extreme(reference) for reference in references(expression) if _is_extreme(reference)), None)
    for operator, left, right in sides(expression):
        if _is_extreme(right) and operator in {*MORE, "=="} and (_extreme(right) == "" or _extreme_of(left, right)):
            return _extreme(right)
    return None


def compares(reading: Reading) -> bool:
    """Whether a condition holds two facts that may be held against each other, or one that compares by itself."""
    expression = reading.claim.expression
    if any(name_of(fact) in AGAINST_SOMETHING | TESTED or name_of(fact).startswith(EXTREMES) for fact in reading.facts):
        return True
    return len(_held_together(expression)) > 1


def has_two_periods(reading: Reading) -> bool:
    """Whether a condition holds two periods of one count, what was told and what is, or what came in and what went out."""
    if is_tested(reading) or any(name_of(fact) in AGAINST_SOMETHING for fact in reading.facts):
        return True
    held = _held_together(reading.claim.expression)
    meanings = [meaning_of(fact) for fact in reading.facts if fact.spelling in held]
    return any(_are_apart(one, other) for one in meanings for other in meanings)


def has_unequal_units(reading: Reading) -> bool:
    """Whether a comparison holds one fact against another of another kind: looms against days, a share against a count."""
    kinds = {fact.spelling: KINDS.get(fact.unit, fact.unit) for fact in reading.facts}
    held = [[kinds.get(spell(side.path)) for side in pair if isinstance(side, Reference)] for pair in _pairs(reading)]
    return any(len(pair) == len({*pair}) > 1 for pair in held)


def _pairs(reading: Reading) -> list[tuple[Expression, Expression]]:
    return [(left, right) for _, left, right in sides(reading.claim.expression)]


def has_unequal_periods(reading: Reading) -> bool:
    """Whether a day is held against a week, or a week against a month."""
    periods = {fact.spelling: meaning_of(fact).period for fact in reading.facts}
    held = _pairs(reading)
    return any(len({LENGTHS.get(_period(periods, side), "") for side in pair} - {""}) > 1 for pair in held)


def against_the_words(reading: Reading, words: str, language: Language) -> bool:
    """Whether the words say more and the condition fewer, or the other way round, of a period and the one before it."""
    expression = reading.claim.expression
    if is_value(expression) or language.has("fewer", words) == language.has("more", words):
        return False
    wrong = MORE if language.has("fewer", words) else FEWER
    periods = {fact.spelling: meaning_of(fact).period for fact in reading.facts}
    return any(
        operator in wrong and RUNNING.get(_period(periods, left), "none") == _period(periods, right)
        for operator, left, right in sides(expression)
    )


def _are_apart(one: Meaning, other: Meaning) -> bool:
    """Two periods of the same, today's and the last bulletin's, or orders that come and orders that go."""
    if one.recorded != other.recorded:
        return True
    if one.family == other.family and one.state == other.state:
        return one.period != other.period
    return bool(one.period) and one.period == other.period and one.state != other.state and "orders" in (one.family, other.family)


def _held_together(expression: Expression) -> frozenset[str]:
    """The facts that stand on both sides of a comparison, or are reckoned with each other."""
    if is_value(expression):
        return frozenset(spell(node.path) for node in references(expression) if isinstance(expression, Arithmetic))
    for _, left, right in sides(expression):
        ours, theirs = (frozenset(spell(node.path) for node in references(side)) for side in (left, right))
        if ours and theirs and ours != theirs:
            return ours | theirs
        if len(ours) > 1:
            return ours
    return frozenset()


def _period(periods: Mapping[str, str], side: Expression) -> str:
    return periods.get(spell(side.path), "") if isinstance(side, Reference) else ""


def _is_extreme(side: Expression) -> bool:
    return any(step.text.startswith(EXTREMES) for step in side.path) if isinstance(side, Reference) else False


def _extreme(side: Expression) -> str:
    """The period whose record it is: `week` of `best_week`; empty for what is the extreme of all that there are."""
    name = side.path[-1].text if isinstance(side, Reference) else ""
    return name.removeprefix(BEST) if name.startswith(BEST) else ""


def _extreme_of(side: Expression, extreme: Expression) -> bool:
    """Whether one side is the count whose record the other side is."""
    if not isinstance(extreme, Reference):
        return False
    wanted = spell(extreme.path).replace(BEST, "")
    return any(spell(reference.path) == wanted for reference in references(side))
