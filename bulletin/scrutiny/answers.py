"""Conditions that answer yes or no, or name a state: whether the words ask that question, and whether it is answered their way.

`policies["returns"].in_force` is true or not, and says nothing of shipped looms; `state == "open"` does not make a fault solved.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bulletin.draft.expressions import Both, Not, Number, Reference, is_value, parse_key, spell
from bulletin.model import Basis, Fact, Name, Step
from bulletin.scrutiny.beside_states import is_denied
from bulletin.scrutiny.carrying import is_textual
from bulletin.scrutiny.meaning import TESTED, meaning_of, name_of
from bulletin.scrutiny.nearby import text_around
from bulletin.scrutiny.subjects import SETTLING
from bulletin.scrutiny.wholes import FINISHED, closes, sides

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.expressions import Expression
    from bulletin.scrutiny.case import Case, Reading

WORD = re.compile(r"[^\W\d_]{4,}")
STEM = 4
HAD = frozenset({"shop", "usable", "buildable", "kits", "parts_in_house", "days"})
LACKED = frozenset({"short", "short_parts", "held_up", "short_names", "overdue"})
TROUBLES = frozenset({"defects", "changes", "coverage"})


def unanswered(case: Case, reading: Reading) -> str:
    """The yes/no fact that a condition rests on though its words ask something else; empty where all is well."""
    for part in _parts(reading.claim.expression):
        inner = part.inner if isinstance(part, Not) else part
        fact = _fact_of(reading, inner) if isinstance(inner, Reference) else None
        if fact and isinstance(fact.value, bool) and not _asks(case, reading, fact):
            return fact.spelling
    return ""


def unsettled(case: Case, reading: Reading) -> bool:
    """Whether words tell a fault as behind us where the condition leaves some of it over, or is about something else."""
    language, words = case.language, case.words_of(reading.claim)
    told = language.classes["settled"].search(words) if language else None
    if language is None or told is None or is_denied(case, words, told.span()):
        return False
    if all(fact.basis is Basis.FORECAST for fact in reading.facts):
        return False
    spoken = TROUBLES if language.has("about_troubles", words) else SETTLING
    if not any(spoken & {meaning_of(fact).family, name_of(fact)} for fact in reading.facts):
        return True
    told_in_part = case.told_figures[reading.claim.start] or language.has("some", words) or reading.claim.inside
    return not (told_in_part or closes(reading) or is_value(reading.claim.expression) or _is_done(reading))


def unavailable(case: Case, reading: Reading) -> str:
    """Why words of what is in stock, or sold out, are not carried; empty where they are or there are none."""
    language, words = case.language, case.words_of(reading.claim)
    if language is None or is_textual(reading):
        return ""
    gone = language.classes["unstocked"].search(words)
    there = language.classes["stocked"].search(words)
    if gone is None and (there is None or is_denied(case, words, there.span())):
        return ""
    told = set(_stock_told(reading))
    if not told:
        return "what is in stock stands in coverage: usable, shop, short"
    return "" if (gone is None) in told or len(told) > 1 else "it says the contrary"


def _asks(case: Case, reading: Reading, fact: Fact) -> bool:
    """Whether the words ask what a yes/no fact answers."""
    language, around = case.language, case.words_of(reading.claim)
    if language is None:
        return True
    name = name_of(fact)
    if name in TESTED:
        return language.has("quality", around) or language.has("fewer", around) or language.has("more", around)
    sentence = text_around(case, reading.claim)
    asked = "about_policy" if name == "in_force" else "about_tests"
    return language.has(asked, around) or _names_its_item(case, fact, sentence)


def _names_its_item(case: Case, fact: Fact, text: str) -> bool:
    """Whether a text has a word of the title of a fact's item; true where no title is known in the draft's language."""
    steps = parse_key(fact.key)
    if len(steps) < 2:
        return False
    locale, kind, item = case.draft.locale, steps[0].text, steps[1].text
    title = case.run.names.find((KINDS.get(kind, kind), item), locale)
    if title is None and case.is_in_first_locale:
        row = case.facts.find((Step("name", kind), Step("item", item), Step("name", "title")))
        value = row.value if isinstance(row, Fact) else ""
        title = value.text if isinstance(value, Name) else str(value)
    if title is None:
        return True
    words = {word[0].casefold() for word in WORD.finditer(text)}
    return any(word.startswith(stem[0].casefold()[:STEM]) for stem in WORD.finditer(title) for word in words)


KINDS = {"policies": "policy", "inspections": "inspection", "changes": "change", "defects": "defect"}


def _is_done(reading: Reading) -> bool:
    """Whether a condition holds a state that is final, or denies one that is not."""
    return any(
        (operator == "==" and getattr(right, "text", "") in FINISHED) for operator, _, right in sides(reading.claim.expression)
    )


def _stock_told(reading: Reading) -> Iterator[bool]:
    """What a condition tells of stock: that there is some, or that there is not."""
    expression = reading.claim.expression
    if is_value(expression):
        for fact in reading.facts:
            if name_of(fact) in HAD | LACKED:
                yield bool(fact.value) is (name_of(fact) in HAD)
        return
    for operator, left, right in sides(expression):
        held = _fact_of(reading, left)
        if held is not None and name_of(held) in HAD | LACKED:
            yield _is_some(operator, right) is (name_of(held) in HAD)


def _is_some(operator: str, right: Expression) -> bool:
    """Whether a comparison says that there is more than nothing."""
    if not isinstance(right, Number):
        return operator in (">", ">=", "==")
    if operator in ("==", ">="):
        return right.value > 0
    return operator == ">" or (operator == "!=" and right.value == 0)


def _fact_of(reading: Reading, side: Expression) -> Fact | None:
    if not isinstance(side, Reference):
        return None
    spelled = spell(side.path)
    return next((fact for fact in reading.facts if fact.spelling == spelled), None)


def _parts(expression: Expression) -> tuple[Expression, ...]:
    return expression.parts if isinstance(expression, Both) else (expression,)
