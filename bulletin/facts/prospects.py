"""What the queues and the output of some models may expect: the facts of the family `forecast` that all models and one share.

Everything is read off the same simulated futures (`ahead/outlook.py`): a window is the central 80 % of them, a chance a share.
"""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.facts.ahead.outlook import RATE, STOPPAGES, Outlook, Scenario
from bulletin.facts.boxed import Boxed
from bulletin.facts.counting.backlog import backlog_of
from bulletin.facts.counting.keys import Integers
from bulletin.facts.materials.materials import Materials
from bulletin.facts.materials.supply import ON_THE_WAY
from bulletin.facts.scopes.calendar import day_number, day_of
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, Scope, door, fact
from bulletin.facts.scopes.spans import read_day
from bulletin.forecast.windows import HIGH, LOW
from bulletin.formats.exact import share_decimals
from bulletin.model import Basis, Range, Window

FORECAST = Basis.FORECAST
NOBODY = Gap("nobody stands in the queue")


class Prospects(Scope):
    """Some models together."""

    tables = ("orders", "boxing")

    def __init__(self, day: Day, models: tuple[str, ...], boxed: Boxed) -> None:
        """The models that are looked at, and what is counted of them so far."""
        super().__init__(day)
        self.outlook = day.once(Outlook)
        self.models = tuple(model for model in self.outlook.queues if model in models)
        self.boxed = boxed

    @fact("window", FORECAST)
    def cleared(self) -> Found | Gap:
        """When everybody who stands in the queue today will have been served: the central 80 % of the simulated futures."""
        return self._found(self._cleared(self.outlook.usual()))

    @fact("unit", FORECAST)
    def month(self) -> Found | Gap:
        """Units of the whole month of the as-of date: those boxed so far and those of the rest, central 80 % of the futures."""
        return self._units(self.day.calendar.month(self.day.as_of), counted(self.boxed.month.function(self.boxed)))

    @fact("unit", FORECAST)
    def next_month(self) -> Found | Gap:
        """Units of the whole month after that of the as-of date: the central 80 % of the simulated futures."""
        return self._units(self.day.calendar.month(self.day.as_of, 1), 0)

    @fact("window", FORECAST)
    def new_order(self) -> Found | Gap:
        """When an order placed now, at the end of the queue of whichever model, will be boxed: central 80 % of the futures."""
        return self._places({model: self.outlook.queues[model] + 1 for model in self.models})

    @fact("window", FORECAST)
    def place(self, number: str) -> Found | Gap:
        """When the order at this place in the queue of whichever model will be boxed: central 80 % of the simulated futures."""
        if not (number.isascii() and number.isdigit() and int(number)):
            return Gap(f'"{number}" is no place in a queue, such as "25"')
        places = {model: int(number) for model in self.models if self.outlook.queues[model] >= int(number)}
        return self._places(places) if places else Gap(f"no queue is {number} orders long")

    @fact("share", FORECAST)
    def chance_best_month(self) -> Found | Gap:
        """The share of the simulated futures in which the month of the as-of date ends above the best month before it."""
        best, scenario = self.boxed.best_month.function(self.boxed), self.outlook.usual()
        if isinstance(best, Gap):
            return best
        if isinstance(scenario, Gap):
            return scenario
        so_far = counted(self.boxed.month.function(self.boxed))
        return self._chance(self._made(scenario, self.day.calendar.month(self.day.as_of)) + so_far > counted(best))

    @fact("share", FORECAST)
    def chance_cleared_by(self, day: str) -> Found | Gap:
        """The share of the simulated futures in which everybody who stands in the queue today is served up to this day."""
        by, scenario = read_day(day), self.outlook.usual()
        if isinstance(by, Gap):
            return by
        if isinstance(scenario, Gap):
            return scenario
        open_days = np.searchsorted(self.outlook.ahead, day_number(by), side="right")
        return self._chance(scenario.cleared(self.models) < open_days) if self._waiting else NOBODY

    @fact("driver", FORECAST)
    def why(self) -> Found | Gap:
        """What puts off the end of `cleared`, most days first: doubt about the rate, stoppages, parts; each simulated without."""
        days = {name: self.days_of(name) for name in self.drivers()}
        if not days:
            scenario = self.outlook.usual()
            return scenario if isinstance(scenario, Gap) else NOBODY
        known = {name: found for name, found in days.items() if isinstance(found, int)}
        gaps = [found for found in days.values() if isinstance(found, Gap)]
        if gaps and not known:
            return gaps[0]
        driving = sorted((name for name in known if known[name] > 0), key=lambda name: (-known[name], name))
        return Found(tuple(self._called(name) for name in driving), self.records)

    @door("item", choices="drivers", name="why")
    def driver(self, name: str) -> Driver | None:
        """One of the things that put off the end of the window: `rate`, `stoppages` or the id of a part."""
        return Driver(self.day, self, name) if name in self.drivers() else None

    def drivers(self) -> tuple[str, ...]:
        """What can be simulated without; nothing where there is no window."""
        scenario = self.outlook.usual()
        return () if isinstance(scenario, Gap) or not self._waiting else (RATE, STOPPAGES, *scenario.held_by)

    def days_of(self, driver: str) -> int | Gap:
        """By how many days something puts off the end of `cleared`; negative where that would end later without it."""
        usual, without = (self._cleared(scenario) for scenario in (self.outlook.usual(), self.outlook.without(driver)))
        if isinstance(usual, Gap):
            return usual
        return without if isinstance(without, Gap) else (usual.last - without.last).days

    def records(self) -> Records:
        """The scans of the history, the orders in the queues, and deliveries of the parts that hold the line up."""
        boxing, orders = self.day.table("boxing").frame, self.day.table("orders").frame
        days = self.outlook.past.days
        since = pd.Timestamp(day_of(int(days[0])) if len(days) else self.day.as_of)
        queued = self.day.once(backlog_of).queued & orders["model"].isin(self.models).to_numpy()
        found = {
            "boxing": boxing.index[boxing["model"].isin(self.models) & (boxing["day"] >= since)].to_numpy(np.int64),
            "orders": orders.index[queued].to_numpy(np.int64),
        }
        scenario = self.outlook.usual()
        if isinstance(scenario, Scenario) and scenario.held_by and self.day.has("supply"):
            supply = self.day.table("supply").frame
            coming = supply["part"].isin(scenario.held_by) & supply["state"].isin(ON_THE_WAY)
            found["supply"] = supply.index[coming].to_numpy(np.int64)
        return found

    @property
    def _waiting(self) -> int:
        return sum(self.outlook.queues[model] for model in self.models)

    def _cleared(self, scenario: Scenario | Gap) -> Window | Gap:
        if isinstance(scenario, Gap):
            return scenario
        days = np.sort(scenario.cleared(self.models))
        return self._window(scenario, quantile(days, LOW), quantile(days, HIGH)) if self._waiting else NOBODY

    def _places(self, places: dict[str, int]) -> Found | Gap:
        """From the first day of the earliest to the last day of the latest of the windows of these places, one a model."""
        scenario = self.outlook.usual()
        if isinstance(scenario, Gap):
            return scenario
        ends = [scenario.curves(model).windows(np.array([place])) for model, place in places.items()]
        if not ends:
            return Gap("no unit was ever boxed and no order waits")
        return self._found(self._window(scenario, min(int(low[0]) for low, _ in ends), max(int(high[0]) for _, high in ends)))

    def _window(self, scenario: Scenario, first: int, last: int) -> Window | Gap:
        window = self.outlook.window(first, last)
        if window is not None:
            return window
        if scenario.held_by:
            return Gap(f"what is on order of {', '.join(map(self._called, scenario.held_by))} does not last so far")
        return Gap(f"it ends later than {len(self.outlook.ahead)} working days from now, further than a forecast sees")

    def _units(self, span: Window, so_far: int) -> Found | Gap:
        scenario = self.outlook.usual()
        if isinstance(scenario, Gap):
            return scenario
        made = np.sort(self._made(scenario, span))
        return Found(Range(so_far + quantile(made, LOW), so_far + quantile(made, HIGH)), self.records)

    def _made(self, scenario: Scenario, span: Window) -> Integers:
        """Simulated units within a span of days, by future; those for stock and replacements are in as far as is usual."""
        ends = [int(np.searchsorted(self.outlook.ahead, day_number(day))) for day in (span.first, span.last + timedelta(days=1))]
        first, last = (scenario.made(self.models, end - 1) for end in ends)
        found: Integers = np.rint((last - first) / self.outlook.past.for_orders).astype(np.int64)
        return found

    def _chance(self, happens: NDArray[np.bool_]) -> Found:
        share = Fraction(int(np.count_nonzero(happens)), len(happens))
        return Found(share, self.records, decimals=share_decimals(share))

    def _called(self, driver: str) -> str:
        return driver if driver in (RATE, STOPPAGES) else self.day.once(Materials).name(driver).text

    def _found(self, window: Window | Gap) -> Found | Gap:
        return window if isinstance(window, Gap) else Found(window, self.records)


class Driver(Scope):
    """One thing that puts off the end of the window."""

    tables = ("orders", "boxing")

    def __init__(self, day: Day, prospects: Prospects, name: str) -> None:
        """Whose window, and what is left out."""
        super().__init__(day)
        self.prospects, self.name = prospects, name

    @fact("day", FORECAST)
    def itself(self) -> Found | Gap:
        """Days by which the window of `cleared` ends earlier when it is simulated without this."""
        days = self.prospects.days_of(self.name)
        return days if isinstance(days, Gap) else Found(days, self.prospects.records)


def quantile(ordered: Integers, level: float) -> int:
    """The least value that at least a share of the futures do not exceed."""
    return int(ordered[max(int(np.ceil(level * len(ordered) - 1e-9)), 1) - 1])


def counted(found: Found | Gap) -> int:
    """What was counted; 0 where nothing was."""
    return found.value if isinstance(found, Found) and isinstance(found.value, int) else 0
