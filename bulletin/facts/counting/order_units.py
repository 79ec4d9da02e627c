"""Which boxed unit is whose: the unit of each row of orders.csv.

A row that names a serial has that unit. The others have the units of their model whose latest scan names the order
(replacements, stock and samples apart): where these are more than the rows, those boxed last, in the order in which they were
boxed; rows come in turn as `line_turns` has it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bulletin.facts.counting.backlog import in_turn
from bulletin.facts.counting.joins import order_count, order_keys, serial_count, serial_keys
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.models import models_of
from bulletin.facts.counting.units import units_of
from bulletin.tables.blocks import blocks
from bulletin.tables.categories import are_any_of, codes_among
from bulletin.tables.integer_keys import NONE
from bulletin.tables.standing import FOR_ORDERS
from bulletin.tables.turns import line_turns

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day


def order_units(day: Day) -> Integers:
    """For each row of orders.csv the number of its unit in `Units`; -1 where none stands boxed for it."""
    unit = _by_serial(day)
    given = _given_to_orders(day, taken=unit[unit != NONE])
    if len(given):
        _give(day, given, unit)
    return unit


def _by_serial(day: Day) -> Integers:
    last, keys = day.once(units_of).last, day.once(serial_keys)
    serial = keys["boxing"]
    # The last entry answers for rows that name no serial.
    unit = np.full(day.once(serial_count) + 1, NONE, np.int32)
    for block in blocks(len(last)):
        rows = last[block]
        unit[serial[rows]] = np.arange(block.start, block.start + len(rows))
    return unit[keys["orders"]]


def _give(day: Day, given: Integers, unit: Integers) -> None:
    """Write the units that scans give to orders to their rows that name no serial."""
    wanted, offered, count = _order_and_model(day, "orders"), _order_and_model(day, "boxing"), _pairs(day)
    key = offered[day.once(units_of).last[given]]
    by_order = np.argsort(key, kind="stable")
    given, units_each = given[by_order], np.bincount(key, minlength=count)
    first_unit = np.cumsum(units_each) - units_each

    rows = _lines_in_turn(day, wanted, np.flatnonzero(day.once(serial_keys)["orders"] == NONE))
    order = wanted[rows]
    rows_each = np.bincount(order, minlength=count)
    line = np.arange(len(rows)) - (np.cumsum(rows_each) - rows_each)[order]
    line += np.maximum(units_each - rows_each, 0)[order]
    there = line < units_each[order]
    unit[rows[there]] = given[first_unit[order[there]] + line[there]]


def _given_to_orders(day: Day, taken: Integers) -> Integers:
    """Units whose latest scan names an order, in the order in which they were boxed last; those of serials apart."""
    last, scans = day.once(units_of).last, day.table("boxing").frame
    given = day.once(order_keys)["boxing"][last] != NONE
    given &= are_any_of(scans["purpose"], FOR_ORDERS)[last]
    given[taken] = False
    chosen = np.flatnonzero(given)
    return chosen[np.argsort(scans["at"].to_numpy()[last[chosen]], kind="stable")]


def _lines_in_turn(day: Day, wanted: Integers, rows: Integers) -> Integers:
    """Rows sorted by order and model, the lines of an order in turn."""
    return rows[in_turn(wanted[rows], line_turns(day.table("orders").frame.iloc[rows]))]


def _order_and_model(day: Day, table: str) -> Integers:
    """One integer a row for its order and model; negative where it names no order."""
    models = day.once(models_of)
    model = codes_among(day.table(table).frame["model"], models)
    return day.once(order_keys)[table] * len(models) + model


def _pairs(day: Day) -> int:
    """How many pairs of an order and a model there may be."""
    return day.once(order_count) * len(day.once(models_of))
