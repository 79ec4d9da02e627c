"""How much of what must be found is found in labelled letters, and how much of what must pass is stopped.

A line carries `{# rule "words" #}` for each claim in it, `a|b` where either will do; a line without a note must pass. A claim
is found where one of its rules finds words that overlap its own. Labels of soft-safety-words alone are left out: that rule speaks
only in drafts about a safety defect, and has tests of its own.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tests.rules.builders import judged

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from bulletin.model import Problem

NOTE = re.compile(r"\{#(.*?)#\}")
LABEL = re.compile(r'([a-z|-]+) "([^"]*)"')
ELSEWHERE = "soft-safety-words"


@dataclass(frozen=True)
class Heard:
    """Claims with those found, lines that must pass with those stopped; `misses` and `stops` show them."""

    claims: int
    found: int
    passing: int
    stopped: int
    misses: tuple[str, ...] = ()
    stops: tuple[str, ...] = ()

    @property
    def share_found(self) -> float:
        """Found claims as a share of all."""
        return self.found / self.claims

    @property
    def share_stopped(self) -> float:
        """Stopped lines as a share of those that must pass."""
        return self.stopped / self.passing


def hear(letters: Iterable[Path], language: str) -> Heard:
    """All letters of a language together."""
    claims = found = passing = 0
    misses: list[str] = []
    stops: list[str] = []
    for letter in letters:
        text = letter.read_text(encoding="utf-8")
        blocks = [finding for finding in judged(text, locale=language).findings if finding.level != "warn"]
        for number, line in enumerate(text.split("\n"), 1):
            here = [finding for finding in blocks if finding.place.line == number]
            if not line.strip() or number == 1:
                continue
            if not NOTE.search(line):
                passing += 1
                stops += [f"{line}: {here[0].rule} {here[0].words}"] if here else []
                continue
            for rules, words in (label for note in NOTE.findall(line) for label in LABEL.findall(note) if label[0] != ELSEWHERE):
                claims += 1
                hit = any(_is_of(finding, rules.split("|"), (line.find(words), len(words))) for finding in here)
                found += hit
                misses += [] if hit else [f"{line}: {rules} {words}"]
    return Heard(claims, found, passing, len(stops), tuple(misses), tuple(stops))


def _is_of(finding: Problem, rules: list[str], label: tuple[int, int]) -> bool:
    start, length = label
    begin = finding.place.column - 1
    return finding.rule in rules and begin < start + length and start < begin + len(finding.words)
