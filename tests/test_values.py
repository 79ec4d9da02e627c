"""Values for programs."""

from __future__ import annotations

from decimal import Decimal

import pytest

from bulletin.model import Money
from bulletin.values import to_json

NOTHING, SOME = Decimal("0.00"), Decimal("12.50")


@pytest.mark.parametrize(
    ("amounts", "expected"),
    [
        ((("EUR", SOME), ("USD", NOTHING)), {"EUR": "12.50"}),
        ((("EUR", NOTHING), ("USD", NOTHING)), {}),
        ((("EUR", NOTHING),), {"EUR": "0.00"}),
        ((), {}),
    ],
)
def test_of_several_currencies_those_with_an_amount_are_told(
    amounts: tuple[tuple[str, Decimal], ...], expected: dict[str, str]
) -> None:
    """One that stands alone is told whatever it comes to."""
    assert expected == to_json(Money(amounts))
