"""What a fact is about, read from its key: its family, the period it counts, the state of an order, the model.

Facts name periods and states by the last parts of their keys (`boxed.last_week`, `orders.placed_month`), so words can be held
against them without a list of facts.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from bulletin.draft.expressions import parse_key

if TYPE_CHECKING:
    from bulletin.model import Fact

PERIODS = ("last_week", "next_week", "last_month", "next_month", "today", "yesterday", "week", "month", "total")
STATES = {"out": "shipped", "placed": "", "left": "shipped", "gone": "cancelled"}
ORDER_STATES = frozenset({"waiting", "boxed", "shipped", "delivered", "cancelled", *STATES})
TESTED = frozenset({"rate_fell", "better_than"})
"""Yes/no facts of an exact test of how well things are made."""
BOXING_FORECASTS = frozenset({"order", "place", "new_order", "cleared"})


@dataclass(frozen=True, slots=True)
class Meaning:
    """Empty where the key says nothing of it. `recorded` is true for facts of the last bulletin, which is another period."""

    family: str
    period: str
    state: str
    model: str
    recorded: bool = False


def name_of(fact: Fact) -> str:
    """The last part of a fact's key; of one with an argument, what is called."""
    names = [step.text for step in parse_key(fact.key)]
    return next((name for name in names if name in TESTED), names[-1])


def meaning_of(fact: Fact) -> Meaning:
    """What a fact is about."""
    return _meaning(fact.key)


@lru_cache(maxsize=4096)
def _meaning(key: str) -> Meaning:
    steps = [step.text for step in parse_key(key)]
    recorded = steps[0] == "last"
    steps = steps[1:] if recorded else steps
    name = steps[-1]
    model = steps[steps.index("of") + 1] if "of" in steps[1:-1] else ""
    return Meaning(steps[0], _period(name), _state(steps), model, recorded)


def _period(name: str) -> str:
    if name.startswith("best_"):
        return ""
    return next((period for period in PERIODS if name == period or name.endswith(f"_{period}")), "")


def _state(steps: list[str]) -> str:
    family, name = steps[0], steps[-1]
    if family == "boxed" and name not in ("rate", "unusual"):
        return "boxed"
    if family == "forecast" and len(steps) > 1 and steps[1] in BOXING_FORECASTS:
        return "boxed"
    stem = name.split("_")[0]
    return STATES.get(stem, stem) if family == "orders" and stem in ORDER_STATES else ""
