"""The manual of rules, from the rules' own pages: all of them in a line each, or one with its reason and its examples."""

from __future__ import annotations

import inspect
from collections.abc import Sequence
from difflib import get_close_matches
from typing import Any

from bulletin.model import Place, Problem
from bulletin.rules.listing import BLOCK_WHEN_ISSUING, RULES
from bulletin.scrutiny.case import Rule


def rules_text() -> str:
    """Every rule with its level and the first line of its page, in the order of the manual."""
    width = max(len(rule.NAME) for rule in RULES)
    return "\n".join(f"{rule.NAME.ljust(width)}  {rule.LEVEL.ljust(5)}  {_head(rule)}" for rule in RULES)


def rule_text(rule: Rule) -> str:
    """One rule's page: what it finds and why, its level, what it accepts and what it rejects, the place marked with « »."""
    accepted = [f"accepted:\n{_shown(example)}" for example in rule.ACCEPTED]
    rejected = [f"rejected:\n{_shown(example)}" for example in rule.REJECTED]
    return "\n\n".join([f"{rule.NAME} ({_level(rule)})", _page(rule), *accepted, *rejected])


def rules_json(rules: Sequence[Rule] = RULES) -> list[dict[str, Any]]:
    """`bulletin rules --json`: the pages as data."""
    return [
        {
            "rule": rule.NAME,
            "level": rule.LEVEL,
            "level_when_issuing": "block" if rule.NAME in BLOCK_WHEN_ISSUING else rule.LEVEL,
            "waivable": rule.WAIVABLE,
            "page": _page(rule),
            "accepted": list(rule.ACCEPTED),
            "rejected": list(rule.REJECTED),
        }
        for rule in rules
    ]


def rule_named(name: str) -> tuple[Rule | None, list[Problem]]:
    """The rule of a name; a problem with the nearest name where there is none."""
    known = {rule.NAME: rule for rule in RULES}
    if name in known:
        return known[name], []
    near = next(iter(get_close_matches(name, known, 1)), "")
    return None, [Problem("rule-unknown", "error", Place("command line"), name, offer=near)]


def _page(rule: Rule) -> str:
    return inspect.cleandoc(rule.__doc__ or "")


def _head(rule: Rule) -> str:
    return _page(rule).split("\n", 1)[0]


def _level(rule: Rule) -> str:
    """The level in words, and whether somebody may answer for what it finds."""
    issuing = ", block when it is issued" if rule.NAME in BLOCK_WHEN_ISSUING else ""
    return f"{rule.LEVEL}{issuing}; {'may' if rule.WAIVABLE else 'can not'} be waived"


def _shown(example: str) -> str:
    return "\n".join(f"    {line}".rstrip() for line in example.split("\n"))
