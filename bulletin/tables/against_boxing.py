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
from bulletin.tables.integer_keys import are_known
from bulletin.tables.standing import FOR_ORDERS, stand_boxed
from bulletin.tables.table import Table
from bulletin.tables.turns import SERVED


def against_boxing(orders: Table, boxing: Table) -> Iterator[CellFault]:
    """Waiting orders whose unit stands boxed, and served ones of which boxing.csv knows nothing."""
    if not orders.has("status") or not boxing.has("serial"):
        return
    yield from _waiting_though_boxed(orders, boxing)
    if _are_linked(orders, boxing):
        yield from _served_without_boxing(orders, boxing)


def _are_linked(orders: Table, boxing: Table) -> bool:
    """Whether this maker names orders in boxing.csv, or serials in orders.csv, at all."""
    return bool((boxing.frame["order"] != "").any() or (orders.frame["serial"] != "").any())


def _waiting_though_boxed(orders: Table, boxing: Table) -> Iterator[CellFault]:
    frame, events = _concerned(orders.frame, boxing.frame)
    if not len(frame):
        return
    boxed = (frame["status"] == "waiting").to_numpy() & stand_boxed(frame, events, events["day"].to_numpy().max())
    for record in frame.index[boxed].tolist():
        event = _boxed_last(events, frame.loc[record])
        details = {"serial": str(events.at[event, "serial"]), "line": str(boxing.lines([event])[0]), "file": boxing.file}
        yield CellFault(int(record), "status", "waiting", Wrong("status-against-boxing", details), "warn")


def _concerned(orders: pd.DataFrame, boxing: pd.DataFrame) -> tuple[pd.DataFrame, pd.DataFrame]:
    """All lines of the waiting orders that an event names by order or by serial, and all events of the units in question."""
    waiting = orders[(orders["status"] == "waiting").to_numpy()]
    named = are_known(boxing["order"], waiting["order"]) | are_known(boxing["serial"], waiting["serial"])
    if not named.any():
        return orders.iloc[:0], boxing.iloc[:0]
    events = boxing[are_known(boxing["serial"], boxing["serial"][named])]
    return orders[are_known(orders["order"], events["order"]) | are_known(orders["serial"], events["serial"])], events


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
    """Served orders without a serial (one that leads nowhere is a fault of its own) that no event names."""
    frame = orders.frame
    served: NDArray[np.bool_] = frame["status"].isin(SERVED).to_numpy() & (frame["serial"] == "").to_numpy(dtype=bool)
    candidates = frame[served]
    unknown = candidates[~are_known(candidates["order"], boxing.frame["order"])]
    for record, status in zip(unknown.index.tolist(), unknown["status"], strict=True):
        yield CellFault(int(record), "status", str(status), Wrong("status-without-boxing", {"file": boxing.file}), "warn")
