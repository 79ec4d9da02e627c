"""Offers: what to paste in place of a loose figure."""

from __future__ import annotations

import pytest

from tests.rules.builders import judged


@pytest.mark.parametrize(
    ("text", "offer"),
    [
        ("87 looms packed yesterday.", "{{ boxed.yesterday }}"),
        ("We packed 40 of them yesterday.", "{{ boxed.yesterday }}"),
        ("We boxed 41 looms this week.", "{{ boxed.week }}"),
        ("Forty-one looms left the bench this week.", "[Forty-one]{boxed.week}"),
        ("About 320 orders wait.", "[320]{orders.waiting}"),
        ("We boxed 40 Heron 12 this week.", '{{ boxed.of("Heron 12").week }}'),
        ("The next beams come on April 17.", '{{ coverage.part["P-104"].next_arrival }}'),
        ("92 % of the parts are in the house.", "{{ coverage.parts_in_house }}"),
        ("The oldest order has waited 150 days.", "{{ orders.oldest_wait }}"),
        ("They owe €1,250 of credit.", '{{ credits.owed["EUR"] }}'),
    ],
)
def test_the_fact_that_is_meant_is_offered(text: str, offer: str) -> None:
    """Value, period, state, model and unit of the words lead to the fact."""
    offers = [finding.offer for finding in judged(text).findings if finding.rule in ("number-without-fact", "date-without-fact")]

    assert offers == [offer]


def test_nothing_is_offered_where_nothing_is_near() -> None:
    """A figure that no fact comes close to gets no offer."""
    assert judged("We baked 7,777 buns.").findings[0].offer == ""


@pytest.mark.parametrize("text", ["Our output doubled.", "We packed three times as many.", "It was our 41st."])
def test_no_count_is_offered_for_a_multiple_or_an_ordinal(text: str) -> None:
    """How one number stands to another is no count, whatever fact is 2 or 41."""
    assert [finding.offer for finding in judged(text).findings if finding.rule == "number-without-fact"] == [""]


def test_a_weekday_alone_leads_to_no_date() -> None:
    """Many a date is a Friday: the word alone is not enough to offer one."""
    assert judged("It is done by Friday.").findings[0].offer == ""


def test_a_misspelled_fact_is_offered_its_nearest_name() -> None:
    """The nearest name of the same family is offered, ready to paste."""
    assert judged("{{ boxed.last_weak }} looms.").findings[0].offer == "boxed.last_week"


def test_the_fact_of_the_right_period_and_model_is_offered() -> None:
    """A fact beside other words is offered as the fact that fits them."""
    period = judged("We boxed {{ boxed.last_week }} looms this week.").findings[0]
    model = judged("We boxed {{ boxed.week }} Heron 12.").findings[0]

    assert (period.offer, model.offer) == ("{{ boxed.week }}", '{{ boxed.of("Heron 12").week }}')
