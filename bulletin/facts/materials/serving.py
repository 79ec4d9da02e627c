"""The order in which stock serves the waiting orders: that of the queue, all models together, orders outside it last."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bulletin.facts.counting.backlog import backlog_of, in_turn
from bulletin.facts.counting.keys import Integers, texts
from bulletin.tables.natural import natural_ranks
from bulletin.tables.turns import line_turns

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day


def serving_order(day: Day) -> Integers:
    """Positions in the frame of orders of the waiting ones: priority, then placed, then order and line in natural order.

    Held orders and asked refunds wait outside the queue; what stands free goes to all others first.
    """
    backlog = day.once(backlog_of)
    waiting = np.flatnonzero(backlog.waiting)
    rows = day.table("orders").frame.iloc[waiting]
    turn = in_turn(
        (backlog.held | backlog.refund)[waiting].astype(np.int64),
        -rows["priority"].to_numpy(),
        rows["placed"].to_numpy().astype("datetime64[D]").astype(np.int64),
        natural_ranks(texts(rows["order"])),
        line_turns(rows),
    )
    return waiting[turn]
