"""Windows held against what came: as of each past week, from what was known then, beside three plain references.

Only output is replayed: what parts allowed can't be told from one count of stock. Windows that were recorded when they were
issued are `Replayed` records as well, and are tallied in the same way.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from bulletin.forecast.line import draw_paths, line_of
from bulletin.forecast.output import Integers, Output, Reals
from bulletin.forecast.references import day_bootstrap, normal_approximation, remaining_by_rate
from bulletin.forecast.windows import curves_of

FUTURES = 400
WEEKS = 40
"""Past weeks that are looked back from, at most."""
KNOWN = 20
"""Open days that must have passed before the first week that is looked back from."""
SEVERAL = 4
FAR = (5, 10, 20, 40, 60)
"""Places that are looked at, in days of mean output."""
FORECAST = "forecast"
REFERENCES = ("remaining by rate", "normal approximation", "day bootstrap")

Ends = tuple[int, int]


@dataclass(frozen=True)
class Replayed:
    """One window and what came: `as_of` is the position of a day in the history, the other days are positions in it too.

    `first` and `last` are those of the forecast, `others` those of the references by name; `came` is the day on which the place
    was reached.
    """

    as_of: int
    place: int
    first: int
    last: int
    came: int
    others: Mapping[str, Ends] = field(default_factory=dict)

    def ends(self, way: str) -> Ends:
        """The window that one way of telling gave."""
        return (self.first, self.last) if way == FORECAST else self.others[way]


@dataclass(frozen=True, eq=False)
class Hindsight:
    """A history looked back over: `units` are those of each open day, `days` the numbers of these days (counted from 1970-01-01)
    followed by those of open days still ahead.
    """

    units: Integers
    days: Integers

    @cached_property
    def weeks(self) -> list[int]:
        """The positions of the last open day of each past week, once enough is known."""
        week = (self.days[: len(self.units)] + 3) // 7
        ends = np.flatnonzero(np.append(np.diff(week) > 0, False))
        found: list[int] = ends[ends >= KNOWN - 1][-WEEKS:].tolist()
        return found

    @cached_property
    def places(self) -> Integers:
        """The places that are looked at."""
        if not len(self.units):
            return np.zeros(0, np.int64)
        return np.unique(np.maximum(np.rint(float(self.units.mean()) * np.array(FAR)), 1).astype(np.int64))

    def came(self, at: int) -> Integers:
        """The position of the day on which each place was reached, of those that have been, for who stood there after a day."""
        came = at + 1 + np.searchsorted(np.cumsum(self.units[at + 1 :]), self.places)
        return came[came < len(self.units)]

    def separate(self, number: int) -> list[tuple[int, int]]:
        """Weeks of which each begins when the place of the one before had come, from the first on, and when the place came."""
        found: list[tuple[int, int]] = []
        for at in self.weeks:
            came = self.came(at)
            if number < len(came) and (not found or at >= found[-1][1]):
                found.append((at, int(came[number])))
        return found

    def told(self, at: int, places: Integers) -> tuple[Integers, Integers] | None:
        """The first and the last day of the window of each place as of a day, as positions; None where too little was known."""
        line = line_of(Output(self.units[: at + 1], self._weekday[: at + 1]), len(self._ahead(at, int(self.places[-1]))))
        if line is None:
            return None
        low, high = curves_of(draw_paths(line, self._ahead(at, int(places[-1])), FUTURES)).windows(places)
        return at + 1 + low, at + 1 + high

    def plainly_told(self, at: int, places: Integers) -> dict[str, tuple[Integers, Integers]]:
        """The same by each of the references."""
        known, ahead = self.units[: at + 1], len(self._ahead(at, int(places[-1])))
        ways = (
            remaining_by_rate(known, places),
            normal_approximation(known, places),
            day_bootstrap(known, places, ahead, FUTURES),
        )
        return {name: (_after(at, low), _after(at, high)) for name, (low, high) in zip(REFERENCES, ways, strict=True)}

    @cached_property
    def _weekday(self) -> Integers:
        return (self.days + 3) % 7

    def _ahead(self, at: int, place: int) -> Integers:
        """The weekdays that are simulated for a place: several times the days that the recent rate asks for."""
        known = self.units[: at + 1]
        rate = max(float(known[-KNOWN:].mean()), float(known.mean()), 1e-3)
        return self._weekday[at + 1 :][: int(SEVERAL * place / rate) + KNOWN]


def replay(hindsight: Hindsight) -> list[Replayed]:
    """All windows of past weeks whose places have been reached, by week and place."""
    return [replayed for at in hindsight.weeks for replayed in _as_of(hindsight, at)]


def _as_of(hindsight: Hindsight, at: int) -> list[Replayed]:
    """The windows as of one day."""
    came = hindsight.came(at)
    places = hindsight.places[: len(came)]
    told = hindsight.told(at, places) if len(places) else None
    if told is None:
        return []
    ways = {FORECAST: told, **hindsight.plainly_told(at, places)}
    ends = [{way: (int(low[number]), int(high[number])) for way, (low, high) in ways.items()} for number in range(len(places))]
    windows = zip(places, came, ends, strict=True)
    return [Replayed(at, int(place), *found.pop(FORECAST), int(day), found) for place, day, found in windows]


def _after(at: int, days: Reals) -> Integers:
    """Days ahead as positions in the history."""
    return at + 1 + days.astype(np.int64)
