"""Reading the record: which bulletins there are, the facts of one, and whether everything still is as it was written."""

from __future__ import annotations

import json
import sqlite3
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from bulletin.model import Basis, Fact, Issued, Place, Problem
from bulletin.record import digests
from bulletin.record.entry import bulletin_digest
from bulletin.record.ledger import COLUMNS, HEAD, is_empty, opened, orders_folder, unreadable
from bulletin.record.orders import read_orders, row_digest
from bulletin.values import thaw


@dataclass(frozen=True, slots=True)
class RecordedRows:
    """The rows behind a recorded fact: their number was kept, the rows themselves stand in the tables of that day."""

    counted: dict[str, int]

    def counts(self) -> dict[str, int]:
        """How many rows of which file there were."""
        return dict(self.counted)

    def lines(self) -> dict[str, list[int]]:
        """Not kept."""
        return {}

    def cells(self) -> dict[str, list[dict[str, str]]]:
        """Not kept."""
        return {}


def read_record(ledger: Path) -> tuple[tuple[Issued, ...], list[Problem]]:
    """All bulletins on record by number; none where nothing was issued yet."""
    if not ledger.exists():
        return (), lost(ledger)
    try:
        with opened(ledger) as connection:
            if is_empty(connection):
                return (), []
            found = connection.execute(
                "SELECT number, name, as_of, published, digest, corrects FROM bulletin ORDER BY number"
            ).fetchall()
        return tuple(Issued(row[0], row[1], date.fromisoformat(row[2]), *row[3:]) for row in found), []
    except (sqlite3.Error, ValueError) as fault:
        return (), [unreadable(ledger, str(fault))]


def lost(ledger: Path) -> list[Problem]:
    """The problem of a ledger that is gone while the orders' files of its bulletins are still there."""
    left = sorted(orders_folder(ledger).glob("*.db"))
    details = {"folder": str(orders_folder(ledger)), "count": str(len(left))}
    return [Problem("record-lost", "error", Place(str(ledger)), ledger.name, details)] * bool(left)


def last_before(issued: tuple[Issued, ...], day: date) -> Issued | None:
    """The newest bulletin with an earlier as-of date, its latest correction if it has one."""
    earlier = [bulletin for bulletin in issued if bulletin.as_of < day]
    return max(earlier, key=lambda bulletin: (bulletin.as_of, bulletin.number), default=None)


def read_facts(ledger: Path, number: int) -> tuple[dict[str, Fact], list[Problem]]:
    """The facts of one bulletin by key."""
    try:
        with opened(ledger) as connection:
            row = connection.execute("SELECT as_of FROM bulletin WHERE number = ?", (number,)).fetchone()
            found = connection.execute(
                f"SELECT {', '.join(COLUMNS['fact'])} FROM fact WHERE number = ? ORDER BY key", (number,)
            ).fetchall()
        return {cells[0]: thawed_fact(cells, date.fromisoformat(row[0])) for cells in found}, []
    except (sqlite3.Error, ValueError, LookupError, TypeError) as fault:
        return {}, [unreadable(ledger, str(fault))]


def thawed_fact(cells: tuple[Any, ...], as_of: date) -> Fact:
    """A fact as `entry.fact_row` wrote it."""
    key, spelling, value, unit, basis, decimals, rounding, at_least, how, rows = cells
    counted = RecordedRows(json.loads(rows))
    return Fact(key, spelling, thaw(value), unit, Basis(basis), as_of, how, counted, decimals, rounding, bool(at_least))


def verify(ledger: Path) -> list[Problem]:
    """Everything on record that is not as it was written: the chain, each bulletin's rows, contents, order files."""
    if not ledger.exists():
        return []
    try:
        with opened(ledger) as connection:
            if is_empty(connection):
                return []
            return [*chain_faults(connection, ledger), *content_faults(connection, ledger)]
    except sqlite3.Error as fault:
        return [unreadable(ledger, str(fault))]


def chain_faults(connection: sqlite3.Connection, ledger: Path) -> list[Problem]:
    """Bulletins whose digest, chain or order file no longer holds."""
    faults: list[Problem] = []
    expected = digests.FIRST
    for row in connection.execute(f"SELECT {', '.join(HEAD)}, digest FROM bulletin ORDER BY number").fetchall():
        head, digest = dict(zip(HEAD, row, strict=False)), row[-1]
        rows = {table: rows_of(connection, table, head["number"]) for table in COLUMNS}
        if head["previous"] != expected:
            faults.append(altered(ledger, head["number"], "the bulletin before it"))
        if bulletin_digest(head, rows) != digest:
            faults.append(altered(ledger, head["number"], "its own rows"))
        if not orders_hold(orders_folder(ledger) / f"{head['number']}.db", head["orders_digest"]):
            faults.append(altered(ledger, head["number"], f"issued/{head['number']}.db"))
        expected = digest
    return faults


def rows_of(connection: sqlite3.Connection, table: str, number: int) -> list[tuple[Any, ...]]:
    """The rows that hang on a bulletin in one table of the schema."""
    return connection.execute(f"SELECT {', '.join(COLUMNS[table])} FROM {table} WHERE number = ?", (number,)).fetchall()


def content_faults(connection: sqlite3.Connection, ledger: Path) -> list[Problem]:
    """Drafts and documents whose bytes are gone or are others than their digest says."""
    named = "SELECT number, digest FROM draft UNION SELECT number, digest FROM document ORDER BY 1, 2"
    faults = []
    for number, digest in connection.execute(named).fetchall():
        content = connection.execute("SELECT bytes FROM content WHERE digest = ?", (digest,)).fetchone()
        if content is None or digests.of_bytes(content[0]) != digest:
            faults.append(altered(ledger, number, f"the text with the digest {digest[:12]}"))
    return faults


def orders_hold(path: Path, digest: str) -> bool:
    """Whether an orders' file is there and every row is as written; an erased one is held by its digest alone."""
    if not path.is_file():
        return False
    try:
        rows = list(read_orders(path))
    except sqlite3.Error:
        return False
    whole = all(
        state is None or row_digest(order, line, salt or "", state) == kept for order, line, state, salt, kept in rows
    )
    return whole and digests.of_digests(row[-1] for row in rows) == digest


def altered(ledger: Path, number: int, what: str) -> Problem:
    """The problem of a bulletin that is not what was written."""
    return Problem("record-altered", "error", Place(str(ledger)), str(number), {"number": str(number), "what": what})
