"""The simulated futures of a maker's lines as of a day: paths of cumulative output by model, and windows by place in its queue.

All models share one line, whose output is split by their mix; what a queue no longer needs goes to the others. Parts and plan cap
each model by itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from bulletin.facts.ahead.open_days import open_days_ahead
from bulletin.facts.ahead.past_output import RECENT, PastOutput, past_output
from bulletin.facts.ahead.plan import ceiling
from bulletin.facts.ahead.supply import SupplyAhead
from bulletin.facts.counting.backlog import backlog_of
from bulletin.facts.counting.keys import Integers
from bulletin.facts.scopes.calendar import day_number, day_of
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Gap
from bulletin.forecast.backtest import Hindsight
from bulletin.forecast.line import LEAST_DAYS, Line, Paths, draw_paths, line_of
from bulletin.forecast.mix import Queues, mix_of, split
from bulletin.forecast.output import Output, Reals
from bulletin.forecast.parts import capped, least
from bulletin.forecast.widening import widening
from bulletin.forecast.windows import Curves, curves_of, days_reached
from bulletin.model import Window

FUTURES = 2000
NEAREST, FARTHEST = 150, 780
"""Working days that are simulated at least and at most."""
SOON = 45
"""Working days of output that parts are looked at for, where a queue is done sooner: those of this month and the next."""
RATE, STOPPAGES = "rate", "stoppages"


@dataclass(frozen=True, eq=False)
class Scenario:
    """Simulated output for orders: cumulative paths by model, capped by parts and plan; the parts that held any of them up."""

    paths: Mapping[str, Paths]
    queues: Mapping[str, int]
    held_by: tuple[str, ...]

    def curves(self, model: str) -> Curves:
        """Percentiles of a model's output, day by day."""
        if model not in self._curves:
            self._curves[model] = curves_of(self.paths[model])
        return self._curves[model]

    @cached_property
    def _curves(self) -> dict[str, Curves]:
        return {}

    def cleared(self, models: tuple[str, ...]) -> Integers:
        """For each future the day ahead on which the queues of some models are done; the number of days where they are not."""
        found = np.zeros(FUTURES, np.int64)
        for model in models:
            if self.queues[model]:
                found = np.maximum(found, days_reached(self.paths[model], self.queues[model]))
        return found

    def made(self, models: tuple[str, ...], day: int) -> Reals:
        """Units of some models up to a day ahead (from 0; before the first one none), by future."""
        total = np.zeros(FUTURES)
        for model in models if day >= 0 else ():
            total += self.paths[model][day]
        return total


class Outlook:
    """Built with `day.once(Outlook)`; everything is drawn when it is first asked for."""

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self.day = day
        self._scenarios: dict[str, Scenario] = {}

    @cached_property
    def past(self) -> PastOutput:
        """The history."""
        return past_output(self.day)

    @cached_property
    def queues(self) -> dict[str, int]:
        """Orders that stand in the queue of each model that was ever made or is waited for."""
        queued = self.day.once(backlog_of).queued
        waiting = self.day.table("orders").frame["model"][queued].value_counts()
        counts = {name: int(waiting.get(name, 0)) for name in self.past.models}
        made = dict(zip(self.past.models, self.past.units.sum(axis=0), strict=True))
        return {name: count for name, count in counts.items() if count or made[name]}

    @cached_property
    def ahead(self) -> Integers:
        """The open days that are simulated, counted from 1970-01-01: half as many again as the queues need, within bounds."""
        rate = float(self.past.units[-RECENT:].sum()) / max(min(len(self.past.days), RECENT), 1)
        needed = 1.6 * sum(self.queues.values()) / max(rate, 1e-9)
        return open_days_ahead(self.day, int(min(max(needed + 40, NEAREST), FARTHEST)))

    @cached_property
    def line(self) -> Line | Gap:
        """What the history tells of the line; why it tells too little."""
        past = self.past
        weekday = (past.days + 3) % 7
        found = line_of(Output(past.units.sum(axis=1), weekday), len(self.ahead))
        if found is not None:
            return found
        return Gap(f"too few working days of output are on record: a rate needs {LEAST_DAYS}, half of them with output")

    @cached_property
    def hindsight(self) -> Hindsight:
        """What the output of past weeks came to, and what could have been told as of them."""
        return Hindsight(self.past.units.sum(axis=1), np.concatenate([self.past.days, self.ahead]))

    @cached_property
    def widening(self) -> int:
        """Open days by which each end of a window is put out, because too few of the past windows came true."""
        return widening(self.hindsight)

    def window(self, first: int, last: int) -> Window | None:
        """A window from one day ahead to another, widened where it must be; None where it ends beyond what is simulated."""
        first, last = max(first - self.widening, 0), last + self.widening
        return Window(day_of(int(self.ahead[first])), day_of(int(self.ahead[last]))) if last < len(self.ahead) else None

    def usual(self) -> Scenario | Gap:
        """The futures."""
        return self.without("")

    def without(self, driver: str) -> Scenario | Gap:
        """The futures if one thing were not: doubt about the rate, stoppages, or the limits of one part (by its id)."""
        if isinstance(self.line, Gap):
            return self.line
        if driver not in self._scenarios:
            self._scenarios[driver] = self._draw(self.line, driver)
        return self._scenarios[driver]

    def _draw(self, line: Line, driver: str) -> Scenario:
        if driver == RATE:
            line = line.with_known_rate()
        elif driver == STOPPAGES:
            line = line.without_stoppages()
        total = draw_paths(line, (self.ahead + 3) % 7, FUTURES)
        held_by: list[str] = []
        paths = {}
        for model, free in self._split(total).items():
            paths[model], held = self._capped(model, free, driver)
            held_by += held
        return Scenario(paths, self.queues, tuple(sorted(set(held_by))))

    def _split(self, total: Paths) -> dict[str, Paths]:
        models = list(self.queues)
        if len(models) == 1:
            return {models[0]: total}
        columns = [self.past.models.index(model) for model in models]
        queues = Queues(np.array([self.queues[model] for model in models], np.float64), self._coming(models))
        return dict(zip(models, split(total, mix_of(self.past.units[:, columns]), queues, "line"), strict=True))

    def _coming(self, models: list[str]) -> Reals:
        """Orders for each model placed a working day, over the recent working days."""
        days = self.past.days[-RECENT:]
        frame = self.day.table("orders").frame
        placed = frame["placed"].to_numpy().astype("datetime64[D]").astype(np.int64)
        stays = (placed >= days[0]) & (placed <= day_number(self.day.as_of)) & (frame["status"] != "cancelled").to_numpy()
        coming = frame["model"][stays].value_counts()
        return np.array([coming.get(name, 0) for name in models], np.float64) / len(days)

    def _capped(self, model: str, free: Paths, driver: str) -> tuple[Paths, list[str]]:
        """Output under plan and parts, and the parts that hold it up in more than one future in a hundred."""
        after, futures = day_number(self.day.as_of), free.shape[1]
        plan = ceiling(self.day, model, self.past, self.ahead)
        caps = [] if plan is None else [_planned(free, *plan)]
        held = []
        most = max(float(self.queues[model] + 1), float(free[:SOON].max(initial=0)))
        for supply in self.day.once(SupplyAhead).of(model, self.queues, most):
            if supply.part == driver:
                continue
            cap = supply.cap(self.ahead, after=after, futures=futures)
            caps.append(cap)
            if np.mean((cap < free).any(axis=0)) > 1 / 100:
                held.append(supply.part)
        return capped(free, least(caps)), held


def _planned(free: Paths, begin: int, units: Reals) -> Paths:
    """Planned output as a cap on paths, from the day on which the plan begins: what was made until then is made."""
    bound = units[:, None].astype(np.float32)
    return bound if not begin else np.concatenate([free[:begin], free[begin - 1] + bound[begin:]])
