"""Tests of figures that are asked about or told in passing."""

from __future__ import annotations

import pytest

from tests.rules.builders import judged


def figures(line: str) -> list[str]:
    """The figures and dates found in a draft of one line."""
    return [finding.words for finding in judged(f"Title: Asides\n\n{line}\n").findings if finding.rule in HELD]


HELD = ("number-without-fact", "date-without-fact")


@pytest.mark.parametrize(
    "line",
    [
        "My brother beat me at chess three times.",
        "My son is twelve.",
        "We ate three cakes.",
        "The dog came home on Sunday.",
        "On Sunday, the dog came home.",
        "Turn the four screws.",
        "Will it be ready before Christmas?",
        'A reader asks: "Will it be here by March?"',
        '"Mine came in two days," writes a reader from Leeds.',
    ],
)
def test_figures_told_in_passing_pass(line: str) -> None:
    """Small numbers and dates of somebody's kin, dates in questions and figures of quoted readers are not held."""
    actual = figures(line)

    assert actual == []


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("My son is thirteen.", "thirteen"),
        ("We had three by the dog.", "three"),
        ("We set three out at noon with tea.", "three"),
        ("Turn the thirteen screws.", "thirteen"),
        ("Expect two crates at your door.", "two"),
        ("My brother carried three looms.", "three"),
        ("The dog watched the bench, three left.", "three"),
        ("By the fire of my uncle three left.", "three"),
        ("My sister won 10 %.", "10 %"),
        ("They leave on Monday, don't they?", "Monday"),
        ("Did you see that three left?", "three"),
        ('"Mine came in two days."', "two days"),
        ("On the long walk back to the village the dog met three.", "three"),
    ],
)
def test_figures_of_the_business_are_held(line: str, expected: str) -> None:
    """A large number, what counts products, another clause, a tag for assent and words of nobody named are held."""
    actual = figures(line)

    assert [expected] == actual
