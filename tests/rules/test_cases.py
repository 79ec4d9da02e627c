"""Cases as documents: drafts whose lines carry what must be found on them in a note, `{# rule "words"; rule "words" #}`.

A line without a note must pass. To add a case, add a line to a draft under tests/cases/, or a draft.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.rules.builders import judged

CASES = Path(__file__).parent.parent / "cases"
NOTE = re.compile(r"\{#(.*?)#\}")
EXPECTED = re.compile(r'([a-z-]+) "([^"]*)"')
OPEN = frozenset(
    {
        "comparison-without-fact", "absolute-without-fact", "state-without-fact", "future-without-fact", "vague-time", "hedge",
        "excellence-without-evidence",
    }
)  # fmt: skip
"""Rules that read plain words; they may find more on a line about another rule, and nothing on one that must pass."""


@pytest.mark.parametrize("case", sorted(CASES.glob("*/*.md")), ids=lambda case: f"{case.parent.name}/{case.name}")
def test_finds_what_the_notes_of_a_document_say(case: Path) -> None:
    """Each line of a case gives the findings in its note, at most other plain words besides; a line without one gives none."""
    text, locale = case.read_text(encoding="utf-8"), case.name.split(".")[-2]
    expected = {
        (number, *finding)
        for number, line in enumerate(text.split("\n"), 1)
        for note in NOTE.findall(line)
        for finding in EXPECTED.findall(note)
    }
    noted = {number for number, *_ in expected}
    findings = {(finding.place.line, finding.rule, finding.words) for finding in judged(text, locale=locale).findings}
    actual = {found for found in findings if found in expected or found[1] not in OPEN or found[0] not in noted}

    assert sorted(expected) == sorted(actual)


def test_half_of_the_english_lines_must_pass() -> None:
    """The English cases hold at least sixty sentences, and about as many that must pass as that must not."""
    lines = [
        line
        for case in CASES.glob("en/*.md")
        for line in case.read_text(encoding="utf-8").split("\n\n", 1)[1].split("\n")
        if len(line.split()) > 2
    ]
    noted = sum("{#" in line for line in lines)

    assert min(noted, len(lines) - noted) >= 60
