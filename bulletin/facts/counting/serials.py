"""The serials of boxing.csv in natural order: which units were built from a serial on."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

import numpy as np

from bulletin.tables.natural import natural_key, natural_ranks

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

BEYOND = np.iinfo(np.int64).max
"""No serial has a rank as high."""


class SerialsInTurn:
    """Built with `day.once(SerialsInTurn)`: they are put in order once, however many changes begin somewhere among them."""

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self._serials = day.table("boxing").frame["serial"].array
        self.ranks = natural_ranks(day.table("boxing").frame["serial"])
        self._turn = np.argsort(self.ranks, kind="stable")

    def rank_from(self, serial: str) -> int:
        """The least of `ranks` (one a row of boxing.csv) of this serial and all after it; H-07 and H-7 are the same number."""
        first, _ = natural_key(serial)
        begin = bisect_left(self._turn, first, key=lambda row: natural_key(str(self._serials[row]))[0])
        return int(self.ranks[self._turn[begin]]) if begin < len(self._turn) else BEYOND
