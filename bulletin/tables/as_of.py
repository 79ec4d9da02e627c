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

from bulletin.tables.standing import read_back_orders
from bulletin.tables.table import Table, Tables


def as_of(tables: Tables, day: date) -> Tables:
    """The same tables as of a day; each is worked out when it is first asked for, and kept."""
    return Tables(tables.read, tables.files, tables.left_out, day, lambda name: _table_as_of(tables, name, day))


def _table_as_of(tables: Tables, name: str, day: date) -> Table:
    table = tables.read[name]
    frame = _existing(table, day)
    if name == "orders":
        frame = read_back_orders(frame, tables.read.get("boxing"), day)
    for column, state in table.layout.later.items():
        frame = _without_later(frame, column, day, state)
    for column, emptied in table.layout.emptied.items():
        frame = frame.assign(**{emptied: frame[emptied].where(frame[column].notna() | ~_is_later(table, column, day, frame), "")})
    if name == "stock":
        frame = _newest_counts(frame)
    return replace(table, frame=frame)


def _existing(table: Table, day: date) -> pd.DataFrame:
    """The rows that exist on a day; a row without an own date always exists."""
    if not table.layout.own:
        return table.frame
    later = _after(table.frame[table.layout.own], day)
    return table.frame[~later] if later.any() else table.frame


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
