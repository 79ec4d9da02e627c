"""The median, exact."""

from __future__ import annotations

from fractions import Fraction

import numpy as np

from bulletin.facts.counting.keys import Integers


def median(values: Integers) -> Fraction:
    """The middle one of some whole numbers, of an even number of them the mean of the middle two. There must be one."""
    at = middle_two(np.arange(len(values)))
    return Fraction(int(np.partition(values, at)[at].sum()), 2)


def middle_two(ordered: Integers) -> Integers:
    """The middle two of some, twice the same of an odd number of them: what their median is the mean of."""
    return ordered[[(len(ordered) - 1) // 2, len(ordered) // 2]]
