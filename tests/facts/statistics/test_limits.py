"""Exact limits and tests, held against published values and against scipy."""

from decimal import Decimal
from fractions import Fraction
from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import betainc
from scipy.stats import beta, fisher_exact, hypergeom

from bulletin.facts.statistics.limits import chance_of_no_more, incomplete_beta, rounded, upper_limit

NINETY_FIVE = Decimal("0.95")


@pytest.mark.parametrize(("checked", "limit"), [(50, 0.058155), (1000, 0.0029912)])
def test_rule_of_three(checked: int, limit: float) -> None:
    """Hanley & Lippman-Hand, JAMA 249 (1983) 1743-1745: exact one-sided 95 % limits of 0/50 and 0/1000 (computed, scipy)."""
    actual = upper_limit(0, checked, NINETY_FIVE)

    assert pytest.approx(limit, abs=5e-7) == float(actual)
    assert 3 / checked > actual


@pytest.mark.parametrize(
    ("failed", "checked", "limit"),
    [(81, 263, ".3676"), (0, 20, ".1684")],
)
def test_clopper_pearson(failed: int, checked: int, limit: str) -> None:
    """Newcombe, Statistics in Medicine 17 (1998) 857-872, Table I: the two-sided 95 % interval ends where one side has 97.5 %."""
    actual = upper_limit(failed, checked, Decimal("0.975"))

    assert Decimal(limit) == round(Decimal(float(actual)), 4)


@pytest.mark.parametrize(("share", "enough"), [("0.10", 29), ("0.05", 59), ("0.01", 299)])
def test_how_many_without_a_failure_show_a_share(share: str, enough: int) -> None:
    """Exact binomial (computed): 29, 59 and 299 without a failure show at most 10, 5 and 1 % at 95 %, one fewer does not."""
    actual = [upper_limit(0, checked, NINETY_FIVE) <= Fraction(share) for checked in (enough - 1, enough)]

    assert [False, True] == actual


def test_a_lot_that_passes_may_still_be_poor() -> None:
    """sources.md, MIL-STD-105E: 2 of 80 passes AQL 1.0 and says "at most 6.5 %" at 90 % confidence."""
    actual = upper_limit(2, 80, Decimal("0.90"))

    assert Decimal("0.065") == round(Decimal(float(actual)), 3)


def test_all_failed_rules_nothing_out() -> None:
    """Where every unit failed, all may."""
    assert 1 == upper_limit(7, 7, NINETY_FIVE)


@given(st.integers(1, 20_000), st.data())
def test_upper_limits_equal_those_of_scipy(checked: int, data: st.DataObject) -> None:
    """scipy.stats.beta gives the same limit within 5e-13, small samples and large ones."""
    failed = data.draw(st.integers(0, checked - 1))
    expected = float(beta.ppf(0.95, failed + 1, checked - failed))

    actual = float(upper_limit(failed, checked, NINETY_FIVE))

    assert pytest.approx(expected, rel=1e-9, abs=5e-13) == actual


@given(st.floats(0.5, 2000), st.floats(0.5, 2000), st.floats(0, 1))
def test_incomplete_beta_equals_that_of_scipy(a: float, b: float, x: float) -> None:
    """scipy.special.betainc gives the same value."""
    assert pytest.approx(float(betainc(a, b, x)), rel=1e-9, abs=5e-13) == incomplete_beta(a, b, x)


def test_tea_tasting() -> None:
    """Fisher, The Design of Experiments (1935), tea tasting (computed; text from memory): one-sided p = 17/70."""
    actual = chance_of_no_more(1, 4, 3, 4)

    assert Fraction(17, 70) == actual


def test_fisher_exact_of_the_scipy_documentation() -> None:
    """The `fisher_exact` example of scipy's documentation, [[8, 2], [1, 5]]: the two-sided p is 0.0349650.

    The tables as rare as this one are those with 1 or 0 of the second row, and, on the other side, with all 6 of it.
    """
    this_tail = chance_of_no_more(1, 6, 8, 10)
    other_tail = 1 - chance_of_no_more(5, 6, 4, 10)

    assert Decimal("0.0349650") == round(Decimal(float(this_tail + other_tail)), 7)


@given(st.integers(1, 200), st.integers(1, 200), st.data())
def test_fisher_equals_that_of_scipy(checked: int, other: int, data: st.DataObject) -> None:
    """scipy.stats.fisher_exact gives the same one-sided p."""
    failed, other_failed = data.draw(st.integers(0, checked)), data.draw(st.integers(0, other))
    table = [[failed, checked - failed], [other_failed, other - other_failed]]
    expected = float(fisher_exact(table, alternative="less").pvalue)

    actual = float(chance_of_no_more(failed, checked, other_failed, other))

    assert pytest.approx(expected, rel=1e-6, abs=1e-12) == actual


def test_large_samples_stay_numbers_that_can_be_written() -> None:
    """A p of a million units is told to 15 decimals, since the exact one has thousands of digits."""
    actual = chance_of_no_more(900, 500_000, 1_100, 500_000)

    assert 10**15 >= actual.denominator
    assert 0 < actual < Fraction(1, 10_000)


@pytest.mark.parametrize(
    ("failed", "checked", "other_failed", "other_checked"),
    [(3, 1_500, 9, 1_400), (40, 50_000, 55, 50_000), (0, 400_000, 12, 600_000), (2_600, 90_000, 2_500, 90_000), (9, 3_000, 1, 9)],
)
def test_large_samples_equal_scipy(failed: int, checked: int, other_failed: int, other_checked: int) -> None:
    """Beyond what is counted out way by way, the chance is still that of scipy's hypergeometric distribution."""
    expected = hypergeom.cdf(failed, checked + other_checked, failed + other_failed, checked)

    actual = chance_of_no_more(failed, checked, other_failed, other_checked)

    assert float(actual) == pytest.approx(float(expected), rel=1e-7)


@given(st.integers(1_001, 1_400), st.integers(1_001, 1_400), st.integers(0, 60), st.integers(0, 60))
def test_proportions_are_what_counting_every_way_gives(checked: int, other: int, failed: int, other_failed: int) -> None:
    """The ways in proportion to the likeliest count give what all ways counted out give."""
    failures, fewest = failed + other_failed, max(0, failed + other_failed - other)
    ways = sum(comb(checked, count) * comb(other, failures - count) for count in range(fewest, failed + 1))
    expected = rounded(Fraction(ways, comb(checked + other, failures)))

    actual = chance_of_no_more(failed, checked, other_failed, other)

    assert abs(expected - actual) <= Fraction(1, 10**15)
