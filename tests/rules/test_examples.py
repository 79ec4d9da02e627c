"""Every rule's own examples, and the form that a rule must have."""

from __future__ import annotations

import pkgutil
import re
from datetime import date

import pytest

import bulletin.rules
from bulletin.model import Place
from bulletin.rules.listing import RULES
from bulletin.scrutiny.case import Rule
from tests.rules.builders import TROUBLES, circumstances_of, facts, judged, titled

NAMES = [rule.NAME for rule in RULES]
STALE = facts(coverage=date(2026, 3, 16))


def test_every_rule_module_is_listed_once() -> None:
    """A module with a check is in the list of rules, and no name stands there twice."""
    modules = [module.name for module in pkgutil.iter_modules(bulletin.rules.__path__)]
    listed = [rule.NAME.replace("-", "_") for rule in RULES]
    checking = {name for name in modules if hasattr(__import__(f"bulletin.rules.{name}", fromlist=["check"]), "check")}

    assert (checking, len(listed)) == (set(listed), len(set(listed)))


@pytest.mark.parametrize("rule", RULES, ids=NAMES)
def test_a_rule_is_a_manual_page(rule: Rule) -> None:
    """Every rule says what it finds and why, in a first line and a paragraph, with examples both ways."""
    page = (rule.__doc__ or "").split("\n\n")

    assert len(page) >= 2
    assert page[0].endswith(".")
    assert rule.ACCEPTED
    assert rule.REJECTED


@pytest.mark.parametrize(("rule", "example"), [(rule, text) for rule in RULES for text in rule.ACCEPTED])
def test_accepted_examples_pass(rule: Rule, example: str) -> None:
    """What a rule's page shows as accepted is found by no rule at all."""
    findings = [(finding.rule, finding.words) for finding in judged(example, **circumstances_of(rule)).findings]

    assert findings == []


@pytest.mark.parametrize(("rule", "example"), [(rule, text) for rule in RULES for text in rule.REJECTED])
def test_rejected_examples_are_found_in_their_place(rule: Rule, example: str) -> None:
    """What a rule's page shows as rejected is found by this rule, where the mark stands."""
    text = re.sub("[«»]", "", example)
    source = titled(text)
    at = source.index(text) + example.index("«")
    file = f"news.{circumstances_of(rule)['locale']}.md"
    expected = Place(file, source.count("\n", 0, at) + 1, at - source.rfind("\n", 0, at))
    whole_draft = "«»" in example
    findings = judged(text, made=STALE, **TROUBLES, **circumstances_of(rule)).findings
    places = [finding.place for finding in findings if finding.rule == rule.NAME]

    assert (Place(expected.file) if whole_draft else expected) in places


@pytest.mark.parametrize(("rule", "example"), [(rule, text) for rule in RULES for text in rule.REJECTED])
def test_sentences_of_findings_can_be_worded(rule: Rule, example: str) -> None:
    """A rule's sentence names nothing that its faults don't tell."""
    findings = judged(re.sub("[«»]", "", example), made=STALE, **TROUBLES, **circumstances_of(rule)).findings
    worded = [
        finding.sentence.format(words=finding.words, **finding.details) for finding in findings if finding.rule == rule.NAME
    ]

    assert all(worded)
    assert worded
