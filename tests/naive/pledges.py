"""What bulletins on record promised, one promise and one order line after the other, read with plain SQL and patterns."""

from __future__ import annotations

import json
import re
import sqlite3
from contextlib import closing
from datetime import date, datetime, timedelta
from typing import NamedTuple

from tests.naive.boxed import counted_on
from tests.naive.folder import Maker, Row, natural

WINDOWS = ("cleared", "chance_cleared_by", "order", "place", "new_order")


class Pledge(NamedTuple):
    """A promise of a bulletin: its name, the days of its making, of its facts and by which it is due, its facts by key."""

    name: str
    made: date
    as_of: date
    due: date
    text: str
    facts: dict[str, list[object]]


def pledges(maker: Maker) -> list[Pledge]:
    """The promises known on the day: of each bulletin's newest version, by number."""
    ledger = maker.folder / "issued.db"
    if not ledger.exists():
        return []
    with closing(sqlite3.connect(ledger)) as connection:
        newest: dict[str, tuple[int, date, date]] = {}
        for number, name, as_of, published in connection.execute(
            "SELECT number, name, as_of, published FROM bulletin ORDER BY 1"
        ):
            made = datetime.fromisoformat(published).astimezone(maker.zone).date()
            if date.fromisoformat(as_of) <= maker.as_of and made <= maker.as_of:
                newest[name] = (number, date.fromisoformat(as_of), made)
        found = []
        for number, day, made in sorted(newest.values()):
            values = dict(connection.execute("SELECT key, value FROM claim WHERE number = ?", (number,)))
            rows = connection.execute("SELECT promise, text, due, condition FROM promise WHERE number = ?", (number,))
            for name, text, due, condition in sorted(rows, key=lambda row: natural(row[0])):
                facts = {key: json.loads(values[key]) for key in keys_of(condition)}
                found.append(Pledge(name, made, day, date.fromisoformat(due), text, facts))
    return found


def keys_of(condition: str) -> list[str]:
    """The keys of the facts that a condition names: its quoted texts without their signs."""
    keys = []
    for part in condition.split(" and "):
        path = part.split(" | ")[0].split(" > ")[0].strip()
        keys.append(re.sub(r"""[\[(]"([\w \-]+)"[\])]""", r".\1", path))
    return keys


def outcome(maker: Maker, pledge: Pledge) -> tuple[date | None, bool] | None:
    """The day on which all of it had come, and whether nobody is left that it was made to; None where nothing decides it."""
    outcomes = [one(maker, pledge, key, value) for key, value in pledge.facts.items()]
    if None in outcomes:
        return None
    asked = [done for done, void in (each for each in outcomes if each) if not void]
    return (None if None in asked else max((day for day in asked if day), default=None)), not asked


def one(maker: Maker, pledge: Pledge, key: str, value: list[object]) -> tuple[date | None, bool] | None:
    """The same for one fact of the forecast."""
    family, *rest = key.split(".")
    model = rest[1] if rest[0] == "of" else ""
    name, *arguments = rest[2:] if model else rest
    if family != "forecast":
        return None
    if name in ("month", "next_month", "chance_best_month"):
        return made(maker, pledge, (model, name), value), False
    return served(maker, pledge, (model, name, *arguments))


def made(maker: Maker, pledge: Pledge, asked: tuple[str, str], value: list[object]) -> date | None:
    """The day on which the units of a month had been made, counted from its first day."""
    model, name = asked
    first = pledge.as_of.replace(day=1)
    days = sorted(day for unit in maker.units.values() if model in ("", unit.model) and (day := counted_on(maker, unit)))
    if name == "chance_best_month":
        months = [(day.year, day.month) for day in days if day < first]
        wanted = max(months.count(month) for month in months) + 1
    else:
        wanted = int(str(value[1]))
    if name == "next_month":
        first = (first + timedelta(31)).replace(day=1)
    since = [day for day in days if day >= first]
    if wanted < 1:
        return pledge.as_of
    return since[wanted - 1] if len(since) >= wanted else None


def served(maker: Maker, pledge: Pledge, asked: tuple[str, ...]) -> tuple[date | None, bool]:
    """The day on which the last line of those asked for was first boxed."""
    model, name, *arguments = asked
    rows = [row for row in maker.order_rows if model in ("", row["model"])]
    if name == "new_order":
        later = [row for row in rows if row["placed"] > str(pledge.as_of) and (served_on(maker, row) or not is_out(maker, row))]
        if not later and maker.as_of <= pledge.due:
            return None, False
        rows = at_place(later, 1)
    else:
        rows = [row for row in rows if stood(maker, row, pledge.as_of)]
        if name == "order":
            rows = [row for row in rows if row["order"] == arguments[0]]
        elif name == "place":
            rows = at_place(rows, int(arguments[0]))
    days = [served_on(maker, row) for row in rows if served_on(maker, row) or not is_out(maker, row)]
    return (None if None in days else max((day for day in days if day), default=None)), not days


def at_place(rows: list[Row], place: int) -> list[Row]:
    """The row at a place in the queue of each model."""
    found = []
    for model in sorted({row["model"] for row in rows}):
        queue = sorted((row for row in rows if row["model"] == model), key=turn)
        found += queue[place - 1 : place]
    return found


def turn(row: Row) -> tuple[int, str, list[tuple[int, int, str]], bool, list[tuple[int, int, str]]]:
    """The order in which rows are served: by priority, then placed, then order and line, lines that have a unit first."""
    out = row["written"] in ("boxed", "shipped", "delivered")
    return -int(row.get("priority") or 0), row["placed"], natural(row["order"]), not out, natural(row.get("line", ""))


def served_on(maker: Maker, row: Row) -> date | None:
    """The day its unit was first boxed; of a line that is out without one, the day it left, else that of its placing."""
    unit = maker.units.get(row["unit"])
    day = counted_on(maker, unit) if unit else None
    if day or row["status"] not in ("boxed", "shipped", "delivered"):
        return day
    return date.fromisoformat(row.get("closed") or row["placed"])


def stood(maker: Maker, row: Row, on: date) -> bool:
    """Whether a line stood in a queue at the end of a day."""
    day = served_on(maker, row)
    return row["placed"] <= str(on) and (day is None or day > on) and not has_gone(maker, row, on) and not is_held(maker, row, on)


def is_out(maker: Maker, row: Row) -> bool:
    """Whether a line stands in no queue any more."""
    return has_gone(maker, row, maker.as_of) or is_held(maker, row, maker.as_of)


def has_gone(maker: Maker, row: Row, on: date) -> bool:
    """Whether a line was cancelled, or its money asked back, by a day."""
    cancelled = row["status"] == "cancelled" and (row.get("closed") or row["placed"]) <= str(on)
    return cancelled or any(each["order"] == row["order"] and each["asked"] <= str(on) for each in maker.rows("refunds") or [])


def is_held(maker: Maker, row: Row, on: date) -> bool:
    """Whether an order was on hold that day."""
    holds = [each for each in maker.rows("holds") or [] if each["order"] == row["order"] and each["from"] <= str(on)]
    return any(not each.get("until") or each["until"] >= str(on) for each in holds)
