"""Exact limits and tests for counts of failures: the binomial upper limit and Fisher's one-sided test."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import comb, exp, isclose, lgamma, log, log1p

TINY = 1e-300
EXACT_DIGITS = 10**15
MOST_COUNTED = 2_000
"""Units of two samples up to which every way is counted."""
LIKELIEST = 1 << 128


def upper_limit(failed: int, checked: int, confidence: Decimal) -> Fraction:
    """The share of failures that a sample rules out to be exceeded, one-sided and exact (Clopper and Pearson, 1934).

    It is the share at which `failed` or fewer of `checked` have the chance 1 - confidence, to 15 decimals.
    """
    if failed >= checked:
        return Fraction(1)
    low, high = 0.0, 1.0
    while not isclose(low, high, rel_tol=1e-15, abs_tol=1e-17):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if incomplete_beta(failed + 1, checked - failed, middle) < confidence else (low, middle)
    return rounded(Fraction(high))


def incomplete_beta(a: float, b: float, x: float) -> float:
    """The regularised incomplete beta function I_x(a, b) for a, b > 0: the chance of `a` or more successes in a + b - 1.

    By its continued fraction (DLMF 8.17.22), evaluated by Lentz's method where it converges fast, by symmetry elsewhere.
    """
    if x <= 0 or x >= 1:
        return float(x >= 1)
    if x > (a + 1) / (a + b + 2):
        return 1 - incomplete_beta(b, a, 1 - x)
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log1p(-x)) / a
    return front * _continued_fraction(a, b, x)


def _continued_fraction(a: float, b: float, x: float) -> float:
    above, below = 1.0, 1 / _not_zero(1 - (a + b) * x / (a + 1))
    value = below
    for step in range(1, 100_000):
        even = step * (b - step) * x / ((a + 2 * step - 1) * (a + 2 * step))
        odd = -(a + step) * (a + b + step) * x / ((a + 2 * step) * (a + 2 * step + 1))
        before = value
        for term in (even, odd):
            below = 1 / _not_zero(1 + term * below)
            above = _not_zero(1 + term / above)
            value *= below * above
        if isclose(value, before, rel_tol=1e-16):
            break
    return value


def _not_zero(number: float) -> float:
    return number if abs(number) > TINY else TINY


def chance_of_no_more(failed: int, checked: int, other_failed: int, other_checked: int) -> Fraction:
    """Fisher's exact test, one-sided: the chance of so few failures in the first of two samples if both are of one quality.

    Exact up to 15 digits of the denominator, else to 15 decimals.
    """
    failures, units = failed + other_failed, checked + other_checked
    if units > MOST_COUNTED:
        return rounded(_proportion(failed, checked, failures, units))
    fewest = max(0, failures - other_checked)
    ways = sum(comb(checked, count) * comb(other_checked, failures - count) for count in range(fewest, failed + 1))
    return rounded(Fraction(ways, comb(units, failures)))


def _proportion(failed: int, checked: int, failures: int, units: int) -> Fraction:
    """The same for large samples: the ways to each count in proportion to the likeliest one's, down to 2^-128 of these.

    From one count of failures to the next the ways change by a ratio of small numbers, so that none has to be counted out.
    """
    elsewhere = units - checked - failures
    likeliest = (checked + 1) * (failures + 1) // (units + 2)
    every = no_more = 0
    count, ways = likeliest, LIKELIEST
    while ways:
        every, no_more = every + ways, no_more + ways * (count <= failed)
        ways = ways * (checked - count) * (failures - count) // ((count + 1) * (elsewhere + count + 1))
        count += 1
    count, ways = likeliest, LIKELIEST
    while ways := ways * count * (elsewhere + count) // ((checked - count + 1) * (failures - count + 1)):
        count -= 1
        every, no_more = every + ways, no_more + ways * (count <= failed)
    return Fraction(no_more, every)


def rounded(value: Fraction) -> Fraction:
    """The value, to 15 decimals where it takes more digits than that."""
    return value if value.denominator <= EXACT_DIGITS else Fraction(round(value * EXACT_DIGITS), EXACT_DIGITS)
