"""Signed statements: usable word for word, until they expire, and for nothing else."""

from __future__ import annotations

import pytest

from tests.rules.builders import found, judged

SIGNED = "Attested: Every frame is rubbed three times | Ines Holm | 2026-12-31\n\n"


def test_a_signed_sentence_is_no_finding() -> None:
    """The statement's own words pass and are judged attested."""
    verdict = judged(SIGNED + "Every frame is rubbed three times. Truly.")

    assert [(judged.claim.words, judged.judgement) for judged in verdict.judged] == [
        ("Every frame is rubbed three times", "attested")
    ]
    assert verdict.findings == ()


@pytest.mark.parametrize(
    "sentence",
    ["Every frame is rubbed three times a day.", "Nearly every frame is rubbed three times.", "It is rubbed three times."],
)
def test_other_words_are_not_signed_for(sentence: str) -> None:
    """More words, fewer words or other words are nobody's statement."""
    assert [rule for rule, _ in found(SIGNED + sentence)] != []


def test_its_last_day_counts() -> None:
    """A statement holds on its last day and is expired on the next."""
    sentence = "Every frame is rubbed three times."

    assert found(SIGNED.replace("2026-12-31", "2026-03-27") + sentence) == []
    assert "attested-expired" in [rule for rule, _ in found(SIGNED.replace("2026-12-31", "2026-03-26") + sentence)]


def test_a_bare_figure_cannot_be_signed_for() -> None:
    """A statement says something of something: a figure alone would free itself everywhere."""
    assert ("number-without-fact", "87") in found("Attested: 87 | Ines Holm | 2026-12-31\n\nLooms boxed: 87.")
