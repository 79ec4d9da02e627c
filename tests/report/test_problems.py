"""Problems as lines of text: the form, harmless printing, and a sentence for every rule."""

import re
from pathlib import Path

import pytest

import bulletin
from bulletin.model import Place, Problem
from bulletin.report.problems import word, worded
from bulletin.report.sentences import SENTENCES

HOUSE = Path(bulletin.__file__).parent
RULE = re.compile(r'(?:(?:Problem|Wrong|Fault)\(|rule = )[^"\n]*"([a-z0-9]+(?:-[a-z0-9]+)+)"')


def problem(rule: str = "cell-missing", words: str = "", offer: str = "", line: int = 1) -> Problem:
    return Problem(rule, "error", Place("orders.csv", line, 3), words, {"column": "order"}, offer)


def rules_of(*folders: str) -> set[str]:
    """The names of rules that modules of these folders write down."""
    sources = [path.read_text(encoding="utf-8") for folder in folders for path in sorted((HOUSE / folder).rglob("*.py"))]
    return {rule for source in sources for rule in RULE.findall(source)}


def test_form() -> None:
    """A problem is `file:line:column: level: message [rule]`, with its offer below."""
    actual = word(problem("cell-not-a-choice", "waitng", "waiting"))

    assert (
        'orders.csv:1:3: error: order is "waitng", expected was one of {choices} [cell-not-a-choice]\n    write: waiting'
        == actual
    )


def test_every_rule_has_a_sentence() -> None:
    """Whatever rule the settings and the tables tell of, there is a sentence for it."""
    rules = rules_of("settings", "tables")

    assert {"setting-unknown", "cell-not-a-day", "row-twice", "column-missing", "days-reversed"} <= rules
    assert set() == rules - set(SENTENCES)


def test_sentence_of_its_own() -> None:
    """A rule that words itself is told in its own sentence; text in braces from a file is no slot."""
    own = Problem("some-rule", "warn", Place("a.md"), "{words} {x}", {"x": "{words}"}, sentence="{words} beside {x}")

    assert "a.md:1:1: warn: {words} {x} beside {words} [some-rule]" == word(own)


@pytest.mark.parametrize(
    ("text", "printed"),
    [("\x1b[31mred", "\\x1b[31mred"), ("a\nb", "a\\nb"), ("\u202eabc", "\\u202eabc"), ("x" * 300, "x" * 119 + "…")],
)
def test_harmless_printing(text: str, printed: str) -> None:
    """What a file holds moves no cursor, turns no direction and fills no screen."""
    assert f'orders.csv:1:3: error: order is "{printed}", which holds a control character [cell-has-control-character]' == word(
        problem("cell-has-control-character", text)
    )


def test_many_of_a_kind() -> None:
    """After fifty problems of one rule and column the rest is counted."""
    lines = worded([problem(line=line) for line in range(1, 1285)] + [problem("row-twice")])

    assert 52 == len(lines)
    assert "orders.csv: and 1,234 more like it in order [cell-missing]" == lines[-1]
