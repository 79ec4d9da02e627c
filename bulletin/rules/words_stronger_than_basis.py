"""Words that are stronger than what they rest on.

A fact is worth what it rests on: a count of the records may be told plainly; what a supplier told or the plan says "is due" and
has not come; a promise is due on its day, no sooner; a rule that is not in force is worked on; a forecast is expected and never
certain, by both ends of its window, or by its chance where that is small; a sample speaks of the units that were checked. A count
that may still grow (of a defect that is not traced completely) is told as "at least" or "so far", a signed statement in its own
words, up to inflection. The words of the sentence may never be stronger than the weakest of its facts, and since nobody can
make a forecast certain by answering for it, this rule can't be waived.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.bases import overstated
from bulletin.scrutiny.beside import settings_of
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.growing import tells_a_bound
from bulletin.scrutiny.signed import goes_beyond

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "words-stronger-than-basis"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = '"{words}" is stronger than {fact}, which is a {basis}: {advice}'
ACCEPTED: tuple[str, ...] = (
    "We expect the queue to be gone {{ forecast.cleared }}.",
    'The next beams are due {{ coverage.part["P-104"].next_arrival }}.',
    'So far we know of {{ defects["D-14"].affected }} looms.',
    '[More than 50 looms]{defects["D-14"].affected > 50} have it.',
    "Next week we plan to build {{ plan.next_week }} looms.",
    'We will send {{ promises["PR-5"].text }} by {{ promises["PR-5"].due }}.',
    'We are working on [taking old looms back]{policies["P-2"].state == "idea"}.',
    '[Every frame is oiled by hand]{attested["oil"]}.',
)
REJECTED: tuple[str, ...] = (
    "The queue will be gone «{{ forecast.cleared }}».",
    "The queue is gone «{{ forecast.cleared }}».",
    "We expect the queue to be gone «[by 4 May]{forecast.cleared}».",
    "Next week we build «{{ plan.next_week }}» looms for certain.",
    'Long before «{{ promises["PR-5"].due }}» every owner has a guard.',
    '«[Old looms are taken back]{policies["P-2"].state == "idea"}».',
    'The next beams will arrive «{{ coverage.part["P-104"].next_arrival }}».',
    'It is the fault of «{{ defects["D-14"].affected }}» looms.',
    '«[60 looms]{defects["D-14"].affected}» have it.',
    '«[Every frame is oiled by hand and lasts]{attested["oil"]}».',
)
OWN_WORDS = "use the statement's own words and no others"


def check(case: Case) -> Iterator[Fault]:
    """Forecasts, plans and samples beside words that only a count of the records bears out."""
    if case.language is None:
        return
    for setting in settings_of(case):
        fact = max(setting.facts, key=lambda fact: fact.basis.weakness)
        strong = overstated(case, setting, fact, case.language)
        if strong is not None:
            details = {"fact": fact.spelling, "basis": fact.basis.value, "advice": strong.advice}
            yield Fault(setting.stretch.claim.start, strong.words or setting.text.strip(), details, item=fact.spelling)
        signed = next((fact for fact in setting.facts if goes_beyond(case, setting, fact)), None)
        if signed:
            details = {"fact": signed.spelling, "basis": "signed statement", "advice": OWN_WORDS}
            offer = f"[{signed.value}]{{{signed.spelling}}}"
            yield Fault(setting.stretch.claim.start, case.words_of(setting.stretch.claim), details, offer, item=signed.spelling)
        growing = next((fact for fact in setting.facts if fact.at_least and tells_a_bound(case, setting, fact)), None)
        if growing and not case.language.has("so_far", f"{setting.passage.block.heads} {setting.passage.sentence_text}"):
            details = {"fact": growing.spelling, "basis": "count that may still grow", "advice": 'say "at least" or "so far"'}
            yield Fault(setting.stretch.claim.start, setting.text.strip(), details, item=growing.spelling)
