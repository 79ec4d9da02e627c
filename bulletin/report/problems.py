"""Words and prints what was found: the one place where problems become lines of text.

What comes out of files is printed so that it does nothing: a character that is not printable stands as its escape.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable

from bulletin.model import Problem
from bulletin.report.sentences import SENTENCES

SLOT = re.compile(r"\{([a-z_]+)\}")
LONGEST = 120
"""Characters of a cell or passage that are shown."""
SETTINGS = "settings"
"""The detail that is there to be pasted, and shown as long as it is."""
LIKE_IT = 50
"""So many problems of one rule and column are printed one by one."""


def word(problem: Problem) -> str:
    """A problem as `file:line:column: level: message [rule]`, its offer indented below."""
    place = problem.place
    line = f"{shown(place.file)}:{place.line}:{place.column}: {problem.level}: {message(problem)} [{problem.rule}]"
    return f"{line}\n    write: {printable(problem.offer)}" if problem.offer else line


def message(problem: Problem) -> str:
    """What is wrong, in one sentence without its place."""
    return filled(problem.sentence or SENTENCES.get(problem.rule, "{words}"), problem)


def worded(problems: Iterable[Problem]) -> list[str]:
    """Problems as lines in the order given; what goes on and on in one column is counted instead."""
    lines: list[str] = []
    told: Counter[tuple[str, str, str]] = Counter()
    for problem in problems:
        kind = (problem.place.file, problem.rule, problem.details.get("column", ""))
        told[kind] += 1
        if told[kind] <= LIKE_IT:
            lines.append(word(problem))
    for (file, rule, column), count in told.items():
        if count > LIKE_IT:
            where = f" in {shown(column)}" if column else ""
            lines.append(f"{shown(file)}: and {count - LIKE_IT:,} more like it{where} [{rule}]")
    return lines


def filled(sentence: str, problem: Problem) -> str:
    """A sentence with the problem's words and details in it; a slot that neither has stays as it is written."""
    given = {**problem.details, "words": problem.words}
    return SLOT.sub(lambda slot: (printable if slot[1] == SETTINGS else shown)(given.get(slot[1], slot[0])), sentence)


def shown(text: str) -> str:
    """A text from a file as it may stand in a terminal: one line, printable, not too long."""
    return printable(text if len(text) <= LONGEST else text[: LONGEST - 1] + "…")


def printable(text: str) -> str:
    """A text with every sign that does something to a terminal as its escape."""
    return "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in text)
