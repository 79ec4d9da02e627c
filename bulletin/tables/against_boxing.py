"""Orders whose status boxing.csv contradicts: two tables that say two things make facts that customers take for lies.

They are warnings, since a status is often set a little later than a unit is boxed. Millions of rows agree, so only those that
could disagree are looked at: waiting orders that an event names, and orders without a serial that have left the bench.
"""

from __future__ import annotations

from collections.abc import Iterator

import pandas as pd

from bulletin.tables.categories import are_any_of
from bulletin.tables.faults import CellFault, Wrong
from bulletin.tables.integer_keys import NONE, among
from bulletin.tables.linked import Linked, linked
from bulletin.tables.shared_keys import SharedKeys
from bulletin.tables.standing import FOR_ORDERS, stand_boxed
from bulletin.tables.table import Table
from bulletin.tables.turns import SERVED


def against_boxing(orders: Table, boxing: Table, keys: SharedKeys) -> Iterator[CellFault]:
    """Waiting orders whose unit stands boxed, and served ones of which boxing.csv knows nothing."""
    if orders.has("status") and boxing.has("serial"):
        lines, events = linked(orders, keys), linked(boxing, keys)
        yield from _waiting_though_boxed(lines, events, boxing)
        yield from _served_without_boxing(lines, events, boxing.file)


def _waiting_though_boxed(lines: Linked, events: Linked, boxing: Table) -> Iterator[CellFault]:
    lines, events = _concerned(lines, events)
    if not len(lines.frame):
        return
    waiting = are_any_of(lines.frame["status"], ["waiting"])
    boxed = waiting & stand_boxed(lines, events, events.frame["day"].to_numpy().max())
    for record in lines.frame.index[boxed].tolist():
        event = _boxed_last(events.frame, lines.frame.loc[record])
        details = {"serial": str(events.frame.at[event, "serial"]), "line": str(boxing.lines([event])[0]), "file": boxing.file}
        yield CellFault(int(record), "status", "waiting", Wrong("status-against-boxing", details), "warn")


def _concerned(lines: Linked, events: Linked) -> tuple[Linked, Linked]:
    """All lines of the waiting orders that an event names by order or by serial, and all events of the units in question."""
    waiting = are_any_of(lines.frame["status"], ["waiting"])
    named = among(events.order, lines.order[waiting]) | among(events.serial, lines.serial[waiting])
    events = events.at(among(events.serial, events.serial[named]))
    return lines.at(among(lines.order, events.order) | among(lines.serial, events.serial)), events


def _boxed_last(events: pd.DataFrame, order: pd.Series) -> int:
    """The record of the last event that boxed the unit of an order; of several that may be its own, the last one's."""
    boxed = events[(events["event"] == "boxed").to_numpy()]
    if order["serial"]:
        own = (boxed["serial"] == order["serial"]).to_numpy()
    else:
        own = (boxed["order"] == order["order"]).to_numpy() & (boxed["model"] == str(order["model"])).to_numpy()
        own &= boxed["purpose"].isin(FOR_ORDERS).to_numpy()
    return int(boxed[own].sort_values("at", kind="stable").index[-1])


def _served_without_boxing(lines: Linked, events: Linked, file: str) -> Iterator[CellFault]:
    """Served orders without a serial that no event names, if this maker links the two tables at all.

    A serial that leads nowhere is a fault of its own.
    """
    if not ((events.order != NONE).any() or (lines.serial != NONE).any()):
        return
    served = are_any_of(lines.frame["status"], SERVED) & (lines.serial == NONE)
    unknown = lines.frame["status"][served & ~among(lines.order, events.order)]
    for record, status in unknown.items():
        yield CellFault(int(record), "status", str(status), Wrong("status-without-boxing", {"file": file}), "warn")
