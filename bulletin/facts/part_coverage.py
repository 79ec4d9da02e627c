"""Facts of one part: what there is, what is needed, when more comes, and which orders wait for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from functools import cache, cached_property

import numpy as np

from bulletin.facts.counting.medians import median
from bulletin.facts.materials.materials import Materials
from bulletin.facts.materials.planned import PlannedOutput
from bulletin.facts.materials.queue_needs import QueueNeeds
from bulletin.facts.materials.shelves import NONE
from bulletin.facts.materials.supply import Lateness, Purchase, Supply, supply_of
from bulletin.facts.scopes.columns import Row
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, Scope, fact
from bulletin.model import Basis

NEEDS = ("orders", "structure")
UNCOUNTED = Gap("no stock of it was counted up to this day")
NO_WORK = Gap("no planned day is a working day")


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
        if not self.materials.shelves.counts(self.part):
            return UNCOUNTED
        return quantity(self.materials.shelves.usable(self.part), self._stock_rows)

    @fact("part", tables=("stock",))
    def held(self) -> Found | Gap:
        """Stock of the part in inspection or quarantine as last counted."""
        if not self.materials.shelves.counts(self.part):
            return UNCOUNTED
        return quantity(self.materials.shelves.held(self.part), self._held_rows)

    @fact("part", tables=("reserved",))
    def reserved(self) -> Found | Gap:
        """What is reserved of the part for the shop, for service and for retrofits."""
        return quantity(self.materials.shelves.reserved(self.part), self._reserved_rows)

    @fact("part", rounding="up", tables=NEEDS)
    def needed(self) -> Found | Gap:
        """What the waiting orders need of the part at every level of the structure, made stock above it used first."""
        return quantity(self.need, self._need_rows)

    @fact("part", rounding="up", tables=(*NEEDS, "stock"))
    def short(self) -> Found | Gap:
        """What the waiting orders need of the part beyond counted usable stock less everything reserved, at least 0."""
        if self.materials.structure.is_made(self.part):
            return Gap("it is made in house: what goes into it may be short, it is not")
        return quantity(_at_least_none(self.need - self.materials.shelves.free(self.part)), self._need_rows)

    @fact("part", rounding="down", tables=(*NEEDS, "stock"))
    def shop(self) -> Found | Gap:
        """What the shop may sell: usable stock less what service, retrofits and the waiting orders need, at least 0."""
        shelves = self.materials.shelves
        kept = shelves.kept_from_shop(self.part) + self.need
        return quantity(_at_least_none(shelves.usable(self.part) - kept), self._need_rows)

    @fact("working day", Basis.PLAN, tables=("plan", "structure", "stock"))
    def days(self) -> Found | Gap:
        """Whole working days of the plan, counted no further than it goes, that the free stock of the part covers."""
        if not self._planned_models():
            return Gap("the plan does not use it")
        planned = self.day.once(PlannedOutput)
        days = planned.working_days(planned.reach(self.models).of(self.part))
        return NO_WORK if days is None else Found(days, self._plan_rows)

    @fact("date", Basis.PLAN, tables=("supply",))
    def next_arrival(self) -> Found | Gap:
        """The earliest day, not before this one, on which an order of the part with a supplier is due."""
        arriving = self._arriving_next()
        return Found(arriving[0].due, self._arriving_rows) if arriving else Gap("nothing of it is on order and still due")

    @fact("part", tables=("supply",))
    def overdue(self) -> Found | Gap:
        """What suppliers should have delivered of the part before this day and did not."""
        return quantity(sum((row.quantity for row in self._late()), NONE), self._late_rows)

    @fact("day", decimals=1, tables=("supply",))
    def usual_lateness(self) -> Found | Gap:
        """The median of the days from due to received over all past supply of the part; below 0 where it came early."""
        came = self._supply.came
        if not came:
            return Gap("nothing of it was delivered yet")
        late = np.array([row.days for row in came], np.int64)
        return Found(median(late), self._came_rows)

    @fact("order", tables=(*NEEDS, "stock"))
    def held_up(self) -> Found | Gap:
        """Waiting orders that can't be built for want of the part, its free stock serving them in the order of the queue."""
        if self.materials.structure.is_made(self.part):
            return Gap("it is made in house: what goes into it may be short, it is not")
        return Found(self.day.once(QueueNeeds).held_up(self.part, self.models), self._held_up_rows)

    def columns(self) -> Mapping[str, Callable[[], Found | Gap]]:
        """The columns of its row in parts.csv."""
        return self._columns

    @cached_property
    def need(self) -> Fraction:
        """What the waiting orders need of it."""
        return self.materials.needs_of(self.models).get(self.part, NONE)

    @cached_property
    def _columns(self) -> Mapping[str, Callable[[], Found | Gap]]:
        return self._row.columns() if self._row else {}

    @cached_property
    def _row(self) -> Row | None:
        return self.materials.part_row(self.part)

    @property
    def _supply(self) -> Supply:
        return self.day.once(supply_of).get(self.part) or Supply()

    def _planned_models(self) -> list[str]:
        """The planned models that it goes into."""
        needs = self.materials.structure.goes_into
        return [model for model in self.day.once(PlannedOutput).models if model in self.models and needs(self.part, model)]

    def _arriving_next(self) -> list[Purchase]:
        """What comes on the earliest day on which any of it is due, not before this one."""
        due = [row for row in self._supply.coming if row.due >= self.day.as_of]
        return [row for row in due if row.due == min(row.due for row in due)]

    def _late(self) -> list[Purchase]:
        return [row for row in self._supply.coming if row.due < self.day.as_of]

    def _arriving_rows(self) -> Records:
        return supply_rows(self._arriving_next())

    def _late_rows(self) -> Records:
        return supply_rows(self._late())

    def _came_rows(self) -> Records:
        return supply_rows(self._supply.came)

    def _held_up_rows(self) -> Records:
        return self.day.once(QueueNeeds).rows(self.part, self.models)

    def _stock_rows(self) -> Records:
        return {"stock": self.materials.rows.stock([self.part])}

    def _held_rows(self) -> Records:
        return {"stock": self.materials.rows.held([self.part])}

    def _reserved_rows(self) -> Records:
        return {"reserved": self.materials.rows.reserved([self.part])}

    def _need_rows(self) -> Records:
        return self.materials.rows.of_needs(self.models, [self.part])

    def _plan_rows(self) -> Records:
        models = self._planned_models()
        return self.materials.rows.of_shelves(tuple(models), [self.part]) | self.day.once(PlannedOutput).rows(models)


def supply_rows(rows: Sequence[Purchase | Lateness]) -> Records:
    """Rows of supply.csv."""
    return {"supply": np.array([row.record for row in rows], np.int64)}


def _at_least_none(value: Fraction) -> Fraction:
    return value if value.numerator > 0 else NONE


def quantity(value: Fraction, rows: Callable[[], Records]) -> Found:
    """A quantity of a part: an int where it is whole, shown with as many decimals as the maker's own figures would need.

    A quantity without an end, as scrap makes them, is shown whole.
    """
    if value.denominator == 1:
        return Found(value.numerator, rows)
    return Found(value, rows, decimals=_places(value.denominator))


@cache
def _places(denominator: int) -> int:
    """The decimals of a fraction with this denominator; 0 where it has more than nine."""
    return next((places for places in range(1, 10) if 10**places % denominator == 0), 0)
