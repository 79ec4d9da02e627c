"""A draft held against the facts: every form judged, every finding told."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

from bulletin.draft.faults import problem
from bulletin.model import Claim, Judged, Verdict
from bulletin.scrutiny.case import Case, Run
from bulletin.verdict.running import by_place, run_rules

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bulletin.model import Draft, Facts, Judgement, Problem
    from bulletin.scrutiny.attesting import Attested
    from bulletin.scrutiny.case import Reading

__all__ = ["Run", "judge"]

CONTRADICTING = frozenset({"condition-false", "number-off-fact"})


def judge(draft: Draft, facts: Facts, run: Run, problems: Sequence[Problem] = ()) -> Verdict:
    """Hold a draft against the facts of a day. `problems` are what reading it found wrong with its form: findings too."""
    case = Case(draft, facts, run)
    found, waived = run_rules(case)
    unfit = [problem(draft, fault) for reading in case.readings if reading.outcome for fault in reading.outcome.faults]
    findings = sorted([*problems, *unfit, *found], key=by_place)
    judged = [_judged(case, reading, findings) for reading in case.readings]
    judged += [_attested(case, attested) for attested in case.attested]
    judged.sort(key=lambda each: (each.claim.start, each.claim.end))
    return Verdict(draft, facts.as_of, tuple(judged), tuple(findings), tuple(waived))


def _judged(case: Case, reading: Reading, findings: Sequence[Problem]) -> Judged:
    return Judged(reading.claim, _judgement(case, reading, findings), reading.facts)


def _judgement(case: Case, reading: Reading, findings: Sequence[Problem]) -> Judgement:
    """What became of a form: contradicted by the facts, unsupported where anything else blocks inside it."""
    claim, outcome = reading.claim, reading.outcome
    first, last = case.draft.place(claim.start), case.draft.place(claim.end)
    begin, end = (bisect_left(findings, place, key=lambda finding: finding.place) for place in (first, last))
    inside = {finding.rule for finding in findings[begin:end] if finding.level != "warn"}
    if claim.kind == "opinion":
        return "opinion"
    if (outcome is not None and outcome.holds is False and claim.kind == "claim") or inside & CONTRADICTING:
        return "contradicted"
    return "unsupported" if inside or outcome is None or outcome.absent or outcome.faults else "supported"


def _attested(case: Case, attested: Attested) -> Judged:
    """Words of the prose that a statement bears out, as a claim of their own."""
    block, (start, end) = attested.block, attested.span
    first, last = block.origin(start), block.origin(end - 1) + 1
    claim = Claim("claim", case.draft.place(first), first, last, block.text[start:end], first, last)
    return Judged(claim, "attested")
