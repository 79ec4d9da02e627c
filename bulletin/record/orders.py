"""`issued/N.db`: the orders as bulletin N knew them, written once and never changed.

Written under another name, flushed, then renamed: whoever finds `N.db` finds all of it. It counts only once the ledger names it.
"""

from __future__ import annotations

import os
import re
import secrets
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing
from pathlib import Path

from bulletin.record import digests
from bulletin.record.entry import OrderState
from bulletin.record.schema import ORDERS

APPLICATION = 0x6275_6C6F
"""SQLite's application id of these files."""
UNFINISHED = ".part"
OURS = re.compile(r"(?P<number>[0-9]+)\.db(?P<unfinished>\.part(-journal)?)?")


def write_orders(path: Path, orders: Iterable[OrderState]) -> str:
    """Write a new file of order states, flushed to the disk; return the digest that the ledger names it by."""
    path.parent.mkdir(exist_ok=True)
    unfinished = path.with_name(path.name + UNFINISHED)
    unfinished.unlink(missing_ok=True)
    rows = [salted_row(state) for state in sorted(orders, key=lambda state: (state.order, state.line))]
    with closing(sqlite3.connect(unfinished)) as file, file:
        file.execute("PRAGMA synchronous = FULL")
        file.execute(f"PRAGMA application_id = {APPLICATION}")
        file.executescript(ORDERS)
        file.executemany("INSERT INTO state VALUES (?, ?, ?, ?, ?)", rows)
    flush(unfinished)
    unfinished.replace(path)
    flush(path.parent)
    return digests.of_digests(row[-1] for row in rows)


def salted_row(state: OrderState) -> tuple[str, str, str, str, str]:
    """A row with a salt of its own and the digest of both."""
    salt = secrets.token_hex(16)
    return state.order, state.line, state.state, salt, row_digest(state.order, state.line, salt, state.state)


def row_digest(order: str, line: str, salt: str, state: str) -> str:
    """What stays of a row when a person's state is erased."""
    return digests.salted(salt, f"{order}\n{line}\n{state}")


def read_orders(path: Path) -> Iterator[tuple[str, str, str | None, str | None, str]]:
    """All rows of a file that is named in the ledger, by order and line."""
    with closing(read_only(path)) as file:
        yield from file.execute('SELECT "order", line, state, salt, digest FROM state ORDER BY "order", line')


def read_only(path: Path) -> sqlite3.Connection:
    """A file that is named in the ledger and so never changes. Raises sqlite3.OperationalError where it is missing."""
    return sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro&immutable=1", uri=True)


def sweep(folder: Path, named: set[int]) -> None:
    """Remove what a crash left: unfinished files, and finished ones that the ledger does not name. Others stay."""
    for path in sorted(folder.glob("*")):
        ours = OURS.fullmatch(path.name)
        if ours and (ours["unfinished"] or int(ours["number"]) not in named):
            path.unlink()


def flush(path: Path) -> None:
    """Make the disk hold what was written to a file or a folder."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
