"""The `inspections` family: what a sample showed, and what it lets us say of all the others."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pandas as pd

from bulletin.facts.scopes.columns import Row
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, Scope, door, fact
from bulletin.facts.scopes.items import Item, Items
from bulletin.facts.statistics.limits import chance_of_no_more, upper_limit
from bulletin.facts.statistics.sampling_plans import SamplingPlan, sampling_plan
from bulletin.formats.exact import share_decimals
from bulletin.model import Basis

NO_PLAN = Gap("the row gives no lot_size and quality_limit that MIL-STD-105E has a plan for")


class Inspection(Item):
    """One inspection."""

    @property
    def basis(self) -> Basis:
        """Some units were checked, and no others."""
        return Basis.SAMPLE

    @fact("unit", Basis.SAMPLE)
    def checked(self) -> Found | Gap:
        """The units that were checked: the size of the sample."""
        return Found(int(self.row["checked"]), self.row.records)

    @fact("unit", Basis.SAMPLE)
    def failed(self) -> Found | Gap:
        """The units checked that failed."""
        return Found(int(self.row["failed"]), self.row.records)

    @fact("share", Basis.SAMPLE)
    def share(self) -> Found | Gap:
        """The units that failed, as a share of the units checked."""
        share = Fraction(int(self.row["failed"]), int(self.row["checked"]))
        return Found(share, self.row.records, decimals=share_decimals(share))

    @fact("share", Basis.SAMPLE)
    def upper(self) -> Found | Gap:
        """The share of all units that fails at most: the exact one-sided upper limit at the confidence of the settings."""
        limit = upper_limit(int(self.row["failed"]), int(self.row["checked"]), self.day.settings.checks.confidence)
        return Found(limit, self.row.records, decimals=share_decimals(limit))

    @fact("unit", Basis.SAMPLE)
    def needed(self) -> Found | Gap:
        """The units of a lot of this size to check at its quality limit: MIL-STD-105E, General Level II, normal, single."""
        return Found(self._plan.needed, self.row.records) if self._plan else NO_PLAN

    @fact("unit", Basis.SAMPLE)
    def accept_at_most(self) -> Found | Gap:
        """The most units that may fail of those needed for the lot to be accepted, by MIL-STD-105E."""
        return Found(self._plan.accept_at_most, self.row.records) if self._plan else NO_PLAN

    @fact("yes/no", Basis.SAMPLE)
    def accepted(self) -> Found | Gap:
        """Whether MIL-STD-105E accepts the lot: no more units failed than may, of at least as many checked as are needed."""
        if not self._plan:
            return NO_PLAN
        if int(self.row["failed"]) > self._plan.accept_at_most:
            return Found(False, self.row.records)
        if int(self.row["checked"]) < self._plan.needed:
            return Gap(f"{self._plan.needed} units had to be checked, and only {self.row['checked']} were")
        return Found(True, self.row.records)

    @fact("yes/no", Basis.SAMPLE)
    def better_than(self, other: str) -> Found | Gap:
        """Whether fewer failed than in another inspection beyond chance: Fisher's exact one-sided p at most 1 - confidence."""
        compared = self._beside(other)
        if compared is None:
            return Gap(f"there is no inspection {other}")
        return Found(compared.chance <= 1 - Fraction(self.day.settings.checks.confidence), compared.records)

    @door("call", name="better_than")
    def compared(self, other: str) -> Comparison | None:
        """How surely it is better than another inspection."""
        return self._beside(other)

    def _beside(self, other: str) -> Comparison | None:
        row = self.day.once(Inspections).sheet.row(other)
        return Comparison(self.day, self.row, row) if row else None

    @property
    def _plan(self) -> SamplingPlan | None:
        lot_size, quality_limit = self.row["lot_size"], self.row["quality_limit"]
        return None if pd.isna(lot_size) or quality_limit is None else sampling_plan(int(lot_size), quality_limit)


class Comparison(Scope):
    """Two inspections side by side."""

    def __init__(self, day: Day, one: Row, other: Row) -> None:
        """`one` is the row of the inspection that may be better."""
        super().__init__(day)
        self.one, self.other = one, other

    @fact("p value", Basis.SAMPLE, decimals=4)
    def p(self) -> Found | Gap:
        """Fisher's exact one-sided p: the chance of so few failures if both inspections saw units of one quality."""
        return Found(self.chance, self.records)

    @property
    def chance(self) -> Fraction:
        """The p value."""
        counts = [int(row[column]) for row in (self.one, self.other) for column in ("failed", "checked")]
        return chance_of_no_more(*counts)

    def records(self) -> Records:
        """Both rows."""
        return {"inspections": np.unique([self.one.record, self.other.record])}


class Inspections(Items):
    """All inspections up to the day."""

    tables = ("inspections",)
    kind = "inspection"
    item_type = Inspection
