"""What becomes of each form of a draft: borne out, contradicted, unsupported, an opinion, or a statement somebody signed."""

from __future__ import annotations

from datetime import date

import pytest

from bulletin.model import Place
from tests.rules.builders import FRIDAY, facts, judged

JUDGEMENTS = {
    "a printed fact": ("We boxed {{ boxed.week }} looms.", ["supported"]),
    "a claim that holds": ("[More than last week]{boxed.week > boxed.last_week} were boxed.", ["supported"]),
    "a false condition": ("[Fewer than last week]{boxed.week < boxed.last_week} were boxed.", ["contradicted"]),
    "another figure": ("[We boxed 900 looms]{boxed.week > 10}.", ["contradicted"]),
    "an absent fact": ("[We can build plenty]{coverage.buildable > 5}.", ["unsupported"]),
    "a printed absent fact": ("We boxed {{ boxed.weak }} looms.", ["unsupported"]),
    "words that it does not carry": ("This was [our biggest week]{boxed.week > boxed.last_week}.", ["unsupported"]),
    "a condition that can't be read": ("[More]{boxed.week >} were boxed.", ["unsupported"]),
    "a condition of unlike things": ('[More]{boxed.week > "many"} were boxed.', ["unsupported"]),
    "a printed no": ("{{ coverage.parts_in_house > 1 }}", ["unsupported"]),
    "an opinion": ("The beam is [a joy to wind]{opinion}.", ["opinion"]),
    "an opinion with a figure": ("[We think 87 looms is fine]{opinion}.", ["opinion"]),
    "a finding beside it": ("We boxed {{ boxed.week }} looms and 87 frames.", ["supported"]),
    "a finding right behind it": ("{{ boxed.week }}, 87", ["supported"]),
}


@pytest.mark.parametrize(("text", "expected"), JUDGEMENTS.values(), ids=JUDGEMENTS)
def test_what_becomes_of_a_form(text: str, expected: list[str]) -> None:
    """What blocks inside a form takes its support away; what contradicts the facts is told apart."""
    assert expected == [each.judgement for each in judged(text).judged]


def test_a_warning_takes_no_support_away() -> None:
    """A form is unsupported by what blocks, not by what one may look at."""
    verdict = judged("Title: {{ boxed.week }} looms\n\nGood day.", made=facts(boxed=date(2026, 3, 2)))

    assert [("tables-stale", "warn")] == [(finding.rule, finding.level) for finding in verdict.findings]
    assert ["supported"] == [each.judgement for each in verdict.judged]


def test_a_form_keeps_the_facts_it_touches() -> None:
    """The judgement comes with its facts in the order of the condition; the verdict with the day they hold for."""
    verdict = judged("[More than last week]{boxed.week > boxed.last_week} were boxed. This is [fine]{opinion}.")

    assert [["boxed.week", "boxed.last_week"], []] == [[fact.spelling for fact in each.facts] for each in verdict.judged]
    assert (FRIDAY, FRIDAY) == (verdict.as_of, verdict.judged[0].facts[0].as_of)


SIGNED = "Attested: Every frame is oiled by hand | Ines Holm | 2026-12-31\n\n"


def test_words_that_somebody_signed_are_a_claim_of_their_own() -> None:
    """They are told with their place and exactly their span, markup inside them with it."""
    verdict = judged(f"{SIGNED}So: *Every* frame is oiled by hand, as ever.")
    (attested,) = verdict.judged
    claim = attested.claim

    assert ("attested", "claim", Place("news.en.md", 4, 6)) == (attested.judgement, claim.kind, claim.place)
    assert "Every frame is oiled by hand" == claim.words
    assert ["Every* frame is oiled by hand"] * 2 == [
        verdict.draft.source[slice(*span)] for span in ((claim.start, claim.end), (claim.words_start, claim.words_end))
    ]


def test_forms_and_signed_words_are_told_in_the_order_of_the_text() -> None:
    """A signed statement between two forms stands between them."""
    verdict = judged(f"{SIGNED}We boxed {{{{ boxed.week }}}} looms. Every frame is oiled by hand. It is [fine]{{opinion}}.")

    assert ["supported", "attested", "opinion"] == [each.judgement for each in verdict.judged]


def test_a_fact_inside_the_words_of_a_claim_is_judged_too() -> None:
    """The claim comes first, for it starts first; a figure that is off contradicts the claim alone."""
    verdict = judged("[{{ orders.waiting }} wait and 900 were boxed]{boxed.week > 10}.")

    assert ["contradicted", "supported"] == [each.judgement for each in verdict.judged]


def test_what_reading_and_reckoning_find_is_told_by_place() -> None:
    """Problems of the form, faults of conditions and findings of rules stand in one list, sorted by place."""
    verdict = judged('We boxed 87. [More]{boxed.week > "many"} came. [Some]{boxed.week >} went. 88 stayed.')
    places = [finding.place for finding in verdict.findings]
    rules = [finding.rule for finding in verdict.findings]

    assert places == sorted(places)
    assert (2, 2) == (rules.count("condition-unreadable"), rules.count("number-without-fact"))
