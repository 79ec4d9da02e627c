"""The `policies` and `attested` families, from small makers' tables."""

from typing import Any

import pytest

from bulletin.model import Basis, Fact, Name
from tests.facts.builders import Row, day_of, find, value, why

DAY = "2026-03-27"


def policy(state: str, **columns: Any) -> Row:
    return {"policy": "returns", "title": "Sixty days to return", "state": state, **columns}


@pytest.mark.parametrize(
    ("row", "in_force"),
    [
        (policy("in_force"), True),
        (policy("in_force", **{"from": "2026-03-27"}), True),
        (policy("in_force", **{"from": "2026-03-28"}), False),
        (policy("decided", **{"from": "2026-01-01"}), False),
        (policy("idea"), False),
    ],
)
def test_a_policy_is_in_force_from_its_day_on(row: Row, in_force: bool) -> None:
    """It takes the state and, where one is given, the day."""
    day = day_of(DAY, policies=[row])
    expected = (in_force, row["state"], Name("policy", "returns", "Sixty days to return"), {Basis.POLICY})

    facts = [find(day, f"policies.returns.{key}") for key in ("in_force", "state", "title")]
    actual = (*(fact.value for fact in facts if isinstance(fact, Fact)), {fact.basis for fact in facts if isinstance(fact, Fact)})

    assert expected == actual


def statement(**columns: Any) -> Row:
    return {"statement": "oil", "text": "Every frame is oiled by hand.", "by": "Tamsin Orrevik", "on": "2026-01-12", **columns}


@pytest.mark.parametrize("expires", ["", DAY, "2026-06-01"])
def test_a_statement_stands_in_its_own_words(expires: str) -> None:
    """The item itself is the statement, up to and including the day on which it expires."""
    found = find(day_of(DAY, attested=[statement(expires=expires)]), "attested.oil")

    assert isinstance(found, Fact)
    assert ("Every frame is oiled by hand.", Basis.ATTESTED) == (found.value, found.basis)


def test_an_expired_statement_says_nothing_more() -> None:
    """Neither the item nor its text; who signed it is still known."""
    day = day_of(DAY, attested=[statement(expires="2026-03-26")])

    actual = {why(day, f"attested.{key}") for key in ("oil", "oil.text")}

    assert {"the statement expired on 2026-03-26"} == actual
    assert "Tamsin Orrevik" == value(day, "attested.oil.by")


def test_a_statement_is_not_signed_before_its_day() -> None:
    """On an earlier day nobody has signed it."""
    assert not isinstance(find(day_of("2026-01-11", attested=[statement()]), "attested.oil"), Fact)
