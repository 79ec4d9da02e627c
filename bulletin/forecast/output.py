"""What a line has made, one entry a working day, and the days that lie ahead of it: what every forecast is made from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Integers = NDArray[np.int64]
Reals = NDArray[np.float64]
Chosen = NDArray[np.bool_]

LONGEST = 260
"""Working days of history that count: about a year. What lies further back tells nothing that these do not."""


@dataclass(frozen=True, eq=False)
class Output:
    """Units made on past working days, oldest first, with the weekday of each (Monday 0)."""

    units: Integers
    weekday: Integers

    @cached_property
    def recent(self) -> Output:
        """The days that count, from the first unit on."""
        made = np.flatnonzero(self.units)
        first = max(int(made[0]) if len(made) else len(self.units), len(self.units) - LONGEST)
        return Output(self.units[first:], self.weekday[first:])
