"""Which orders' units stand boxed on a day, and the state of orders read back to that day.

An order's unit is the one with its serial; where the order has none, units that boxing.csv names the order for, its lines in
turn (`line_turns`). A unit stands boxed when its latest event up to the day is `boxed`.
"""

from __future__ import annotations

from datetime import date

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.integer_keys import are_known
from bulletin.tables.table import Table
from bulletin.tables.turns import line_turns

FOR_ORDERS = ("order", "")
"""Purposes of units that an order may get; no purpose is taken for an order."""


def read_back_orders(orders: pd.DataFrame, boxing: Table | None, day: date) -> pd.DataFrame:
    """Orders (with their later dates still in) with the status they had on a day.

    Closed later: `boxed` if the unit stands boxed that day, else `waiting`. Delivered later but gone before: `shipped`. A
    unit with later events contradicts `boxed` and `waiting` as written: they are read back in the same way.
    """
    instant = np.datetime64(day, "s")
    closed_later = np.asarray(orders["closed"].to_numpy() > instant)
    delivered_later = np.asarray(orders["delivered"].to_numpy() > instant) & (orders["status"] == "delivered").to_numpy()
    frame = boxing.frame if boxing is not None else None
    moved = _with_later_events(orders, frame, instant) & orders["status"].isin(["boxed", "waiting"]).to_numpy()
    unsure = closed_later | moved
    if not (unsure | delivered_later).any():
        return orders
    standing = stand_boxed(orders, frame, instant)
    status = orders["status"].mask(delivered_later, "shipped")
    status = status.mask(unsure & standing, "boxed").mask(unsure & ~standing, "waiting")
    return orders.assign(status=status)


def _with_later_events(orders: pd.DataFrame, boxing: pd.DataFrame | None, instant: np.datetime64) -> NDArray[np.bool_]:
    """Orders whose unit, one that some event names the order for, has an event after the day."""
    if boxing is None:
        return np.zeros(len(orders), dtype=bool)
    later = boxing.loc[boxing["day"].to_numpy() > instant, "serial"]
    named = boxing[(boxing["order"] != "").to_numpy(dtype=bool) & boxing["purpose"].isin(FOR_ORDERS).to_numpy()]
    moved = named.loc[are_known(named["serial"], later), "order"]
    by_order = are_known(orders["order"], moved) & (orders["serial"] == "").to_numpy(dtype=bool)
    return are_known(orders["serial"], later) | by_order


def stand_boxed(orders: pd.DataFrame, boxing: pd.DataFrame | None, instant: np.datetime64) -> NDArray[np.bool_]:
    """Which orders have a unit that stands boxed at the end of a day."""
    if boxing is None:
        return np.zeros(len(orders), dtype=bool)
    before = boxing[boxing["day"].to_numpy() <= instant].sort_values("at", kind="stable")
    latest = before.drop_duplicates("serial", keep="last")
    boxed = latest[(latest["event"] == "boxed").to_numpy()]
    return are_known(orders["serial"], boxed["serial"]) | _by_order(orders, boxed[boxed["purpose"].isin(FOR_ORDERS).to_numpy()])


def _by_order(orders: pd.DataFrame, boxed: pd.DataFrame) -> NDArray[np.bool_]:
    """Lines without a serial: the first of an order and model get its boxed units that no line names by serial."""
    free = boxed[~are_known(boxed["serial"], orders["serial"]) & (boxed["order"] != "").to_numpy(dtype=bool)]
    units = free.groupby([free["order"], free["model"].astype("str")]).size()
    nameless = (orders["serial"] == "").to_numpy(dtype=bool) & are_known(orders["order"], free["order"])
    in_turn = np.argsort(line_turns(orders[nameless]), kind="stable")
    lines = orders.loc[nameless, ["order", "model"]].iloc[in_turn].astype("str")
    turn = lines.groupby(["order", "model"]).cumcount()
    have = units.reindex(pd.MultiIndex.from_frame(lines)).fillna(0).to_numpy()
    standing = np.zeros(len(orders), dtype=bool)
    standing[orders.index.get_indexer(lines.index[turn.to_numpy() < have])] = True
    return standing
