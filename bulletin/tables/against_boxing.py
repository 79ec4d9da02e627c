"""Orders whose status boxing.csv contradicts: two tables that say two things make facts that customers take for lies.

They are warnings, since a status is often set a little later than a unit is boxed. Millions of rows agree, so only those that
could disagree are looked at: waiting orders that an event names, and orders without a serial that have left the bench.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.faults import CellFault, Wrong
from bulletin.tables.integer_keys import Integers, are_known, not_in
from bulletin.tables.shared_keys import SharedKeys
from bulletin.tables.standing import FOR_ORDERS, stand_boxed
from bulletin.tables.table import Table
from bulletin.tables.turns import SERVED


def against_boxing(orders: Table, boxing: Table, keys: SharedKeys) -> Iterator[CellFault]:
    """Waiting orders whose unit stands boxed, and served ones of which boxing.csv knows nothing."""
    if orders.has("status") and boxing.has("serial"):
        yield from _waiting_though_boxed(orders, boxing, keys)
        yield from _served_without_boxing(orders, boxing)


def _waiting_though_boxed(orders: Table, boxing: Table, keys: SharedKeys) -> Iterator[CellFault]:
    frame, events = _concerned(orders, boxing, keys)
    if not len(frame):
        return
    boxed = (frame["status"] == "waiting").to_numpy() & stand_boxed(frame, events, events["day"].to_numpy().max())
    for record in frame.index[boxed].tolist():
        event = _boxed_last(events, frame.loc[record])
        details = {"serial": str(events.at[event, "serial"]), "line": str(boxing.lines([event])[0]), "file": boxing.file}
        yield CellFault(int(record), "status", "waiting", Wrong("status-against-boxing", details), "warn")


def _concerned(orders: Table, boxing: Table, keys: SharedKeys) -> tuple[pd.DataFrame, pd.DataFrame]:
    """All lines of the waiting orders that an event names by order or by serial, and all events of the units in question."""
    lines, events = orders.frame, boxing.frame
    waiting = (lines["status"] == "waiting").to_numpy()
    by_order, orders_keys = keys.of((boxing, "order"), (orders, "order"))
    serials, by_serial = keys.of((orders, "serial"), (boxing, "serial"))
    named = _are_among(by_order, orders_keys[waiting])
    if (serials[waiting] >= 0).any():
        named |= _are_among(by_serial, serials[waiting])
    if not named.any():
        return lines.iloc[:0], events.iloc[:0]
    events = events[are_known(events["serial"], events["serial"][named])]
    return lines[are_known(lines["order"], events["order"]) | are_known(lines["serial"], events["serial"])], events


def _are_among(keys: Integers, known: Integers) -> NDArray[np.bool_]:
    return (keys >= 0) & ~not_in(keys, [known])


def _boxed_last(events: pd.DataFrame, order: pd.Series) -> int:
    """The record of the last event that boxed the unit of an order; of several that may be its own, the last one's."""
    boxed = events[(events["event"] == "boxed").to_numpy()]
    if order["serial"]:
        own = (boxed["serial"] == order["serial"]).to_numpy()
    else:
        own = (boxed["order"] == order["order"]).to_numpy() & (boxed["model"] == str(order["model"])).to_numpy()
        own &= boxed["purpose"].isin(FOR_ORDERS).to_numpy()
    return int(boxed[own].sort_values("at", kind="stable").index[-1])


def _served_without_boxing(orders: Table, boxing: Table) -> Iterator[CellFault]:
    """Served orders without a serial that no event names, if this maker links the two tables at all.

    A serial that leads nowhere is a fault of its own.
    """
    frame, named = orders.frame, boxing.frame["order"]
    nameless = frame["status"].isin(SERVED).to_numpy() & (frame["serial"] == "").to_numpy(dtype=bool)
    served = frame.loc[nameless, ["order", "status"]]
    if not len(served) or not ((named != "").any() or (frame["serial"] != "").any()):
        return
    unknown = served[~are_known(served["order"], named)]
    for record, status in zip(unknown.index.tolist(), unknown["status"], strict=True):
        yield CellFault(int(record), "status", str(status), Wrong("status-without-boxing", {"file": boxing.file}), "warn")
