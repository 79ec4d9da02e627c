"""The median, exact."""

from __future__ import annotations

from fractions import Fraction

import numpy as np

from bulletin.facts.counting.keys import Integers


def median(values: Integers) -> Fraction:
    """The middle one of some whole numbers, of an even number of them the mean of the middle two. There must be one."""
    middle = len(values) // 2
    if len(values) % 2:
        return Fraction(int(np.partition(values, middle)[middle]))
    parted = np.partition(values, [middle - 1, middle])
    return Fraction(int(parted[middle - 1]) + int(parted[middle]), 2)
