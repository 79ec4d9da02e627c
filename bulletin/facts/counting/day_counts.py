"""How many fall on each day: counted once, then summed for any period."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from bulletin.facts.counting.keys import Integers
from bulletin.facts.scopes.calendar import day_number
from bulletin.model import Window
from bulletin.tables.blocks import blocks


@dataclass(frozen=True, eq=False)
class DayCounts:
    """`counts[n]` fall on the n-th day from `first` on, in days since 1970-01-01."""

    first: int
    counts: Integers

    def within(self, span: Window) -> int:
        """How many fall on the days of a span."""
        begin, end = (max(number - self.first, 0) for number in (day_number(span.first), day_number(span.last) + 1))
        return int(self.counts[begin:end].sum())

    def by(self, numbers_of: Callable[[Integers], Integers]) -> tuple[Integers, int]:
        """How many fall in each consecutive period that the days are numbered by, and the number of the first period."""
        numbers = numbers_of(np.arange(self.first, self.first + len(self.counts)))
        first = int(numbers[0]) if numbers.size else 0
        sums = np.zeros(int(numbers[-1]) - first + 1 if numbers.size else 0, np.int64)
        np.add.at(sums, numbers - first, self.counts)
        return sums, first


def day_counts(days: Integers) -> DayCounts:
    """Count days."""
    first, last = (int(days.min()), int(days.max())) if days.size else (0, -1)
    counts = np.zeros(last - first + 1, np.int64)
    for block in blocks(len(days), least=len(counts)):
        counts += np.bincount(days[block] - first, minlength=len(counts))
    return DayCounts(first, counts)
