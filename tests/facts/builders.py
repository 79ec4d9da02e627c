"""Small makers for tests of facts: rows as dicts, written to a folder and read by the real reader, so that nothing is faked.

day = day_of("2026-03-27", orders=[order("A-1")], boxing=[boxed("H8-1", "2026-03-26T09:00", order="A-1")])
assert value(day, "boxed.week") == 1
"""

from __future__ import annotations

import csv
import shutil
import tempfile
import weakref
from datetime import date
from pathlib import Path
from typing import Any

from bulletin.draft.expressions import parse_key
from bulletin.facts.book import facts_of
from bulletin.facts.scopes.day import Day
from bulletin.model import Absent, Fact, Promised, Value
from bulletin.settings import read_settings
from bulletin.tables.as_of import as_of as tables_as_of
from bulletin.tables.reading import read_tables

Row = dict[str, Any]

CREDIT = """
[credit]
months_from = "placed"
until = "boxed"
tiers = [ { from_month = 1, amount = { EUR = "10.00", JPY = "1500", KWD = "3.250" } },
          { from_month = 4, amount = { EUR = "15.00", JPY = "2000", KWD = "4.500" } } ]
cap = { EUR = "70.00", JPY = "9000", KWD = "20.000" }
"""
"""Waiting credit as a maker might have it; amounts invented."""


def order(number: str, placed: str = "2026-01-05", **columns: Any) -> Row:
    """A row of orders.csv: a waiting Heron 8 from Austria unless said otherwise."""
    usual = {"model": "Heron 8", "market": "AT", "locale": "de", "currency": "EUR", "status": "waiting"}
    return {"order": number, "placed": placed, **usual, **columns}


def boxed(serial: str, at: str, **columns: Any) -> Row:
    """A row of boxing.csv: a Heron 8 that was boxed; a day alone means nine o'clock of the maker's."""
    return {"serial": serial, "model": "Heron 8", "event": "boxed", "at": at if "T" in at else f"{at}T09:00", **columns}


def reopened(serial: str, at: str, **columns: Any) -> Row:
    """A row of boxing.csv: a Heron 8 that was opened again."""
    return boxed(serial, at, event="reopened", **columns)


def folder_of(settings: str = "", maker: str = "", **tables: list[Row]) -> Path:
    """A data folder with these tables; orders and boxing are there even where empty. `maker` are more lines of [maker]."""
    folder = Path(tempfile.mkdtemp(prefix="maker-"))
    zone = "" if "time_zone" in maker else 'time_zone = "Europe/Vienna"\n'
    head = f'[maker]\nname = "Fennmoor Looms"\ncontact = "help@fennmoor.example"\n{zone}{maker}\n'
    (folder / "bulletin.toml").write_text(head + settings, encoding="utf-8")
    empty: dict[str, list[Row]] = {"orders": [], "boxing": []}
    for name, rows in {**empty, **tables}.items():
        write_table(folder / f"{name}.csv", rows or [], REQUIRED.get(name, []))
    return folder


def write_table(path: Path, rows: list[Row], columns: list[str]) -> None:
    """Write rows as CSV; the header is `columns` and whatever else the rows have, in the order in which it appears."""
    header = list(dict.fromkeys([*columns, *(column for row in rows for column in row)]))
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, header, restval="")
        writer.writeheader()
        writer.writerows(rows)


REQUIRED = {
    "orders": ["order", "placed", "model", "market", "locale", "currency", "status"],
    "boxing": ["serial", "model", "event", "at"],
    "told": ["order", "told", "kind"],
    "parts": ["part", "name"],
    "structure": ["parent", "component", "quantity"],
    "stock": ["part", "state", "quantity", "counted"],
    "supply": ["purchase", "part", "quantity", "due", "state"],
    "reserved": ["part", "use", "quantity"],
    "plan": ["date", "model", "units"],
    "stops": ["from", "cause"],
    "defects": ["defect", "title", "severity", "opened", "state"],
    "affected": ["defect", "serial"],
    "credits": ["order", "date", "kind", "amount", "currency"],
    "holds": ["order", "reason", "from"],
    "refunds": ["order", "asked", "amount", "currency"],
    "inspections": ["inspection", "title", "checked", "failed", "at"],
    "changes": ["change", "title", "model", "state"],
    "promises": ["promise", "made", "text", "due", "state"],
    "policies": ["policy", "title", "state"],
    "attested": ["statement", "text", "by", "on"],
}
"""The columns that a file must have even where it has no row."""


def day_of(
    as_of: str, settings: str = "", maker: str = "", promised: tuple[Promised, ...] = (), **tables: list[Row]
) -> Day:
    """A maker's tables as they stood on a day; raises where the reader finds an error in them. Its folder goes with it."""
    folder = folder_of(settings, maker, **tables)
    read, problems = read_settings(folder)
    if read is None:
        raise ValueError(problems)
    held, found = read_tables(folder, read)
    errors = [problem for problem in [*problems, *found] if problem.level == "error"]
    if errors:
        raise ValueError(errors)
    day = Day(date.fromisoformat(as_of), tables_as_of(held, date.fromisoformat(as_of)), read, promised=promised)
    weakref.finalize(day, shutil.rmtree, folder, ignore_errors=True)
    return day


def find(day: Day, key: str) -> Fact | Absent:
    """What the book says under a key as on the command line."""
    return facts_of(day).find(parse_key(key))


def value(day: Day, key: str) -> Value:
    """The value of a fact that must be there."""
    found = find(day, key)
    if isinstance(found, Absent):
        raise LookupError(f"{found.key}: {found.why}")
    return found.value


def why(day: Day, key: str) -> str:
    """Why a fact is absent, which it must be."""
    found = find(day, key)
    if isinstance(found, Fact):
        raise LookupError(f"{found.key} is {found.value}")
    return found.why
