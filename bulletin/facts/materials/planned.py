"""The maker's plan of output after a day, as a demand that grows from one planned day to the next."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from functools import cached_property
from itertools import accumulate

import numpy as np

from bulletin.facts.counting.keys import Integers
from bulletin.facts.materials.materials import Materials
from bulletin.facts.materials.needs import Demand, Growth, Reach
from bulletin.facts.scopes.day import Day


class PlannedOutput:
    """The rows of plan.csv after the as-of date; built with `day.once(PlannedOutput)`."""

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self.day = day
        self._reaches: dict[tuple[str, ...], Reach] = {}
        frame = day.table("plan").frame
        self._frame = frame[frame["date"] > np.datetime64(day.as_of)]

    @cached_property
    def dates(self) -> list[date]:
        """The planned days in order, whatever model they are planned for."""
        return [moment.date() for moment in sorted(self._frame["date"].unique())]

    @cached_property
    def models(self) -> list[str]:
        """The models that are planned, sorted."""
        return sorted({str(model) for model in self._frame["model"].unique()})

    @cached_property
    def _totals(self) -> dict[str, Integers]:
        """By model, the units planned up to the end of each of `dates`, from 0 before the first."""
        steps = np.searchsorted(np.array(self.dates, "datetime64[s]"), self._frame["date"].to_numpy("datetime64[s]")) + 1
        totals = {model: np.zeros(len(self.dates) + 1, np.int64) for model in self.models}
        for model, step, units in zip(self._frame["model"].tolist(), steps.tolist(), self._frame["units"].tolist(), strict=True):
            totals[model][step] += units
        return {model: units.cumsum() for model, units in totals.items()}

    def growth(self, models: Collection[str]) -> Growth:
        """The plan for some models, a step a planned day."""
        totals = {model: self._totals[model] for model in models if model in self._totals}

        def at(step: int) -> Demand:
            return {model: int(units[step]) for model, units in totals.items()}

        return Growth(at, len(self.dates))

    def reach(self, models: tuple[str, ...]) -> Reach:
        """How far the shelves reach along the plan for some models."""
        if models not in self._reaches:
            self._reaches[models] = Reach(self.day.once(Materials).needs, self.growth(models))
        return self._reaches[models]

    def working_days(self, steps: int) -> int | None:
        """How many of the first so many planned days are working days; None where no planned day is one."""
        return self._worked[steps] if self._worked[-1] else None

    @cached_property
    def _worked(self) -> list[int]:
        return [0, *accumulate(int(self.day.calendar.is_working(day)) for day in self.dates)]

    def rows(self, models: Collection[str]) -> dict[str, Integers]:
        """The rows of the plan for some models."""
        return {"plan": self._frame.index[self._frame["model"].isin(list(models))].to_numpy(np.int64)}
