"""The tables as they stood on an earlier day.

A row whose own date is later does not exist yet. A later second date reads as empty, and the state is read back from what is
left. Where no date contradicts it, a state stands as written. Of each part, the rows of its newest count are the stock.

What is known ahead is no later row: the plan, known stops, days of effect in the structure and of policies stand as they
are, and whoever uses them looks at their dates.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.integer_keys import Integers
from bulletin.tables.linked import linked
from bulletin.tables.standing import read_back_orders
from bulletin.tables.table import Table, Tables


def as_of(tables: Tables, day: date) -> Tables:
    """The same tables as of a day; each is worked out when it is first asked for, and kept."""
    return Tables(tables.read, tables.shared, tables.files, tables.left_out, day, lambda name: _table_as_of(tables, name, day))


def _table_as_of(tables: Tables, name: str, day: date) -> Table:
    table = tables.read[name]
    existing = _existing(table, day)
    frame = _read_back(tables, existing, day) if name == "orders" else table.frame.iloc[existing]
    for column, state in table.layout.later.items():
        frame = _without_later(frame, column, day, state)
    for column, emptied in table.layout.emptied.items():
        frame = frame.assign(**{emptied: frame[emptied].where(frame[column].notna() | ~_is_later(table, column, day, frame), "")})
    if name == "stock":
        frame = _newest_counts(frame)
    return replace(table, frame=frame)


def _read_back(tables: Tables, existing: Integers | slice, day: date) -> pd.DataFrame:
    boxing = tables.read.get("boxing")
    orders = linked(tables.read["orders"], tables.shared).at(existing)
    return read_back_orders(orders, linked(boxing, tables.shared) if boxing is not None else None, day)


def _existing(table: Table, day: date) -> Integers | slice:
    """Where the rows stand that exist on a day; a row without an own date always exists."""
    if not table.layout.own:
        return slice(None)
    there = ~_after(table.frame[table.layout.own], day)
    count = int(there.sum())
    # A table grows at its end: mostly the rows that are later are the last ones.
    return slice(count) if there[:count].all() else np.flatnonzero(there)


def _after(days: pd.Series, day: date) -> NDArray[np.bool_]:
    return np.asarray(days.to_numpy() > np.datetime64(day, "s"), dtype=bool)


def _is_later(table: Table, column: str, day: date, frame: pd.DataFrame) -> NDArray[np.bool_]:
    return _after(table.frame.loc[frame.index, column], day)


def _without_later(frame: pd.DataFrame, column: str, day: date, state: str) -> pd.DataFrame:
    """A second date that is later reads as empty; `state`, where there is one, is what the row is read back to."""
    later = _after(frame[column], day)
    if not later.any():
        return frame
    changed = {column: frame[column].mask(later)}
    if state:
        changed["state"] = frame["state"].mask(later, state)
    return frame.assign(**changed)


def _newest_counts(stock: pd.DataFrame) -> pd.DataFrame:
    newest = stock.groupby("part")["counted"].transform("max")
    return stock[(stock["counted"] == newest).to_numpy()]
