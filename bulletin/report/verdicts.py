"""Verdicts on drafts: findings as lines for people, verdicts as JSON for programs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bulletin.model import Judged, Problem, Verdict
from bulletin.report.problems import message, word


def verdicts_text(verdicts: Sequence[Verdict]) -> str:
    """Every finding as a line with its place, then one line a draft that says how it stands."""
    return "\n".join(line for verdict in verdicts for line in (*map(word, verdict.findings), summary(verdict)))


def summary(verdict: Verdict) -> str:
    """How a draft stands, in one line."""
    blocks = sum(finding.level != "warn" for finding in verdict.findings)
    opinions = sum(judged.judgement == "opinion" for judged in verdict.judged)
    counts = (
        counted(len(verdict.judged) - opinions, "bound figure or claim", "bound figures and claims"),
        counted(opinions, "opinion", "opinions"),
        counted(blocks, "block", "blocks"),
        counted(len(verdict.findings) - blocks, "warning", "warnings"),
        f"{len(verdict.waived)} waived",
    )
    return f"{verdict.draft.file}: {'blocked' if verdict.blocked else 'passed'} as of {verdict.as_of}: {', '.join(counts)}"


def counted(number: int, one: str, many: str) -> str:
    """A number with its noun."""
    return f"{number} {one if number == 1 else many}"


def verdicts_json(verdicts: Sequence[Verdict]) -> Any:
    """`bulletin check --json`: one object for one draft, a list for several locales."""
    told = [verdict_json(verdict) for verdict in verdicts]
    return told[0] if len(told) == 1 else told


def verdict_json(verdict: Verdict) -> dict[str, Any]:
    """One draft in one locale."""
    return {
        "draft": verdict.draft.name,
        "locale": verdict.draft.locale,
        "as_of": verdict.as_of.isoformat(),
        "blocked": verdict.blocked,
        "claims": [claim_json(judged) for judged in verdict.judged],
        "findings": [finding_json(finding) for finding in verdict.findings],
    }


def claim_json(judged: Judged) -> dict[str, Any]:
    """One claim or printed fact."""
    claim = judged.claim
    return {
        "line": claim.place.line,
        "column": claim.place.column,
        "words": claim.words,
        "condition": claim.condition,
        "facts": [fact.key for fact in judged.facts],
        "verdict": judged.judgement,
    }


def finding_json(finding: Problem) -> dict[str, Any]:
    """One finding."""
    return {
        "rule": finding.rule,
        "level": finding.level,
        "file": finding.place.file,
        "line": finding.place.line,
        "column": finding.place.column,
        "words": finding.words,
        "message": message(finding),
        "offer": finding.offer,
    }
