"""Units that stand boxed: which they are, on which day each counts, since when it stands.

A unit stands boxed when its latest event is `boxed`, and counts once, on the day of its first `boxed` event. Samples never
count: a `boxed` event of a sample is not a unit's first, and a unit whose latest event is one does not stand. Of two events at
the same moment, the later one in the file is the later one.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.facts.counting.joins import serial_keys
from bulletin.facts.counting.keys import Integers
from bulletin.tables.blocks import blocks
from bulletin.tables.categories import are_any_of
from bulletin.tables.integer_keys import NONE, among, latest

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

Chosen = NDArray[np.bool_]
NO_ROWS = np.empty(0, np.int64)


class UnitRows(NamedTuple):
    """Rows of boxing.csv (positions, not records), one entry a unit.

    `first` is the event by which the unit counts, `last` its latest one, which also says its model, its order and what it is
    for. `again` are the numbers of the units that were opened and boxed again, `since` the events since which these stand.
    """

    first: Integers
    last: Integers
    again: Integers
    since: Integers


class Units:
    """Units that stand boxed, one entry each, in the order of their serials' keys. Days are counted from 1970-01-01.

    What is not asked for is not worked out: a million units take room.
    """

    def __init__(self, rows: UnitRows, scanned: Integers, chosen: Chosen | None = None) -> None:
        """Some of the units of these rows, or all; `scanned` is the day of every scan."""
        self._rows = rows
        self._scanned = scanned
        self._chosen = chosen

    def where(self, chosen: Chosen) -> Units:
        """Some of all units."""
        return Units(self._rows, self._scanned, chosen)

    @cached_property
    def first(self) -> Integers:
        """The scans by which they count."""
        return self._of_chosen(self._rows.first)

    @cached_property
    def last(self) -> Integers:
        """Their latest scans."""
        return self._of_chosen(self._rows.last)

    @cached_property
    def day(self) -> Integers:
        """The days on which they count."""
        return self._scanned[self.first]

    @cached_property
    def last_day(self) -> Integers:
        """The days of their latest scans."""
        return self._scanned[self.last]

    def boxed_again(self, first_day: int) -> Integers:
        """Scans of units that were opened and boxed again on a day or later, and stand boxed since."""
        lately = self._scanned[self._rows.since] >= first_day
        if self._chosen is not None:
            lately &= self._chosen[self._rows.again]
        return self._rows.since[lately]

    def _of_chosen(self, rows: Integers) -> Integers:
        return rows if self._chosen is None else rows[self._chosen]


def units_of(day: Day) -> Units:
    """All units that stand boxed on a day."""
    return standing(day.table("boxing").frame, day.once(serial_keys)["boxing"])


def standing(frame: pd.DataFrame, serial: Integers) -> Units:
    """The units that stand boxed after all events of a frame of boxing.csv, whose serials are given as keys."""
    boxed = are_any_of(frame["event"], ["boxed"])
    counted = boxed & ~are_any_of(frame["purpose"], ["sample"])
    in_time = np.argsort(frame["at"].to_numpy(), kind="stable")
    pieces = [in_time[block] for block in blocks(len(in_time))]
    last = latest(serial, pieces)
    first = latest(serial, (piece[counted[piece]][::-1] for piece in reversed(pieces)))
    last = last[(last != NONE)]
    last = last[counted[last]]
    units = serial[last]
    again = among(serial, serial[~boxed])
    reopened = np.concatenate([NO_ROWS, *(piece[again[piece]] for piece in pieces)])
    since = reopened[_since(serial[reopened], boxed[reopened], counted[reopened])]
    since = since[among(serial[since], units) & (since != first[serial[since]])]
    rows = UnitRows(first[units], last, np.searchsorted(units, serial[since]), since)
    return Units(rows, _day_numbers(frame["day"]))


def _day_numbers(days: pd.Series) -> Integers:
    numbers = np.empty(len(days), np.int32)
    for block in blocks(len(days)):
        numbers[block] = days.to_numpy()[block].astype("datetime64[D]").view(np.int64)
    return numbers


def _since(serial: Integers, boxed: Chosen, counted: Chosen) -> Integers:
    """Of events in turn, all of units that were opened: the first of each unit that counts after its last opening."""
    unit, turn = pd.factorize(serial)[0], np.arange(len(serial))
    opened = latest(unit, [turn[~boxed]])
    after = turn[counted & (turn > opened[unit])]
    since = latest(unit, [after[::-1]])
    back: Integers = since[since != NONE]
    return back
