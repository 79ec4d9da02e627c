"""The serials of boxing.csv in natural order: which units were built from a serial on."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bulletin.tables.natural import natural_key, natural_ranks

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day


class SerialsInTurn:
    """Built with `day.once(SerialsInTurn)`: they are put in order once, however many changes begin somewhere among them."""

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self._serials = day.table("boxing").frame["serial"].array
        self._ranks = natural_ranks(day.table("boxing").frame["serial"])
        self._turn = np.argsort(self._ranks, kind="stable")

    def at_or_after(self, serial: str) -> NDArray[np.bool_]:
        """For each row of boxing.csv whether its serial is this one or comes after it; H-07 and H-7 are the same number."""
        first, _ = natural_key(serial)
        begin = bisect_left(self._turn, first, key=lambda row: natural_key(str(self._serials[row]))[0])
        if begin == len(self._turn):
            return np.zeros(len(self._turn), np.bool_)
        return np.asarray(self._ranks >= self._ranks[self._turn[begin]])
