"""Exact numbers, rounded once."""

from decimal import Decimal
from fractions import Fraction

import pytest

from bulletin.formats.exact import half_up, machine_number, round_up, share_decimals


@pytest.mark.parametrize(
    ("value", "expected"), [("5.5", "6"), ("2.5", "3"), ("1.6", "2"), ("1.1", "1"), ("-2.5", "-3"), ("0.4", "0"), ("-0.4", "0")]
)
def test_ties_go_away_from_zero(value: str, expected: str) -> None:
    """General Decimal Arithmetic / Python decimal, ROUND_HALF_UP: 5.5 2.5 1.6 1.1 -2.5 -> 6 3 2 1 -3."""
    assert Decimal(expected) == half_up(Decimal(value))


def test_a_share_of_an_amount_is_rounded_once() -> None:
    """17/31 of 29.99 is 16.446129..., so 16.45; common practice."""
    assert Decimal("16.45") == half_up(Fraction(17, 31) * Fraction("29.99"), 2)


def test_tens_and_hundreds_are_negative_decimals() -> None:
    """1,250 to hundreds is 1,300."""
    assert Decimal(1300) == half_up(1250, -2)


@pytest.mark.parametrize(("value", "expected"), [("11.01", 12), ("11", 11), ("-11.5", -11)])
def test_needs_are_rounded_up(value: str, expected: int) -> None:
    """A part of a part is a part more."""
    assert expected == round_up(Decimal(value))


@pytest.mark.parametrize(
    ("share", "expected"),
    [
        (Fraction(0), 1),
        (Fraction(1), 1),
        (Fraction(1, 2), 1),
        (Fraction(9996, 10000), 2),
        (Fraction(1, 100000), 3),
        (Fraction(9994, 10000), 1),
    ],
)
def test_only_none_and_all_read_so(share: Fraction, expected: int) -> None:
    """As many decimals as keep 0 % and 100 % for exactly none and all (0.05 rounds to 0.1, so 0.04 is the first to need more)."""
    assert expected == share_decimals(share)


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (41, "41"),
        (Fraction(9, 20), "0.45"),
        (Fraction(17, 31), "17/31"),
        (Decimal("12.50"), "12.5"),
        (Fraction(-1, 8), "-0.125"),
        (1000, "1000"),
    ],
)
def test_a_machine_reads_the_exact_value(value: int | Fraction | Decimal, expected: str) -> None:
    """Decimals where they end, a ratio where they do not."""
    assert expected == machine_number(value)
