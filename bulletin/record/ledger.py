"""`issued.db`: the ledger of what was issued. A bulletin is added whole or not at all, and never changed.

Adding holds the ledger's write lock from choosing the number to the commit, so two that issue at once can't take the same one.
The orders' file is complete on the disk before the row that names it is; a crash before the commit leaves a file without a row,
which the next one sweeps away.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from bulletin.model import Place, Problem
from bulletin.record import digests
from bulletin.record.entry import Entry, bulletin_digest
from bulletin.record.orders import sweep, write_orders
from bulletin.record.schema import LEDGER

APPLICATION = 0x6275_6C6C
"""SQLite's application id of our ledgers, so that another program's file is never taken for one."""
FORM = 1
COLUMNS = {
    "source": ("file", "salt", "digest"),
    "fact": ("key", "spelling", "value", "unit", "basis", "decimals", "rounding", "at_least", "how", "rows"),
    "draft": ("locale", "file", "readers", "digest"),
    "claim": ("locale", "key", "value"),
    "document": ("path", "media_type", "digest"),
    "promise": ("promise", "text", "due", "basis", "condition"),
}
"""The columns of each table that hangs on a bulletin, its number apart, as `Entry.rows` gives them."""
HEAD = ("number", "name", "as_of", "published", "corrects", "orders_digest", "previous")


def orders_folder(ledger: Path) -> Path:
    """Where the orders' files of a ledger stand: `issued/` beside `issued.db`, `NAME.orders/` beside any other."""
    return ledger.with_name("issued" if ledger.name == "issued.db" else f"{ledger.name}.orders")


@contextmanager
def opened(ledger: Path) -> Iterator[sqlite3.Connection]:
    """The ledger with transactions by hand; raises sqlite3.DatabaseError for a file that is none of ours."""
    with closing(sqlite3.connect(ledger, isolation_level=None, timeout=30)) as connection:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA synchronous = FULL")
        if not is_empty(connection):
            known, form = (connection.execute(f"PRAGMA {name}").fetchone()[0] for name in ("application_id", "user_version"))
            if known != APPLICATION:
                raise sqlite3.DatabaseError("the file is a database of another program")
            if form != FORM:
                raise sqlite3.DatabaseError(f"it has form {form}, and this version of the program reads form {FORM}")
        yield connection


def is_empty(connection: sqlite3.Connection) -> bool:
    """Whether nothing was ever added: a ledger that was made and then not written."""
    return not connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0]


def add(ledger: Path, entry: Entry) -> tuple[int | None, list[Problem]]:
    """Put a bulletin on record; return its number, or None and why not. The ledger is made if it is not there."""
    try:
        with opened(ledger) as connection:
            connection.execute("BEGIN IMMEDIATE")
            create(connection)
            refused = refuse(connection, ledger, entry)
            if refused:
                return None, refused
            number = write(connection, ledger, entry)
            connection.execute("COMMIT")
            return number, []
    except (sqlite3.Error, OSError) as fault:
        return None, [unreadable(ledger, str(fault))]


def create(connection: sqlite3.Connection) -> None:
    """Make the tables of a new ledger, within the transaction."""
    if not is_empty(connection):
        return
    connection.execute(f"PRAGMA application_id = {APPLICATION}")
    connection.execute(f"PRAGMA user_version = {FORM}")
    for statement in LEDGER.split(";\n"):
        if statement.strip():
            connection.execute(statement)


def refuse(connection: sqlite3.Connection, ledger: Path, entry: Entry) -> list[Problem]:
    """Why a bulletin may not be added: its name is taken and it corrects nothing, or it corrects another than its own newest."""
    taken = connection.execute("SELECT max(number) FROM bulletin WHERE name = ?", (entry.name,)).fetchone()[0]
    place = Place(str(ledger))
    if entry.corrects is None and taken is not None:
        details = {"name": entry.name, "number": str(taken)}
        return [Problem("already-issued", "error", place, entry.name, details, offer=f"--corrects {taken}")]
    if entry.corrects is not None and entry.corrects != taken:
        details = {"name": entry.name, "number": str(entry.corrects)}
        offer = "" if taken is None else f"--corrects {taken}"
        return [Problem("nothing-to-correct", "error", place, str(entry.corrects), details, offer=offer)]
    return []


def write(connection: sqlite3.Connection, ledger: Path, entry: Entry) -> int:
    """Write the orders' file and every row; return the number. The caller commits."""
    named = {row[0] for row in connection.execute("SELECT number FROM bulletin")}
    number = max(named, default=0) + 1
    folder = orders_folder(ledger)
    sweep(folder, named)
    before = connection.execute("SELECT digest FROM bulletin ORDER BY number DESC LIMIT 1").fetchone()
    head: dict[str, Any] = {
        "number": number,
        "name": entry.name,
        "as_of": entry.as_of.isoformat(),
        "published": entry.published.isoformat(),
        "corrects": entry.corrects,
        "orders_digest": write_orders(folder / f"{number}.db", entry.orders),
        "previous": before[0] if before else digests.FIRST,
    }
    rows = entry.rows()
    insert(connection, "bulletin", (*HEAD, "digest"), [(*head.values(), bulletin_digest(head, rows))])
    for digest, content in entry.contents().items():
        connection.execute("INSERT OR IGNORE INTO content VALUES (?, ?)", (digest, content))
    for table, columns in COLUMNS.items():
        insert(connection, table, ("number", *columns), [(number, *row) for row in rows[table]])
    return number


def insert(connection: sqlite3.Connection, table: str, columns: tuple[str, ...], rows: list[tuple[Any, ...]]) -> None:
    """Add rows to a table of the schema; names come from this module alone."""
    places = ", ".join("?" * len(columns))
    connection.executemany(f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({places})", rows)


def unreadable(ledger: Path, why: str) -> Problem:
    """The problem of a record that can't be opened, read or written."""
    return Problem("record-unreadable", "error", Place(str(ledger)), "", {"why": why})
