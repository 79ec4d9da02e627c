"""How a remark is told as a fault: the words, and what ends it: the fact, the opinion mark where there is one, the waiver.

A condition is offered only where it holds today and speaks of what the clause speaks of: one that holds by chance would teach
people to paste.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from bulletin.draft.evaluating import evaluate
from bulletin.draft.parsing import parse
from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from bulletin.draft.language import Language
    from bulletin.scrutiny.case import Case
    from bulletin.scrutiny.remarks import Remark

FEELINGS = frozenset({"comparison", "hedge"})
"""Kinds that an opinion mark may cover: what somebody feels or thinks. Nobody holds the view that a parcel is sent."""

COUNTED = ("trend", "quality", "about_queue", "about_stock", "about_faults", "about_refunds", "about_delivery")
"""What a comparison can be held against, so that it is no feeling."""


class Binding(NamedTuple):
    """A condition that may bear words of some kinds out, where their clause speaks of one of these things.

    `said` are classes of words of which the words must hold one: a record bears out a superlative, less bears out "fewer".
    """

    condition: str
    kinds: frozenset[str]
    about: frozenset[str]
    said: tuple[str, ...]


def _binding(condition: str, kinds: str, about: str, said: str = "") -> Binding:
    return Binding(condition, frozenset(kinds.split()), frozenset(about.split()), tuple(said.split()))


BINDINGS = (
    _binding("boxed.week > boxed.best_week", "comparison absolute", "week unit boxed", "superlatives ever"),
    _binding("boxed.month > boxed.best_month", "comparison absolute", "month unit boxed", "superlatives ever"),
    _binding("boxed.week > boxed.last_week", "comparison", "week unit boxed", "more"),
    _binding("boxed.week < boxed.last_week", "comparison", "week unit boxed", "fewer"),
    _binding("boxed.week > orders.placed_week", "comparison", "waiting order", "fewer"),
    _binding("orders.waiting == 0", "absolute state", "waiting order customer"),
    _binding("orders.past_promise == 0", "absolute state", "order customer waiting"),
    _binding("coverage.short_parts == 0", "absolute state", "part"),
    _binding("coverage.short_parts > 0", "state", "part"),
    _binding("defects.open == 0", "absolute state", "defect"),
    _binding("defects.open > 0", "state", "defect"),
    _binding("refunds.open == 0", "absolute state", "customer"),
)


def remark_fault(case: Case, remark: Remark, rule: str) -> Fault:
    """The fault of a remark for a rule of this name, with what may be pasted in its place."""
    offer = _bound(case, remark)
    ways = ["bind it to the fact that bears it out"]
    felt = is_felt(case, remark)
    ways += ["mark it as an opinion"] if felt else []
    ways.append(f'or answer for it: Waive: {rule} "{" ".join(remark.words.split())}" | who | why')
    if not offer and felt:
        offer = f"[{remark.words}]{{opinion}}"
    return Fault(remark.at, remark.words, {"ways": f"; {', '.join(ways)}"}, offer)


def is_felt(case: Case, remark: Remark) -> bool:
    """Whether it is a feeling: doubt, or a comparison of what nobody counts (not of weeks, the queue, what was boxed)."""
    language = case.language
    if language is None or remark.group.kind not in FEELINGS:
        return False
    if remark.group.kind != "comparison":
        return True
    clause = case.clause_at(remark.block, remark.span.start)
    counted = (*language.states.values(), *language.periods.values(), *(language.classes[name] for name in COUNTED))
    return not any(words.search(clause) for words in counted)


def _bound(case: Case, remark: Remark) -> str:
    """The words as a claim, with the first condition of their kind that holds and speaks of the same."""
    if case.language is None or not any(remark.group.kind in binding.kinds for binding in BINDINGS):
        return ""
    clause = case.clause_at(remark.block, remark.span.start)
    tables = (case.language.nouns, case.language.states, case.language.periods)
    spoken = {name for table in tables for name, words in table.items() if words.search(clause)}
    spoken |= {"unit"} if case.scene.products.search(clause) else set()
    for binding in BINDINGS:
        if remark.group.kind not in binding.kinds or not binding.about & spoken:
            continue
        if _is_said(binding, remark.words, case.language) and _holds(case, binding.condition):
            return f"[{remark.words}]{{{binding.condition}}}"
    return ""


def _is_said(binding: Binding, words: str, language: Language) -> bool:
    """Whether the words are of the sort that the condition bears out: a true condition of another sort would mislead."""
    return not binding.said or any(language.has(name, words) for name in binding.said)


def _holds(case: Case, condition: str) -> bool:
    expression, _ = parse(condition)
    return expression is not None and evaluate(expression, case.facts.find).holds is True
