"""Running the rules: what each one finds gets its name, level and place, and what somebody answered for is taken out."""

from __future__ import annotations

from dataclasses import replace
from difflib import get_close_matches
from typing import TYPE_CHECKING

from bulletin.model import Place, Problem, Waived
from bulletin.rules import waiver_unused
from bulletin.rules.listing import BLOCK_WHEN_ISSUING, RULES
from bulletin.scrutiny.case import Unused
from bulletin.verdict.waiving import Answers

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bulletin.model import Level, Waiver
    from bulletin.scrutiny.case import Case, Fault, Rule


ALIKE = 0.6


def run_rules(case: Case) -> tuple[list[Problem], list[Waived]]:
    """All findings of all rules, sorted by place, each once, and those that a `Waive:` line answers for."""
    findings: dict[tuple[Place, str, str], Problem] = {}
    waived: list[Waived] = []
    answers = Answers(case)
    for rule in RULES:
        for fault in rule.check(case):
            finding = as_finding(case, rule, fault)
            waiver = answers.waiver(rule, fault)
            if waiver:
                waived.append(Waived(finding, waiver))
            else:
                findings.setdefault(by_place(finding), finding)
    left = unused_waivers(case, [each.waiver for each in waived])
    for fault in waiver_unused.check(replace(case, unused=left)):
        finding = as_finding(case, waiver_unused, fault)
        findings.setdefault(by_place(finding), finding)
    return [findings[place] for place in sorted(findings)], sorted(waived, key=lambda waived: by_place(waived.finding))


def unused_waivers(case: Case, used: Sequence[Waiver]) -> tuple[Unused, ...]:
    """The waivers of a draft that answered for nothing, and why that may be."""
    return tuple(_unused(waiver) for waiver in case.draft.header.waivers if waiver not in used)


def _unused(waiver: Waiver) -> Unused:
    waivable = {rule.NAME: rule.WAIVABLE for rule in RULES}
    if waiver.rule not in waivable:
        near = next(iter(get_close_matches(waiver.rule, waivable, 1, ALIKE)), "")
        offer = f'Waive: {near} "{waiver.words}" | {waiver.who} | {waiver.why}' if near else ""
        return Unused(waiver, f"there is no rule called {waiver.rule}", offer)
    if not waivable[waiver.rule]:
        return Unused(waiver, f"nobody can answer for {waiver.rule}")
    return Unused(waiver, f'{waiver.rule} finds no "{waiver.words}"')


def as_finding(case: Case, rule: Rule, fault: Fault) -> Problem:
    """A fault with its rule's name, level and sentence, and its place in the draft."""
    level: Level = "block" if case.run.issuing and rule.NAME in BLOCK_WHEN_ISSUING else rule.LEVEL
    words = " ".join(fault.words.split())
    return Problem(rule.NAME, level, _place(case, fault), words, fault.details, fault.offer, rule.SENTENCE, fault.applies)


def by_place(finding: Problem) -> tuple[Place, str, str]:
    """The order in which findings are told."""
    return finding.place, finding.rule, finding.words


def _place(case: Case, fault: Fault) -> Place:
    if fault.at is None:
        return Place(case.draft.file)
    return fault.at if isinstance(fault.at, Place) else case.draft.place(fault.at)
