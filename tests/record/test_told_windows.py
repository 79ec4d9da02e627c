"""The windows that bulletins on record told."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path

from bulletin.model import ToldWindow, Window, WindowsTold
from bulletin.record.entry import Entry, OrderState
from bulletin.record.history import read_record
from bulletin.record.ledger import add
from bulletin.record.told_windows import read_told_windows
from tests.record.builders import entry

MARCH = date(2026, 3, 27)
TOLD = '{"place": "7", "status": "waiting", "window_first": "2026-04-06", "window_last": "2026-04-17"}'
BEFORE = '{"boxed": NaN, "place": "8", "window_first": "2026-04-06", "window_last": "2026-04-20"}'
"""As records had it: a missing text as a bare NaN."""
OUTSIDE = '{"place": "0", "window_first": NaN, "window_last": NaN}'


def with_orders(name: str, as_of: date, *states: str) -> Entry:
    return replace(entry(name, as_of), orders=tuple(OrderState(f"F-{at}", "1", state) for at, state in enumerate(states)))


def read(path: Path, until: date) -> tuple[WindowsTold, ...]:
    found, problems = read_told_windows(path, read_record(path)[0], until)
    assert problems == []
    return found


def test_windows_come_back_as_they_were_told(tmp_path: Path) -> None:
    """Place and window of each order that had one, once it is over; orders outside the queue have none."""
    path = tmp_path / "issued.db"
    add(path, with_orders("week-13", MARCH, TOLD, BEFORE, OUTSIDE, '{"status": "waiting"}'))
    first = ToldWindow("F-0", "1", 7, Window(date(2026, 4, 6), date(2026, 4, 17)))
    second = ToldWindow("F-1", "1", 8, Window(date(2026, 4, 6), date(2026, 4, 20)))

    assert (WindowsTold(MARCH, (first,)),) == read(path, date(2026, 4, 17))
    assert (WindowsTold(MARCH, (first, second)),) == read(path, date(2026, 4, 20))
    assert () == read(path, date(2026, 4, 16))


def test_one_bulletin_a_day_tells(tmp_path: Path) -> None:
    """Several bulletins of one day told the same windows: those of the newest count."""
    path = tmp_path / "issued.db"
    add(path, with_orders("week-13", MARCH, TOLD, TOLD))
    add(path, with_orders("to-owners", MARCH, TOLD))
    add(path, with_orders("week-12", date(2026, 3, 20), TOLD))

    assert [(date(2026, 3, 20), 1), (MARCH, 1)] == [(one.as_of, len(one.windows)) for one in read(path, date(2026, 5, 1))]


def test_who_was_erased_is_not_there(tmp_path: Path) -> None:
    """An emptied state tells no window."""
    path = tmp_path / "issued.db"
    add(path, with_orders("week-13", MARCH, TOLD))
    with closing(sqlite3.connect(tmp_path / "issued" / "1.db")) as connection, connection:
        connection.execute("UPDATE state SET state = NULL, salt = NULL")

    assert () == read(path, date(2026, 5, 1))


def test_a_file_that_is_gone_is_told(tmp_path: Path) -> None:
    """A bulletin whose file of orders is missing is a problem of the record."""
    path = tmp_path / "issued.db"
    add(path, with_orders("week-13", MARCH, TOLD))
    (tmp_path / "issued" / "1.db").unlink()

    assert ["record-unreadable"] == [one.rule for one in read_told_windows(path, read_record(path)[0], date(2026, 5, 1))[1]]
