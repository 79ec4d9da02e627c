"""What readers must hear: spoken of, remembered from a bulletin on record, or waived."""

from __future__ import annotations

from datetime import date

import pytest

from bulletin.model import Concern, Mention, Value
from tests.rules.builders import found

REFUNDS = Concern("late refunds", "refunds.late", "2 refunds are late", ("refunds.late",))
DEFECT = Concern("safety defect", "D-12", "the safety defect D-12 is open", item_key="defects.D-12")
PLAIN = "We boxed {{ boxed.week }} looms."


def mention(
    day: date = date(2026, 3, 20), readers: str = "all", key: str = "defects.D-12.affected", value: Value = 60
) -> Mention:
    return Mention(7, day, readers, key, value)


def left_out(text: str, *concerns: Concern, mentions: tuple[Mention, ...] = ()) -> list[str]:
    return [words for rule, words in found(text, concerns=concerns, mentions=mentions) if rule == "unmentioned"]


def test_what_no_form_touches_is_left_out() -> None:
    """Prose about a defect is no mention of it; a claim or a printed fact that touches it is."""
    assert ["D-12"] == left_out("The pawls trouble us.", DEFECT)
    assert [] == left_out('So far we know of at least {{ defects["D-12"].affected }}.', DEFECT)


def test_another_item_of_the_family_is_no_mention() -> None:
    """Counting all defects speaks of none of them."""
    assert ["D-12"] == left_out("{{ defects.open }} defects are open.", DEFECT)


def test_each_concern_is_told_of_by_itself() -> None:
    """Speaking of one leaves the others unsaid."""
    assert ["refunds.late"] == left_out('At least {{ defects["D-12"].affected }} so far.', DEFECT, REFUNDS)


@pytest.mark.parametrize("named", ["refunds.late", "late refunds"])
def test_somebody_may_answer_for_silence(named: str) -> None:
    """A waiver names the item, or the kind of concern."""
    assert [] == left_out(f'Waive: unmentioned "{named}" | Ines Holm | they know already\n\n{PLAIN}', REFUNDS)


def test_owners_hear_of_their_defect_alone() -> None:
    """A notice to the owners of a defect need not tell of refunds, but of that defect."""
    assert ["D-12"] == left_out(f"Title: Notice\nReaders: owners D-12\n\n{PLAIN}", DEFECT, REFUNDS)
    assert [] == left_out(f"Title: Notice\nReaders: owners D-9\n\n{PLAIN}", DEFECT, REFUNDS)


REMEMBERED = {
    "the same value": (mention(), []),
    "28 days ago": (mention(date(2026, 2, 27)), []),
    "29 days ago": (mention(date(2026, 2, 26)), ["D-12"]),
    "another value": (mention(value=59), ["D-12"]),
    "to other readers": (mention(readers="owners D-12"), ["D-12"]),
    "to the same readers": (mention(readers="waiting"), []),
    "of another defect": (mention(key="defects.D-1.affected"), ["D-12"]),
    "a fact that is gone": (mention(key="defects.D-12.lot", value="L-1"), ["D-12"]),
    "of a later day": (mention(date(2026, 3, 28)), ["D-12"]),
}


@pytest.mark.parametrize(("told", "expected"), REMEMBERED.values(), ids=REMEMBERED)
def test_a_mention_counts_until_the_fact_changes_or_28_days(told: Mention, expected: list[str]) -> None:
    """What a bulletin on record told counts for the same readers, as long as it is still so."""
    assert expected == left_out(f"Title: Week\nReaders: waiting\n\n{PLAIN}", DEFECT, mentions=(told,))


def test_a_changed_fact_ends_the_mention_of_the_whole_item() -> None:
    """Where one of the facts told of an item has changed, the others of that bulletin don't count any more."""
    told = (mention(), mention(key="defects.open", value=4), mention(key="defects.D-12.kits", value=12))

    assert ["D-12"] == left_out(PLAIN, DEFECT, mentions=told)
