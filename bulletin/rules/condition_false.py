"""A claim whose condition the facts contradict.

The condition of a claim is what the author says the records bear out. Where they say otherwise, the words are untrue, however
well they read, and nobody can answer for an untrue sentence: this rule can't be waived. The message says what each fact of the
condition comes to, so that the sentence can be mended to what is true.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "condition-false"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = 'the records contradict "{words}": {values}'
ACCEPTED: tuple[str, ...] = (
    "This was [our best week so far]{boxed.week > boxed.best_week}.",
    "[No safety defect is open]{defects.open_safety == 0}.",
)
REJECTED: tuple[str, ...] = (
    "This was [«more than last week»]{boxed.week < boxed.last_week}.",
    "[«Nobody waits»]{orders.waiting == 0} and [we boxed plenty]{boxed.week > 10}.",
)


def check(case: Case) -> Iterator[Fault]:
    """Claims whose condition is a comparison or a yes/no and does not hold."""
    for reading in case.readings:
        outcome, claim = reading.outcome, reading.claim
        if outcome is None or claim.kind != "claim" or outcome.holds is not False:
            continue
        values = "; ".join(f"{fact.spelling} is {case.told(fact)}" for fact in outcome.facts)
        details = {"values": values or f"{claim.condition} does not hold", "condition": claim.condition}
        yield Fault(claim.words_start, case.words_of(claim), details)
