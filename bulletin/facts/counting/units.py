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
from bulletin.tables.categories import are_any_of
from bulletin.tables.integer_keys import NONE, among, latest

if TYPE_CHECKING:
    import pandas as pd

    from bulletin.facts.scopes.day import Day

Chosen = NDArray[np.bool_]


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
    boxed = are_any_of(frame["event"], ["boxed"])
    counted = boxed & ~are_any_of(frame["purpose"], ["sample"])
    in_time = np.argsort(frame["at"].to_numpy().astype(np.int64), kind="stable")
    last, first = latest(serial, in_time), latest(serial, in_time[counted[in_time]][::-1])
    stands = last[(last != NONE)]
    stands = stands[counted[stands]]
    units = serial[stands]
    rows = first[units], _since(first, serial, in_time, (boxed, counted))[units], stands
    days = frame["day"].to_numpy().astype("datetime64[D]").astype(np.int64)
    return Units(*rows, *(days[row] for row in rows))


def _since(first: Integers, serial: Integers, in_time: Integers, events: tuple[Chosen, Chosen]) -> Integers:
    """For each serial the row since which it stands boxed: the first, or, of a unit that was opened, the next one after that.

    `events` tell which rows are boxed, and which of these count.
    """
    boxed, counted = events
    opened = in_time[~boxed[in_time]]
    reopened = in_time[among(serial, serial[opened])[in_time]]
    turn = np.arange(len(reopened))
    opened_at = latest(serial[reopened], turn[~boxed[reopened]])
    back = reopened[counted[reopened] & (turn > opened_at[serial[reopened]])][::-1]
    since = first.copy()
    since[serial[back]] = back
    return since
