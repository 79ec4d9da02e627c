"""What bulletins on record promised, with the facts that each promise was made of.

A corrected bulletin promises what its correction does. A promise counts from the day on which its bulletin went out, as a row of
promises.csv does from the day on which it was made.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from datetime import date, datetime, tzinfo
from itertools import groupby
from pathlib import Path

from bulletin.draft.expressions import parse_key, references
from bulletin.draft.parsing import parse, parse_printed
from bulletin.model import Basis, Issued, Problem, Promised, Value
from bulletin.model import Path as FactPath
from bulletin.record.entry import Pledge
from bulletin.record.ledger import is_empty, opened, unreadable
from bulletin.values import thaw


def read_promises(
    ledger: Path, issued: tuple[Issued, ...], day: date, zone: tzinfo
) -> tuple[tuple[Promised, ...], list[Problem]]:
    """The promises that count on a day, by the number of the bulletin and their own; days of publishing are those of a zone."""
    newest = {one.name: one for one in issued if max(one.as_of, published_on(one, zone)) <= day}
    if not newest:
        return (), []
    try:
        with opened(ledger) as connection:
            bulletins = sorted(newest.values(), key=lambda one: one.number)
            return tuple(promised for one in bulletins for promised in _of(connection, one, published_on(one, zone))), []
    except (sqlite3.Error, ValueError, LookupError) as fault:
        return (), [unreadable(ledger, str(fault))]


def read_pledges(ledger: Path) -> tuple[dict[int, tuple[Pledge, ...]], list[Problem]]:
    """What each bulletin on record promised, by its number; corrected ones too."""
    if not ledger.exists():
        return {}, []
    try:
        with opened(ledger) as connection:
            if is_empty(connection):
                return {}, []
            found = connection.execute("SELECT number, promise, text, due, basis, condition FROM promise").fetchall()
        pledges = [(number, Pledge(name, text, date.fromisoformat(due), *rest)) for number, name, text, due, *rest in found]
        pledges.sort(key=lambda one: (one[0], place_of(one[1].promise)))
        return {number: tuple(pledge for _, pledge in own) for number, own in groupby(pledges, lambda one: one[0])}, []
    except (sqlite3.Error, ValueError) as fault:
        return {}, [unreadable(ledger, str(fault))]


def place_of(promise: str) -> int:
    """The place of a promise in its draft: the N of `NAME.N`."""
    return int(promise.rsplit(".", 1)[1])


def published_on(issued: Issued, zone: tzinfo) -> date:
    """The day on which a bulletin went out, in a zone."""
    return datetime.fromisoformat(issued.published).astimezone(zone).date()


def _of(connection: sqlite3.Connection, issued: Issued, made: date) -> list[Promised]:
    """The promises of one bulletin, in the order of its draft."""
    found = connection.execute(
        "SELECT promise, text, due, basis, condition FROM promise WHERE number = ?", (issued.number,)
    ).fetchall()
    told = dict(connection.execute("SELECT key, value FROM claim WHERE number = ?", (issued.number,))) if found else {}
    values = {_names(parse_key(key)): value for key, value in told.items()}
    promises = [
        Promised(promise, made, issued.as_of, text, date.fromisoformat(due), Basis(basis), _said(condition, values))
        for promise, text, due, basis, condition in found
    ]
    return sorted(promises, key=lambda promised: place_of(promised.promise))


def _said(condition: str, values: Mapping[tuple[str, ...], str]) -> tuple[tuple[FactPath, Value], ...]:
    """The facts that a condition, or a printed fact with its filters, names, each with the value that was told."""
    expression, faults = parse(condition)
    if expression is None or faults:
        expression, _, _ = parse_printed(condition)
    paths = dict.fromkeys(node.path for node in references(expression)) if expression is not None else {}
    return tuple((path, thaw(values[_names(path)])) for path in paths if _names(path) in values)


def _names(path: FactPath) -> tuple[str, ...]:
    """A path without how its steps are written, which a key does not tell."""
    return tuple(step.text for step in path)
