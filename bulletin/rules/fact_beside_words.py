"""A fact beside words of another period, model, part, state or unit.

`{{ boxed.last_week }}` is true, and "{{ boxed.last_week }} looms this week" is not. A reader takes a fact for what the words
around it say, so the words of its clause must fit it: the same period, model, part, state (boxed is not shipped) and unit, and
nothing that makes another number of it ("more than", "thousand"). A period that is not over yet may not be told as behind one
that is, and a median is told as one: half of those who wait have waited longer.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.beside import Setting, settings_of
from bulletin.scrutiny.beside_counts import alters, other_unit
from bulletin.scrutiny.beside_medians import hides_a_median
from bulletin.scrutiny.beside_models import other_model
from bulletin.scrutiny.beside_parts import other_part
from bulletin.scrutiny.beside_periods import other_period, unfinished_periods
from bulletin.scrutiny.beside_remedies import not_remedied
from bulletin.scrutiny.beside_states import other_state
from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.beside import Misfit
    from bulletin.scrutiny.case import Case

NAME = "fact-beside-words"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '{fact} stands beside "{words}": {why}'
ACCEPTED: tuple[str, ...] = (
    "This week we boxed {{ boxed.week }} looms, last week {{ boxed.last_week }}.",
    'We boxed {{ boxed.of("Heron 12").week }} Heron 12 this week.',
    "We boxed {{ boxed.week }} looms that are not shipped yet.",
    "So far this week we boxed fewer looms ({{ boxed.week }}) than in all of last week ({{ boxed.last_week }}).",
)
REJECTED: tuple[str, ...] = (
    "We boxed «{{ boxed.last_week }}» looms this week.",
    "We boxed «{{ boxed.week }}» Heron 12 looms.",
    "We shipped «{{ boxed.week }}» looms.",
    "We boxed «{{ boxed.week }}» orders.",
    "We boxed more than «{{ boxed.week }}» looms.",
    "You wait «{{ orders.median_wait }}» days.",
    "«{{ boxed.week }}» % of the looms are boxed.",
    'At least «{{ defects["D-12"].affected }}» looms are fixed.',
)
JUDGES: tuple[Callable[[Case, Setting], Misfit | None], ...] = (
    other_period, other_model, other_part, other_state, other_unit, alters, not_remedied, hides_a_median,
)  # fmt: skip


def check(case: Case) -> Iterator[Fault]:
    """Every printed fact and claim against the clause it stands in, the first misfit of each kind."""
    if case.language is None:
        return
    for setting in settings_of(case):
        for judge in JUDGES:
            misfit = judge(case, setting)
            if misfit:
                details = {"fact": misfit.fact.spelling, "why": misfit.why}
                yield Fault(setting.stretch.claim.start, misfit.words, details, misfit.offer, item=misfit.fact.spelling)
    for setting, misfit in unfinished_periods(case):
        details = {"fact": misfit.fact.spelling, "why": misfit.why}
        yield Fault(setting.stretch.claim.start, misfit.words, details, misfit.offer, item=misfit.fact.spelling)
