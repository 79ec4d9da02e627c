"""Orders cut into parts by model, market or batch, and counted for all parts of a cut at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.day_counts import DayCounts
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.models import models_of
from bulletin.facts.counting.order_rows import STATUSES, OrderRows
from bulletin.tables.blocks import blocks
from bulletin.tables.categories import Numbers, codes_among, used

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

APART = -1
"""The part of a row that lies in none."""


class Cut:
    """`part` numbers the part of each row of orders.csv among `names`; `APART` where it lies in none."""

    def __init__(self, orders: OrderRows, names: Sequence[str], part: Numbers) -> None:
        """What is not asked for is not counted."""
        self.orders = orders
        self.names = tuple(names)
        self.part = part
        self._moved: dict[tuple[str, tuple[str, ...]], NDArray[np.int64]] = {}

    def number(self, name: str) -> int:
        """The number of a part; `APART` where there is no such part."""
        return self._numbers.get(name, APART)

    def count(self, part: int, *statuses: str) -> int:
        """How many orders of a part have one of these statuses."""
        return sum(int(self._by_status[part + 1, STATUSES.index(status)]) for status in statuses)

    def rows(self, part: int) -> NDArray[np.bool_]:
        """Which rows lie in a part."""
        rows: NDArray[np.bool_] = self.part == part
        return rows

    def waiting(self, part: int) -> Integers:
        """The rows of a part's waiting orders, by the day they were placed."""
        rows, ends = self._waiting
        return rows[ends[part] : ends[part + 1]]

    def moved(self, part: int, column: str, statuses: tuple[str, ...]) -> DayCounts:
        """How many orders of a part with one of these statuses have which day in a column, lately."""
        asked = column, statuses
        if asked not in self._moved:
            rows, days = self.orders.moved(*asked)
            self._moved[asked] = self._counted(self.part[rows], days, int(days.max(initial=0)) + 1)
        return DayCounts(self.orders.moving_since, self._moved[asked][part + 1])

    @cached_property
    def _numbers(self) -> Mapping[str, int]:
        return {name: number for number, name in enumerate(self.names)}

    @cached_property
    def _by_status(self) -> NDArray[np.int64]:
        return self._counted(self.part, self.orders.status, len(STATUSES))

    @cached_property
    def _waiting(self) -> tuple[Integers, Integers]:
        """Rows of the waiting orders part by part, and where each part ends, from those in none on."""
        waiting = self.orders.waiting
        part = self.part[waiting]
        return waiting[np.argsort(part, kind="stable")], np.cumsum(self._counted(part, np.zeros(len(part), np.int8), 1))

    def _counted(self, part: Numbers, value: Integers | Numbers, values: int) -> NDArray[np.int64]:
        """How many rows have which value, one line a part; the first line is of those in none."""
        counts = np.zeros((len(self.names) + 1) * values, np.int64)
        for block in blocks(len(part), least=len(counts)):
            counts += np.bincount((part[block].astype(np.int64) + 1) * values + value[block], minlength=len(counts))
        return counts.reshape(-1, values)


def uncut(day: Day) -> Cut:
    """All orders in one part."""
    return Cut(day.once(OrderRows), ("",), np.zeros(len(day.table("orders").frame), np.int8))


def by_model(day: Day) -> Cut:
    """A part for each model that orders or scans speak of."""
    models = day.once(models_of)
    return Cut(day.once(OrderRows), models, codes_among(day.table("orders").frame["model"], models))


def by_market(day: Day) -> Cut:
    """A part for each market, sorted."""
    return _by(day, "market")


def by_batch(day: Day) -> Cut:
    """A part for each batch, sorted; orders without one lie in none."""
    return _by(day, "batch")


def _by(day: Day, column: str) -> Cut:
    cells = day.table("orders").frame[column]
    names = sorted(filter(None, used(cells)))
    return Cut(day.once(OrderRows), names, codes_among(cells, names))
