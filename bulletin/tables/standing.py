"""Which orders' units stand boxed on a day, and the state of orders read back to that day.

An order's unit is the one with its serial; where the order has none, units that boxing.csv names the order for, its lines in
turn (`line_turns`). A unit stands boxed when its latest event up to the day is `boxed`.
"""

from __future__ import annotations

from datetime import date

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.categories import are_any_of
from bulletin.tables.integer_keys import NONE, Integers, among, latest
from bulletin.tables.linked import Linked
from bulletin.tables.turns import count_before, line_turns

FOR_ORDERS = ("order", "")
"""Purposes of units that an order may get; no purpose is taken for an order."""


def read_back_orders(orders: Linked, boxing: Linked | None, day: date) -> pd.DataFrame:
    """Orders (with their later dates still in) with the status they had on a day.

    Closed later: `boxed` if the unit stands boxed that day, else `waiting`. Delivered later but gone before: `shipped`. A
    unit with later events contradicts `boxed` and `waiting` as written: they are read back in the same way.
    """
    instant, frame = np.datetime64(day, "s"), orders.frame
    status = frame["status"]
    delivered_later = (frame["delivered"].to_numpy() > instant) & are_any_of(status, ["delivered"])
    unsure = frame["closed"].to_numpy() > instant
    if boxing is not None:
        unsure |= _with_later_events(orders, boxing, instant) & are_any_of(status, ["boxed", "waiting"])
    if not (unsure | delivered_later).any():
        return frame
    standing = stand_boxed(orders, boxing, instant) if boxing is not None else np.zeros(len(frame), np.bool_)
    status = status.mask(delivered_later, "shipped").mask(unsure & standing, "boxed").mask(unsure & ~standing, "waiting")
    return frame.assign(status=status)


def _with_later_events(orders: Linked, boxing: Linked, instant: np.datetime64) -> NDArray[np.bool_]:
    """Orders whose unit, one that some event names the order for, has an event after the day."""
    later = boxing.serial[boxing.frame["day"].to_numpy() > instant]
    if not len(later):
        return np.zeros(len(orders.frame), np.bool_)
    named = among(boxing.serial, later) & are_any_of(boxing.frame["purpose"], FOR_ORDERS)
    by_order: NDArray[np.bool_] = among(orders.order, boxing.order[named]) & (orders.serial == NONE)
    return among(orders.serial, later) | by_order


def stand_boxed(orders: Linked, boxing: Linked, instant: np.datetime64) -> NDArray[np.bool_]:
    """Which orders have a unit that stands boxed at the end of a day."""
    before = np.flatnonzero(boxing.frame["day"].to_numpy() <= instant)
    in_time = before[np.argsort(boxing.frame["at"].to_numpy()[before], kind="stable")]
    last = latest(boxing.serial, [in_time])
    last = last[last != NONE]
    boxed = last[are_any_of(boxing.frame["event"], ["boxed"])[last]]
    return among(orders.serial, boxing.serial[boxed]) | _by_order(orders, boxing, boxed)


def _by_order(orders: Linked, boxing: Linked, boxed: Integers) -> NDArray[np.bool_]:
    """Lines without a serial: the first of an order and model get its boxed units that no line names by serial."""
    meant = are_any_of(boxing.frame["purpose"], FOR_ORDERS)[boxed] & (boxing.order[boxed] != NONE)
    free = boxed[meant & ~among(boxing.serial[boxed], orders.serial)]
    lines = np.flatnonzero((orders.serial == NONE) & among(orders.order, boxing.order[free]))
    standing = np.zeros(len(orders.frame), np.bool_)
    if not len(lines):
        return standing
    lines = lines[np.argsort(line_turns(orders.frame.iloc[lines]), kind="stable")]
    wanted, offered = _orders_and_models(orders.at(lines), boxing.at(free))
    have = np.bincount(offered, minlength=int(wanted.max()) + 1)[wanted]
    standing[lines[count_before(wanted) < have]] = True
    return standing


def _orders_and_models(lines: Linked, units: Linked) -> tuple[Integers, Integers]:
    """A number for the order and the model of each line and of each unit, the same for the same ones."""
    models = pd.concat([lines.frame["model"].astype("str"), units.frame["model"].astype("str")])
    pairs = pd.factorize(models)[0] + np.concatenate([lines.order, units.order]) * len(models)
    codes = pd.factorize(pairs)[0]
    return codes[: len(lines.frame)], codes[len(lines.frame) :]
