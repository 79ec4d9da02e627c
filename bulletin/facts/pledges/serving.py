"""Order lines as what came shows them: since when each stood in its queue, on which day it was served or left unserved.

A line is served on the day its unit was first boxed, as output counts it. One that left without a scan is taken to be served on
the day it left. Cancelled orders and asked refunds leave the queue for good, held ones while the hold lasts.
"""

from __future__ import annotations

from datetime import date

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.joins import order_count, order_keys
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.order_units import order_units
from bulletin.facts.counting.units import units_of
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day

Chosen = NDArray[np.bool_]
NEVER = 1 << 40
"""A day that does not come, counted like the others from 1970-01-01."""


class Serving:
    """Built with `day.once(Serving)`: one entry a row of orders.csv, days counted from 1970-01-01."""

    def __init__(self, day: Day) -> None:
        """Work out placed, served and gone."""
        self.day = day
        frame = day.table("orders").frame
        self.placed = _numbers(frame["placed"].to_numpy())
        closed = _numbers(frame["closed"].to_numpy())
        unit = day.once(order_units)
        status = frame["status"].astype("str").to_numpy()
        out = np.isin(status, ("boxed", "shipped", "delivered"))
        unseen = np.where(closed == NEVER, self.placed, closed)
        self.served = np.where(out, unseen, NEVER)
        self.served[unit >= 0] = day.once(units_of).day[unit[unit >= 0]]
        cancelled = np.where(status == "cancelled", unseen, NEVER)
        self.gone = np.minimum(cancelled, self._refund_asked())

    def queued(self, on: date) -> Chosen:
        """Which lines stood in a queue at the end of a day."""
        end = day_number(on)
        return (self.placed <= end) & (self.served > end) & (self.gone > end) & ~self._held(on)

    def outside(self) -> Chosen:
        """Which lines stand in no queue any more, whether they were served or not."""
        return (self.gone <= day_number(self.day.as_of)) | self._held(self.day.as_of)

    def _refund_asked(self) -> Integers:
        keys = self.day.once(order_keys)
        first = np.full(self.day.once(order_count), NEVER, np.int64)
        if self.day.has("refunds"):
            np.minimum.at(first, keys["refunds"], _numbers(self.day.table("refunds").frame["asked"].to_numpy()))
        return first[keys["orders"]]

    def _held(self, on: date) -> Chosen:
        keys = self.day.once(order_keys)
        held = np.zeros(self.day.once(order_count), np.bool_)
        if self.day.has("holds"):
            frame = self.day.table("holds").frame
            since, until = (_numbers(frame[name].to_numpy()) for name in ("from", "until"))
            held[keys["holds"][(since <= day_number(on)) & (until >= day_number(on))]] = True
        return held[keys["orders"]]


def _numbers(days: NDArray[np.datetime64]) -> Integers:
    """Days as numbers, no day as one that does not come."""
    whole = days.astype("datetime64[D]")
    return np.where(np.isnat(whole), NEVER, whole.astype(np.int64))
