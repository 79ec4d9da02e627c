"""Orders and serials as integers, the same in every table that speaks of them, as the reader has worked them out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from bulletin.facts.counting.keys import Integers

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

Keys = Mapping[str, Integers]
"""By table: for each of its rows a key from 0; -1 where the row names none."""


def order_keys(day: Day) -> Keys:
    """Orders in the tables that are counted order by order."""
    return _keys(day, "order", ("orders", "boxing", "told", "credits", "holds", "refunds"))


def serial_keys(day: Day) -> Keys:
    """Serials of units, of the orders that got them and of the defects that they have."""
    return _keys(day, "serial", ("boxing", "orders", "affected"))


def order_count(day: Day) -> int:
    """The length of an array that is indexed by the keys of orders."""
    return _length(day.once(order_keys))


def serial_count(day: Day) -> int:
    """The length of an array that is indexed by the keys of serials."""
    return _length(day.once(serial_keys))


def _keys(day: Day, column: str, tables: tuple[str, ...]) -> Keys:
    return {name: day.tables.joined(name, column) for name in tables if day.has(name)}


def _length(keys: Keys) -> int:
    return max((int(column.max(initial=-1)) for column in keys.values()), default=-1) + 1
