"""The windows that bulletins on record told, order by order: what a backtest holds against what came."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from pathlib import Path

from bulletin.model import Issued, Problem, ToldWindow, Window, WindowsTold
from bulletin.record.ledger import orders_folder, unreadable
from bulletin.record.orders import read_only

WINDOWED = """SELECT "order", line, state FROM state WHERE state LIKE '%"window_last": "%' ORDER BY "order", line"""


def read_told_windows(ledger: Path, issued: tuple[Issued, ...], until: date) -> tuple[tuple[WindowsTold, ...], list[Problem]]:
    """The windows that were over by a day, by the day they were told of; of several bulletins of one day those of the newest.

    What was erased of a person is not there.
    """
    newest = {one.as_of: one.number for one in issued if one.as_of < until}
    try:
        told = [WindowsTold(as_of, tuple(_windows(ledger, newest[as_of], until))) for as_of in sorted(newest)]
        return tuple(one for one in told if one.windows), []
    except (sqlite3.Error, ValueError, LookupError) as fault:
        return (), [unreadable(ledger, str(fault))]


def _windows(ledger: Path, number: int, until: date) -> Iterator[ToldWindow]:
    with closing(read_only(orders_folder(ledger) / f"{number}.db")) as file:
        for order, line, text in file.execute(WINDOWED):
            state = json.loads(text)
            window = Window(*(date.fromisoformat(state[f"window_{end}"]) for end in ("first", "last")))
            if window.last <= until:
                yield ToldWindow(order, line, int(state["place"]), window)
