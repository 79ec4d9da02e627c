"""Orders as integers, the same in every table that speaks of orders: joined once for all families."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.facts.keys import Integers, codes, texts

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bulletin.facts.day import Day

WITH_ORDERS = ("orders", "boxing", "told", "credits", "holds", "refunds")


def order_keys(day: Day) -> Mapping[str, Integers]:
    """For each table that is there a key from 0 for the order of each of its rows; -1 where a row names none."""
    names = [name for name in WITH_ORDERS if day.has(name)]
    return dict(zip(names, codes(*(texts(day.table(name).frame["order"]) for name in names)), strict=True))


def order_count(day: Day) -> int:
    """The length of an array that is indexed by these keys."""
    return max((int(keys.max(initial=-1)) for keys in day.once(order_keys).values()), default=-1) + 1
