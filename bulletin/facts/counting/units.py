"""Units that stand boxed: which they are, on which day each counts, since when it stands.

A unit stands boxed when its latest event is `boxed`, and counts once, on the day of its first `boxed` event. Samples never
count: a `boxed` event of a sample is not a unit's first, and a unit whose latest event is one does not stand. Of two events at
the same moment, the later one in the file is the later one.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.joins import serial_keys
from bulletin.facts.counting.keys import Integers

if TYPE_CHECKING:
    import pandas as pd

    from bulletin.facts.scopes.day import Day

NONE = -1


@dataclass(frozen=True, eq=False)
class Units:
    """One entry a unit that stands boxed, in the order of serials' first rows. Days are counted from 1970-01-01.

    `first`, `since` and `last` are rows of the table (positions, not records): the event by which the unit counts, the one
    since which it stands boxed, and its latest one, which also says its model, its order and what it is for.
    """

    first: Integers
    since: Integers
    last: Integers
    day: Integers
    since_day: Integers
    last_day: Integers

    def where(self, chosen: NDArray[np.bool_]) -> Units:
        """Some of the units."""
        return Units(*(getattr(self, field.name)[chosen] for field in fields(self)))


def units_of(day: Day) -> Units:
    """All units that stand boxed on a day."""
    return standing(day.table("boxing").frame, day.once(serial_keys)["boxing"])


def standing(frame: pd.DataFrame, serial: Integers) -> Units:
    """The units that stand boxed after all events of a frame of boxing.csv, whose serials are given as keys."""
    boxed = (frame["event"] == "boxed").to_numpy()
    counted = boxed & (frame["purpose"] != "sample").to_numpy()
    in_time = np.argsort(frame["at"].to_numpy().astype(np.int64), kind="stable")
    rank = np.empty(len(frame), np.int64)
    rank[in_time] = np.arange(len(frame))

    last = _latest(serial, in_time)
    backwards = in_time[::-1]
    first = _latest(serial, backwards[counted[backwards]])
    opened = _latest(serial, in_time[~boxed[in_time]])
    opened_rank = np.where(opened == NONE, NONE, rank[opened]) if len(frame) else opened
    back = counted & (rank > opened_rank[serial])
    since = _latest(serial, backwards[back[backwards]])

    stands = np.flatnonzero((last != NONE) & (first != NONE))
    stands = stands[counted[last[stands]]]
    days = frame["day"].to_numpy().astype("datetime64[D]").astype(np.int64)
    rows = first[stands], since[stands], last[stands]
    return Units(*rows, *(days[row] for row in rows))


def _latest(serial: Integers, rows: Integers) -> Integers:
    """For each serial the last of these rows, NONE for a serial without one: the last write wins."""
    found = np.full(int(serial.max(initial=NONE)) + 1, NONE, np.int64)
    found[serial[rows]] = rows
    return found
