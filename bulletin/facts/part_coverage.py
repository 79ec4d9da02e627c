"""Facts of one part: what there is, what is needed, when more comes, and which orders wait for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cached_property

import numpy as np
import pandas as pd

from bulletin.facts.columns import Row
from bulletin.facts.day import Day
from bulletin.facts.family import Found, Gap, Records, Scope, fact
from bulletin.facts.materials import Materials
from bulletin.facts.medians import median
from bulletin.facts.planned import PlannedOutput
from bulletin.facts.queue_needs import QueueNeeds
from bulletin.facts.shelves import OUTSIDE_SHOP
from bulletin.model import Basis

NEEDS = ("orders", "structure")
ON_THE_WAY = ("ordered", "confirmed", "in_transit")


class PartCoverage(Scope):
    """One part, and what the waiting orders of some models need of it."""

    def __init__(self, day: Day, part: str, models: tuple[str, ...]) -> None:
        """A part that parts.csv, the structure or the stock names."""
        super().__init__(day)
        self.part = part
        self.models = models
        self.materials = day.once(Materials)

    @fact("part", tables=("stock",))
    def usable(self) -> Found | Gap:
        """Usable stock of the part as last counted."""
        return quantity(self.materials.shelves.usable(self.part), lambda: self._stock_rows("usable"))

    @fact("part", tables=("stock",))
    def held(self) -> Found | Gap:
        """Stock of the part in inspection or quarantine as last counted."""
        return quantity(self.materials.shelves.held(self.part), lambda: self._stock_rows("inspection", "quarantine"))

    @fact("part", tables=("reserved",))
    def reserved(self) -> Found | Gap:
        """What is reserved of the part for the shop, for service and for retrofits."""
        return quantity(self.materials.shelves.reserved(self.part), self._reserved_rows)

    @fact("part", tables=NEEDS)
    def needed(self) -> Found | Gap:
        """What the waiting orders need of the part at every level of the structure, made stock above it used first."""
        return quantity(self.need, self._need_rows)

    @fact("part", tables=(*NEEDS, "stock"))
    def short(self) -> Found | Gap:
        """What the waiting orders need of the part beyond usable stock less everything reserved, at least 0."""
        if self.materials.structure.is_made(self.part):
            return Gap("it is made in house: what goes into it may be short, it is not")
        return quantity(max(self.need - self.materials.shelves.free(self.part), Fraction(0)), self._need_rows)

    @fact("part", tables=(*NEEDS, "stock"))
    def shop(self) -> Found | Gap:
        """What the shop may sell: usable stock less what service, retrofits and the waiting orders need, at least 0."""
        shelves = self.materials.shelves
        left = shelves.usable(self.part) - shelves.reserved(self.part, OUTSIDE_SHOP) - self.need
        return quantity(max(left, Fraction(0)), self._need_rows)

    @fact("working day", Basis.PLAN, tables=("plan", "structure", "stock"))
    def days(self) -> Found | Gap:
        """Whole working days of the plan, counted no further than it goes, that the free stock of the part covers."""
        planned = self.day.once(PlannedOutput)
        above = self.materials.structure.above([self.part])
        models = [model for model in planned.models if model in self.models and model in above]
        if not models:
            return Gap("the plan does not use it")
        reached = self.materials.needs.reach(planned.growth(models), [self.part])
        return Found(planned.working_days(reached), lambda: self._plan_rows(planned, models))

    @fact("date", Basis.PLAN, tables=("supply",))
    def next_arrival(self) -> Found | Gap:
        """The earliest day, not before this one, on which an order of the part with a supplier is due."""
        coming = self._on_the_way[self._on_the_way["due"] >= np.datetime64(self.day.as_of)]
        if coming.empty:
            return Gap("nothing of it is on order and still due")
        first = coming["due"].min()
        return Found(first.date(), lambda: {"supply": _records(coming[coming["due"] == first])})

    @fact("part", tables=("supply",))
    def overdue(self) -> Found | Gap:
        """What suppliers should have delivered of the part before this day and did not."""
        late = self._on_the_way[self._on_the_way["due"] < np.datetime64(self.day.as_of)]
        return quantity(sum(map(Fraction, late["quantity"]), Fraction(0)), lambda: {"supply": _records(late)})

    @fact("day", decimals=1, tables=("supply",))
    def usual_lateness(self) -> Found | Gap:
        """The median of the days from due to received over all past supply of the part; below 0 where it came early."""
        received = self._supply[(self._supply["state"] == "received") & self._supply["received"].notna()]
        if received.empty:
            return Gap("nothing of it was delivered yet")
        late = (received["received"] - received["due"]).dt.days.to_numpy().astype(np.int64)
        return Found(median(late), lambda: {"supply": _records(received)})

    @fact("order", tables=(*NEEDS, "stock"))
    def held_up(self) -> Found | Gap:
        """Waiting orders that can't be built for want of the part, its free stock serving them in the order of the queue."""
        if self.materials.structure.is_made(self.part):
            return Gap("it is made in house: what goes into it may be short, it is not")
        queue = self.day.once(QueueNeeds)
        return Found(queue.held_up(self.part, self.models), lambda: queue.rows(self.part, self.models))

    def columns(self) -> Mapping[str, Callable[[], Found | Gap]]:
        """The columns of its row in parts.csv."""
        return self._row.columns() if self._row else {}

    def column_units(self) -> Mapping[str, str]:
        """Their units."""
        return self._row.column_units() if self._row else {}

    @cached_property
    def need(self) -> Fraction:
        """What the waiting orders need of it."""
        return self.materials.needs_of(self.models).get(self.part, Fraction(0))

    @cached_property
    def _row(self) -> Row | None:
        if not self.day.has("parts"):
            return None
        table = self.day.table("parts")
        record = self.materials.part_records.get(self.part)
        return None if record is None else Row(table, record, "part", self.part)

    @cached_property
    def _supply(self) -> pd.DataFrame:
        return self.materials.supply(self.part)

    @property
    def _on_the_way(self) -> pd.DataFrame:
        return self._supply[self._supply["state"].isin(ON_THE_WAY)]

    def _stock_rows(self, *states: str) -> Records:
        frame = self.day.table("stock").frame
        return {"stock": _records(frame[(frame["part"] == self.part) & frame["state"].isin(states)])}

    def _reserved_rows(self) -> Records:
        frame = self.day.table("reserved").frame
        return {"reserved": _records(frame[frame["part"] == self.part])}

    def _need_rows(self) -> Records:
        return self.materials.rows(self.models, [self.part])

    def _plan_rows(self, planned: PlannedOutput, models: list[str]) -> Records:
        rows = self.materials.rows(models, [self.part])
        return {name: rows[name] for name in rows if name != "orders"} | planned.rows(models)


def quantity(value: Fraction, rows: Callable[[], Records]) -> Found:
    """A quantity of a part: an int where it is whole, shown with as many decimals as the maker's own figures would need.

    A quantity without an end, as scrap makes them, is shown whole.
    """
    if value.denominator == 1:
        return Found(int(value), rows)
    places = next((places for places in range(1, 10) if 10**places % value.denominator == 0), 0)
    return Found(value, rows, decimals=places)


def _records(frame: pd.DataFrame) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    return frame.index.to_numpy(np.int64)
