"""The `forecast` family: when what waits will have been boxed, and what will have been made by then.

Everything is read off the same simulated futures (`outlook.py`): a window is the central 80 % of them, a chance their share.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from fractions import Fraction

import numpy as np
import pandas as pd

from bulletin.facts.boxed import Boxed
from bulletin.facts.counting.backlog import backlog_of
from bulletin.facts.counting.keys import Integers, texts
from bulletin.facts.counting.medians import median
from bulletin.facts.counting.models import models_of
from bulletin.facts.counting.telling import telling_of
from bulletin.facts.materials.materials import Materials
from bulletin.facts.order_windows import order_windows
from bulletin.facts.outlook import RATE, STOPPAGES, Outlook, Scenario
from bulletin.facts.part_coverage import ON_THE_WAY
from bulletin.facts.scopes.calendar import day_number, day_of
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, Scope, door, fact
from bulletin.facts.scopes.spans import read_day
from bulletin.facts.statistics.shares import share_decimals
from bulletin.forecast.windows import HIGH, LOW
from bulletin.model import Basis, Range, Value, Window

FORECAST = Basis.FORECAST


class Prospects(Scope):
    """What some models' queues and output may expect."""

    tables = ("orders", "boxing")

    def __init__(self, day: Day, models: tuple[str, ...]) -> None:
        """The models that are looked at."""
        super().__init__(day)
        self.outlook = day.once(Outlook)
        self.models = tuple(model for model in self.outlook.queues if model in models)

    @fact("window", FORECAST)
    def cleared(self) -> Found | Gap:
        """When everybody who stands in the queue today will have been served: the central 80 % of the simulated futures."""
        scenario = self._scenario()
        if isinstance(scenario, Gap):
            return scenario
        return self._found(self._cleared(scenario))

    @fact("unit", FORECAST)
    def month(self) -> Found | Gap:
        """Units of the whole month of the as-of date: those boxed so far and those of the rest, central 80 % of the futures."""
        return self._units(self.day.calendar.month(self.day.as_of), _counted(self._boxed.month.function(self._boxed)))

    @fact("unit", FORECAST)
    def next_month(self) -> Found | Gap:
        """Units of the whole month after that of the as-of date, as the central 80 % of the simulated futures have them."""
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
        best, so_far = (method.function(self._boxed) for method in (self._boxed.best_month, self._boxed.month))
        scenario = self._scenario()
        if isinstance(scenario, Gap) or isinstance(best, Gap):
            return scenario if isinstance(scenario, Gap) else best
        total = self._made(scenario, self.day.calendar.month(self.day.as_of)) + _counted(so_far)
        return self._chance(total > _counted(best))

    @fact("share", FORECAST)
    def chance_cleared_by(self, day: str) -> Found | Gap:
        """The share of the simulated futures in which everybody who stands in the queue today is served up to this day."""
        by, scenario = read_day(day), self._scenario()
        if isinstance(by, Gap) or isinstance(scenario, Gap):
            return by if isinstance(by, Gap) else scenario
        if not self._waiting:
            return Gap("nobody stands in the queue")
        last = np.searchsorted(self.outlook.ahead, day_number(by), side="right")
        return self._chance(scenario.cleared(self.models) < last)

    @fact("driver", FORECAST)
    def why(self) -> Found | Gap:
        """What drives the end of `cleared`, the most days first: doubt about the rate, stoppages, parts that hold the line up.

        Each is simulated without.
        """
        days = self._days_of_drivers()
        if isinstance(days, Gap):
            return days
        driving = sorted((name for name in days if days[name] > 0), key=lambda name: (-days[name], name))
        return Found(tuple(self._called(name) for name in driving), self._rows)

    @door("item", choices="drivers", inner="Driver", name="why")
    def driver(self, name: str) -> Driver | None:
        """One of the things that drive the end of the window: `rate`, `stoppages` or the id of a part."""
        return Driver(self.day, self, name) if name in self.drivers() else None

    def drivers(self) -> tuple[str, ...]:
        """What can be simulated without."""
        scenario = self.outlook.usual()
        return () if isinstance(scenario, Gap) or not self._waiting else (RATE, STOPPAGES, *scenario.held_by)

    def days_of(self, driver: str) -> int | Gap:
        """By how many days a driver puts off the end of `cleared`; negative where it would end later without."""
        ends = [self._end(self.outlook.without(name)) for name in ("", driver)]
        for end in ends:
            if isinstance(end, Gap):
                return end
        return (ends[0] - ends[1]).days  # type: ignore[operator,union-attr]

    @property
    def _boxed(self) -> Boxed:
        return self.day.once(Boxed)

    @property
    def _waiting(self) -> int:
        return sum(self.outlook.queues[model] for model in self.models)

    def _scenario(self) -> Scenario | Gap:
        return self.outlook.usual()

    def _end(self, scenario: Scenario | Gap) -> date | Gap:
        window = scenario if isinstance(scenario, Gap) else self._cleared(scenario)
        return window if isinstance(window, Gap) else window.last

    def _cleared(self, scenario: Scenario) -> Window | Gap:
        if not self._waiting:
            return Gap("nobody stands in the queue")
        days = np.sort(scenario.cleared(self.models))
        return self._window(_quantile(days, LOW), _quantile(days, HIGH))

    def _places(self, places: dict[str, int]) -> Found | Gap:
        """From the first day of the earliest to the last day of the latest of the windows of these places, one a model."""
        scenario = self._scenario()
        if isinstance(scenario, Gap):
            return scenario
        ends = [scenario.curves(model).windows(np.array([place])) for model, place in places.items()]
        if not ends:
            return Gap("no unit was ever boxed and no order waits")
        return self._found(self._window(min(int(low[0]) for low, _ in ends), max(int(high[0]) for _, high in ends)))

    def _window(self, first: int, last: int) -> Window | Gap:
        days = self.outlook.ahead
        if last < len(days):
            return Window(day_of(int(days[first])), day_of(int(days[last])))
        scenario = self._scenario()
        held = () if isinstance(scenario, Gap) else tuple(map(self._called, scenario.held_by))
        if held:
            return Gap(f"what is on order of {', '.join(held)} does not last so far")
        return Gap(f"it ends later than {len(days)} working days from now, further than a forecast sees")

    def _units(self, span: Window, so_far: int) -> Found | Gap:
        scenario = self._scenario()
        if isinstance(scenario, Gap):
            return scenario
        made = np.sort(np.rint(self._made(scenario, span)).astype(np.int64))
        return Found(Range(so_far + _quantile(made, LOW), so_far + _quantile(made, HIGH)), self._rows)

    def _made(self, scenario: Scenario, span: Window) -> Integers:
        """Simulated units of all kinds within a span of days, by future."""
        first, last = (int(np.searchsorted(self.outlook.ahead, day_number(one))) for one in (span.first, span.last + timedelta(1)))
        made = scenario.made(self.models, last - 1) - scenario.made(self.models, first - 1)
        return np.rint(made / max(self.outlook.past.for_orders, 0.05)).astype(np.int64)

    def _chance(self, happens: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> Found:
        share = Fraction(int(happens.sum()), len(happens))
        return Found(share, self._rows, decimals=share_decimals(share))

    def _days_of_drivers(self) -> dict[str, int] | Gap:
        found: dict[str, int] = {}
        if not self.drivers():
            scenario = self._scenario()
            return scenario if isinstance(scenario, Gap) else Gap("nobody stands in the queue")
        for name in self.drivers():
            days = self.days_of(name)
            if isinstance(days, Gap):
                return days
            found[name] = days
        return found

    def _called(self, driver: str) -> str:
        return driver if driver in (RATE, STOPPAGES) else self.day.once(Materials).name(driver).text

    def _found(self, value: Value | Gap) -> Found | Gap:
        return value if isinstance(value, Gap) else Found(value, self._rows)

    def _rows(self) -> Records:
        """The scans of the history, the orders in the queues, stops, and deliveries of the parts that hold the line up."""
        boxing, orders = self.day.table("boxing").frame, self.day.table("orders").frame
        since = day_of(int(self.outlook.past.days[0])) if len(self.outlook.past.days) else self.day.as_of
        queued = self.day.once(backlog_of).queued & orders["model"].isin(self.models).to_numpy()
        rows = {
            "boxing": _records(boxing, boxing["model"].isin(self.models) & (boxing["day"] >= pd.Timestamp(since))),
            "orders": orders.index.to_numpy(np.int64)[queued],
        }
        scenario = self._scenario()
        if self.day.has("supply") and isinstance(scenario, Scenario) and scenario.held_by:
            supply = self.day.table("supply").frame
            rows["supply"] = _records(supply, supply["part"].isin(scenario.held_by) & supply["state"].isin(ON_THE_WAY))
        return rows


class Driver(Scope):
    """One thing that drives the end of the window."""

    tables = ("orders", "boxing")

    def __init__(self, day: Day, prospects: Prospects, name: str) -> None:
        """Whose window, and what is left out."""
        super().__init__(day)
        self.prospects, self.name = prospects, name

    @fact("day", FORECAST)
    def itself(self) -> Found | Gap:
        """Days by which the window of `cleared` ends earlier when simulated without it."""
        days = self.prospects.days_of(self.name)
        return days if isinstance(days, Gap) else Found(days, self.prospects._rows)


class ModelForecast(Prospects):
    """One model alone."""

    @property
    def _boxed(self) -> Boxed:
        found = self.day.once(Boxed).of.function(self.day.once(Boxed), self.models[0])
        if not isinstance(found, Boxed):
            raise LookupError(f"{self.models[0]} has facts of forecast but none of boxed")
        return found


class Forecast(Prospects):
    """All models together, single orders, and dates told before."""

    def __init__(self, day: Day) -> None:
        """Every model that was made or is waited for."""
        super().__init__(day, day.once(models_of))

    @classmethod
    def newest(cls, day: Day) -> date | None:
        """The day of the newest scan."""
        return Boxed.newest(day)

    @fact("order", FORECAST, tables=())
    def moved(self) -> Found | Gap:
        """Orders in the queue whose window now ends later than they were told, by more than `window_moved_days`."""
        late = self._late()
        return late if isinstance(late, Gap) else Found(len(late[0]), self._told_rows(late[0]))

    @fact("day", FORECAST, decimals=1)
    def moved_days(self) -> Found | Gap:
        """The median of the days by which the windows of the orders of `moved` now end later than they were told."""
        late = self._late()
        if isinstance(late, Gap):
            return late
        return Found(median(late[1]), self._told_rows(late[0])) if len(late[0]) else Gap("no window moved")

    @door("call", choices="model_choices")
    def of(self, model: str) -> ModelForecast | None:
        """The same facts for one model."""
        return ModelForecast(self.day, (model,)) if model in self.models else None

    @door("item")
    def order(self, number: str) -> OrderForecast | None:
        """One order."""
        return OrderForecast(self.day, number)

    @door("item")
    def arrive(self, number: str) -> OrderArrival | None:
        """One order at its door."""
        return OrderArrival(self.day, number)

    def model_choices(self) -> tuple[str, ...]:
        """The models that have facts of their own."""
        return self.models

    def _late(self) -> tuple[Integers, Integers] | Gap:
        """Positions in the frame of orders, and by how many days."""
        windows = self.day.once(order_windows)
        if isinstance(windows, Gap):
            return windows
        days = (windows.last - self.day.once(telling_of).latest).astype("timedelta64[D]")
        known = np.flatnonzero(~np.isnat(days))
        late = days[known].astype(np.int64)
        chosen = late > self.day.settings.checks.window_moved_days
        return known[chosen], late[chosen]

    def _told_rows(self, positions: Integers) -> Callable[[], Records]:
        def rows() -> Records:
            found = {**self._rows(), "orders": self.day.table("orders").frame.index.to_numpy(np.int64)[positions]}
            told = self.day.once(telling_of).latest_row[positions]
            if self.day.has("told"):
                found["told"] = self.day.table("told").frame.index.to_numpy(np.int64)[told[told >= 0]]
            return found

        return rows


class OrderForecast(Scope):
    """One order: all its lines that still wait."""

    tables = ("orders", "boxing")

    def __init__(self, day: Day, number: str) -> None:
        """An order by its number."""
        super().__init__(day)
        self.number = number

    @fact("window", FORECAST)
    def itself(self) -> Found | Gap:
        """When the last unit of the order will be boxed, by its place in the queue: the central 80 % of the simulated futures."""
        window = self.window()
        return window if isinstance(window, Gap) else Found(window, self.rows)

    def window(self) -> Window | Gap:
        """The window of its last line."""
        backlog, positions = self.day.once(backlog_of), self.positions()
        waiting = positions[backlog.waiting[positions]]
        if not len(positions):
            return Gap("there is no such order")
        if not len(waiting):
            return Gap("no unit of the order is waiting any more")
        if not backlog.queued[waiting].all():
            return Gap("the order stands outside the queue: it is held, or its refund was asked for")
        windows = self.day.once(order_windows)
        if isinstance(windows, Gap):
            return windows
        first, last = windows.first[waiting], windows.last[waiting]
        if np.isnat(last).any():
            return Gap("its window ends later than parts on order or the forecast reach")
        return Window(first.max().item(), last.max().item())

    def positions(self) -> Integers:
        """Its rows in the frame of orders."""
        return np.flatnonzero(texts(self.day.table("orders").frame["order"]) == self.number)

    def rows(self) -> Records:
        """The rows of the forecast, of orders only its own."""
        orders = self.day.table("orders").frame.index.to_numpy(np.int64)[self.positions()]
        return {**self.day.once(Forecast)._rows(), "orders": orders}


class OrderArrival(OrderForecast):
    """One order on its way to the door."""

    @fact("window", FORECAST, tables=("lanes",))
    def itself(self) -> Found | Gap:
        """When the order will be with its customer: the window of boxing and the working days that its market's lane takes."""
        window = self.window()
        if isinstance(window, Gap):
            return window
        market = str(self.day.table("orders").frame["market"].iloc[int(self.positions()[0])])
        lanes = self.day.table("lanes").frame
        lane = lanes[lanes["market"] == market]
        if lane.empty:
            return Gap(f"{self.day.tables.file('lanes')} has no lane to {market}")
        later = [self.day.calendar.add_working_days, self.day.calendar.add_working_days]
        days = [int(lane[name].iloc[0]) for name in ("days_low", "days_high")]
        return Found(Window(later[0](window.first, days[0]), later[1](window.last, days[1])), self.rows)


def _quantile(ordered: Integers, level: float) -> int:
    """The least value that at least a share of the futures do not exceed."""
    return int(ordered[max(int(np.ceil(level * len(ordered) - 1e-9)), 1) - 1])


def _counted(found: Found | Gap) -> int:
    return int(found.value) if isinstance(found, Found) else 0  # type: ignore[arg-type]


def _records(frame: pd.DataFrame, mask: pd.Series[bool]) -> Integers:
    return frame.index[mask].to_numpy(np.int64)
