"""Remarks: what counts as a claim in plain words, and what releases it."""

from __future__ import annotations

import pytest

from tests.rules.builders import found

STATE = "state-without-fact"


@pytest.mark.parametrize(
    "text",
    [
        "My sister is ready, and the beams are sanded.",
        "The beams are sanded, aren't they?",
        "The fault? Fixed.",
        '"The beams are sanded."',
        "Thanks to the new jig, the beams are sanded.",
        "I think the beams are sanded.",
        "By the dog's bed, the beams are sanded.",
    ],
)
def test_a_claim_behind_a_harmless_half_counts(text: str) -> None:
    """Kin in another clause, a question for assent, marks without a speaker, thanks and adjuncts release nothing."""
    assert STATE in {rule for rule, _ in found(text)}


@pytest.mark.parametrize(
    "text",
    [
        "My sister is ready.",
        "Are the beams sanded?",
        "Is it ready? That is what you ask.",
        'A reader wrote: "My beams are sanded."',
        "The beams are not sanded yet.",
        "If the beams are sanded, oil them.",
        "We do not know whether the beams are sanded.",
        "The beam is turned from beech.",
        "I cried and was done.",
        "My sister slept and was all ready.",
    ],
)
def test_a_clause_about_something_else_claims_nothing(text: str) -> None:
    """People, questions, quoted readers, denials, suppositions and descriptions release their clause."""
    assert found(text) == []


def test_a_fact_in_the_clause_bears_its_state_out() -> None:
    """What a printed fact counts is told once; words of another thing beside it still count."""
    assert found("{{ boxed.week }} looms are boxed.") == []
    assert (STATE, "is fixed") in found("{{ boxed.week }} looms are boxed and the pawl is fixed.")


def test_a_comparison_of_two_printed_facts_must_be_the_right_way_round() -> None:
    """Two printed numbers bear "more" or "fewer" out where they stand in that order."""
    more = "We boxed more this week ({{ boxed.week }}) than last week ({{ boxed.last_week }})."
    fewer = more.replace("more", "fewer")

    assert found(more) == []
    assert "comparison-without-fact" in {rule for rule, _ in found(fewer)}
