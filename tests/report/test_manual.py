"""The manual of rules."""

from __future__ import annotations

import pytest

from bulletin.report.manual import rule_named, rule_text, rules_json, rules_text
from bulletin.rules.listing import RULES
from bulletin.scrutiny.case import Rule


def test_the_list_names_every_rule_once() -> None:
    """Each rule has one line, in the order of the list, with its level."""
    lines = rules_text().split("\n")

    assert [rule.NAME for rule in RULES] == [line.split()[0] for line in lines]
    assert [rule.LEVEL for rule in RULES] == [line.split()[1] for line in lines]


@pytest.mark.parametrize("rule", RULES, ids=[rule.NAME for rule in RULES])
def test_a_page_holds_all_that_the_rule_says(rule: Rule) -> None:
    """The whole page, whether it may be waived, and every example."""
    page = rule_text(rule)

    assert (rule.__doc__ or "").strip() in page
    assert ("can not be waived" in page) is not rule.WAIVABLE
    assert len(rule.ACCEPTED) == page.count("accepted:\n")
    assert len(rule.REJECTED) == page.count("rejected:\n")


def test_the_same_as_data() -> None:
    """JSON has an entry a rule with its examples."""
    told = rules_json()

    assert [rule.NAME for rule in RULES] == [entry["rule"] for entry in told]
    assert all(entry["accepted"] and entry["rejected"] and entry["page"] for entry in told)


def test_a_rule_that_is_none() -> None:
    """A name that no rule has is a problem that offers the nearest one."""
    found, problems = rule_named("unmentionned")

    assert found is None
    assert [("rule-unknown", "unmentioned")] == [(problem.rule, problem.offer) for problem in problems]
