"""The `coverage` family: what the shelves cover of the waiting orders' needs and of the plan.

Facts of the whole and of one model alone are the same, each for the waiting orders of its models. Facts of one part stand in
`part_coverage.py`.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from functools import cached_property

import pandas as pd

from bulletin.facts.counting.models import models_of
from bulletin.facts.materials.materials import Materials
from bulletin.facts.materials.needs import Demand, Growth
from bulletin.facts.materials.planned import PlannedOutput
from bulletin.facts.part_coverage import NO_WORK, PartCoverage
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, Scope, door, fact
from bulletin.formats.exact import share_decimals
from bulletin.model import Basis, Name

NEEDS = ("orders", "structure", "stock")


class ModelsCoverage(Scope):
    """What the shelves cover of the needs of some models' waiting orders."""

    def __init__(self, day: Day, models: tuple[str, ...], mix: Demand) -> None:
        """`mix` is what one more unit is made up of: the waiting orders by model."""
        super().__init__(day)
        self.models = models
        self.mix = mix
        self.materials = day.once(Materials)

    @fact("unit", tables=NEEDS)
    def buildable(self) -> Found | Gap:
        """The most whole units, split over the models as their waiting orders are, whose needs the counted free stock covers."""
        parts = self.materials.bought(self.mix)
        if not self.mix:
            return Gap("no order is waiting")
        if not parts:
            return Gap(f"the structure in effect has no parts for {' or '.join(self.mix)}")
        mix = self.mix
        growth = Growth(lambda step: {model: step * share for model, share in mix.items()}, parts_of_unit=sum(mix.values()))
        return Found(self.materials.needs.reach(growth, parts), lambda: self.materials.rows.of_needs(self.models, parts))

    @fact("share", tables=NEEDS)
    def parts_in_house(self) -> Found | Gap:
        """The share of the bought parts needed for the waiting orders of which enough stands free on the shelf."""
        if not self.lines:
            return self._no_lines()
        share = Fraction(len(self.lines) - len(self.short), len(self.lines))
        return Found(share, self._line_rows, decimals=share_decimals(share))

    @fact("part line", tables=NEEDS)
    def short_parts(self) -> Found | Gap:
        """Bought parts of which the waiting orders need more than stands free on the shelf."""
        return Found(len(self.short), self._line_rows) if self.lines else self._no_lines()

    @fact("name", tables=NEEDS)
    def short_names(self) -> Found | Gap:
        """The names of the bought parts that are short, in the order of their ids."""
        return Found(self.short, self._line_rows) if self.lines else self._no_lines()

    @fact("name", tables=NEEDS)
    def tightest(self) -> Found | Gap:
        """The bought part whose free stock is the smallest share of what the waiting orders need of it."""
        if not self.lines:
            return self._no_lines()
        free = self.materials.shelves.free
        part = min(self.lines, key=lambda part: (free(part) / self.lines[part], part))
        return Found(self.materials.name(part), self._line_rows)

    @fact("working day", Basis.PLAN, tables=("plan", "structure", "stock"))
    def days(self) -> Found | Gap:
        """Whole working days of the plan, counted no further than it goes, that the free stock of every part covers."""
        planned = self.day.once(PlannedOutput)
        models = [model for model in planned.models if model in self.models]
        parts = self.materials.bought(models)
        if not parts:
            return Gap("nothing is planned after this day" if not models else "the planned models use no part")
        days = planned.working_days(self.materials.needs.reach(planned.growth(models), parts))
        return NO_WORK if days is None else Found(days, lambda: self._plan_rows(planned, models, parts))

    @cached_property
    def lines(self) -> dict[str, Fraction]:
        """The part lines: what is needed of each bought part with a need, in the order of their ids."""
        needed = self.materials.needs_of(self.models)
        made = self.materials.structure.is_made
        return {part: need for part, need in sorted(needed.items()) if need and not made(part)}

    @cached_property
    def short(self) -> tuple[Name, ...]:
        """The part lines that are short."""
        free = self.materials.shelves.free
        return tuple(self.materials.name(part) for part, need in self.lines.items() if need > free(part))

    def parts(self) -> tuple[str, ...]:
        """The parts that have facts of their own."""
        return tuple(self.materials.parts)

    def _no_lines(self) -> Gap:
        waiting = any(self.materials.waiting.get(model) for model in self.models)
        return Gap("the waiting orders need no bought part" if waiting else "no order is waiting")

    def _line_rows(self) -> Records:
        return self.materials.rows.of_needs(self.models, list(self.lines))

    def _plan_rows(self, planned: PlannedOutput, models: list[str], parts: list[str]) -> Records:
        return self.materials.rows.of_shelves(tuple(models), parts) | planned.rows(models)

    def _part(self, part: str) -> PartCoverage | None:
        return PartCoverage(self.day, part, self.models) if part in self.materials.parts else None


class ModelCoverage(ModelsCoverage):
    """One model alone: its waiting orders against all shelves, as if no other model waited."""

    def __init__(self, day: Day, model: str) -> None:
        """The mix of one model is that model, whether or not an order waits for it."""
        super().__init__(day, (model,), {model: 1})

    @door("item")
    def part(self, part: str) -> PartCoverage | None:
        """One part, and what the waiting orders of the model need of it."""
        return self._part(part)


class Coverage(ModelsCoverage):
    """All models together."""

    def __init__(self, day: Day) -> None:
        """Everything that waits."""
        planned = day.once(PlannedOutput).models if day.has("plan") else []
        super().__init__(day, tuple(dict.fromkeys((*day.once(models_of), *planned))), day.once(Materials).waiting)

    @classmethod
    def newest(cls, day: Day) -> date | None:
        """The day of the newest count of stock."""
        counted = day.table("stock").frame["counted"] if day.has("stock") else pd.Series(dtype="datetime64[s]")
        return None if counted.empty else counted.max().date()

    @door("call", choices="models_known")
    def of(self, model: str) -> ModelCoverage | None:
        """The same facts for one model."""
        return ModelCoverage(self.day, model) if model in self.models_known() else None

    @door("item", choices="parts")
    def part(self, part: str) -> PartCoverage | None:
        """One part."""
        return self._part(part)

    def models_known(self) -> tuple[str, ...]:
        """The models that have facts of their own."""
        return self.day.once(models_of)
