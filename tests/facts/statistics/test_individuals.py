"""The chart of single values."""

from __future__ import annotations

from fractions import Fraction

from bulletin.facts.statistics.individuals import limits_of

FLOWRATES = "49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1".split()
"""NIST/SEMATECH e-Handbook 6.3.2.2, ten batches (from memory)."""


def test_limits_are_those_of_the_handbook() -> None:
    """NIST/SEMATECH e-Handbook 6.3.2.2 (from memory): centre 50.81, limits 45.8159 and 55.8041, to two decimals."""
    limits = limits_of([Fraction(value) for value in FLOWRATES])

    actual = limits and tuple(round(float(value), 2) for value in (limits.low, limits.centre, limits.high))

    assert (45.82, 50.81, 55.80) == actual


def test_a_value_on_a_limit_lies_within() -> None:
    """Only what lies beyond a limit is unusual."""
    limits = limits_of([Fraction(10), Fraction(12)])

    assert limits is not None
    actual = (limits.hold(limits.high), limits.hold(limits.high + Fraction(1, 1000)), limits.hold(limits.low))

    assert (True, False, True) == actual


def test_one_value_has_no_limits() -> None:
    """Without a second value there is no scatter to go by."""
    actual = limits_of([Fraction(10)])

    assert actual is None
