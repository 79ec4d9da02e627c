"""The backlog: who waits, in which order they are served, who stands outside the queue.

Each model has a queue of its own: higher priority first, then the day of the order, then the order in natural order. Held orders
and those whose refund was asked for wait outside.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.facts.counting.joins import order_count, order_keys
from bulletin.facts.counting.keys import Integers
from bulletin.tables.categories import are_any_of
from bulletin.tables.natural import natural_ranks
from bulletin.tables.turns import count_before, line_turns

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

Chosen = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Backlog:
    """One entry a row of orders.csv. `place` counts from 1 within the model's queue, 0 outside any.

    `turn` are the rows of all that wait, in a queue or outside: by priority, then placed, then order and line in natural order.
    """

    waiting: Chosen
    held: Chosen
    refund: Chosen
    place: Integers
    turn: Integers

    @property
    def queued(self) -> Chosen:
        """Who stands in a queue."""
        return self.place > 0


def backlog_of(day: Day) -> Backlog:
    """The backlog on a day."""
    orders = day.table("orders").frame
    waiting = are_any_of(orders["status"], ["waiting"])
    held = waiting & _named_in(day, "holds")
    refund = waiting & _named_in(day, "refunds")
    turn = waiting_in_turn(orders, np.flatnonzero(waiting))
    place = np.zeros(len(orders), np.int64)
    queued = turn[~(held | refund)[turn]]
    place[queued] = 1 + count_before(orders["model"].cat.codes.to_numpy()[queued])
    return Backlog(waiting, held, refund, place, turn)


def waiting_in_turn(orders: pd.DataFrame, waiting: Integers) -> Integers:
    """Rows of orders.csv in the order in which they are served, all models together."""
    rows = orders[["placed", "priority", "order", "line", "status"]].iloc[waiting]
    placed = rows["placed"].to_numpy().astype("datetime64[D]").astype(np.int64)
    turn = in_turn(-rows["priority"].to_numpy(), placed, natural_ranks(rows["order"]), line_turns(rows))
    return waiting[turn]


def in_turn(*columns: Integers) -> Integers:
    """Rows sorted by several columns, the first one weighing most: one composite key and one stable sort where they fit."""
    key, width = np.zeros(len(columns[0]), np.int64), 1
    for column in columns if len(key) else ():
        low, span = int(column.min()), int(column.max()) - int(column.min()) + 1
        width *= span
        if width >= 2**62:
            return np.lexsort(columns[::-1])
        key = key * span + (column - low)
    return np.argsort(key, kind="stable")


def _named_in(day: Day, name: str) -> Chosen:
    """Which orders a table speaks of that day; a hold that is over no longer counts."""
    keys = day.once(order_keys)
    named = np.zeros(day.once(order_count), np.bool_)
    if day.has(name):
        named[keys[name][_in_force(day, name)]] = True
    return named[keys["orders"]]


def _in_force(day: Day, name: str) -> Chosen:
    frame = day.table(name).frame
    if name != "holds":
        return np.ones(len(frame), np.bool_)
    until = frame["until"].to_numpy().astype("datetime64[D]")
    lasts: Chosen = np.isnat(until) | (until >= np.datetime64(day.as_of))
    return lasts
