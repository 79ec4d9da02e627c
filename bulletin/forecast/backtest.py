"""Windows held against what came: as of each past week, from what was known then, beside three plain references.

Only output is replayed: what parts allowed can't be told from one count of stock. Windows that were recorded when they were
issued are `Replayed` records as well, and are tallied in the same way.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

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


def looked_back_from(days: Integers) -> Integers:
    """The positions of the last open day of each week of a history (days counted from 1970-01-01), once enough is known."""
    week = (days + 3) // 7
    ends = np.flatnonzero(np.append(np.diff(week) > 0, False))
    return ends[ends >= KNOWN - 1][-WEEKS:]


def places_of(units: Integers) -> Integers:
    """The places that are looked at."""
    return np.unique(np.maximum(np.rint(float(units.mean()) * np.array(FAR)), 1).astype(np.int64))


def replay(units: Integers, days: Integers) -> list[Replayed]:
    """All windows of past weeks whose places have been reached, by week and place.

    `units` are those of each open day; `days` the numbers of these days, followed by those of open days still ahead.
    """
    weekday = (days + 3) % 7
    places = places_of(units) if len(units) else np.zeros(0, np.int64)
    weeks = looked_back_from(days[: len(units)]).tolist()
    return [replayed for at in weeks for replayed in _as_of(units, weekday, places, at)]


def _as_of(units: Integers, weekday: Integers, places: Integers, at: int) -> list[Replayed]:
    """The windows as of one day."""
    came = np.searchsorted(np.cumsum(units[at + 1 :]), places)
    places, came = places[came < len(units) - at - 1], came[came < len(units) - at - 1]
    if not len(places):
        return []
    known = units[: at + 1]
    ahead = weekday[at + 1 :][: _reach(known, int(places[-1]))]
    line = line_of(Output(known, weekday[: at + 1]), len(ahead))
    if line is None:
        return []
    low, high = curves_of(draw_paths(line, ahead, FUTURES)).windows(places)
    others = (
        remaining_by_rate(known, places),
        normal_approximation(known, places),
        day_bootstrap(known, places, len(ahead), FUTURES),
    )
    begin = at + 1
    return [
        Replayed(
            at,
            int(place),
            begin + int(low[number]),
            begin + int(high[number]),
            begin + int(came[number]),
            {name: _ends(found, number, begin) for name, found in zip(REFERENCES, others, strict=True)},
        )
        for number, place in enumerate(places)
    ]


def _reach(known: Integers, place: int) -> int:
    """Open days that are simulated for a place: several times those that the recent rate asks for."""
    rate = max(float(known[-KNOWN:].mean()), float(known.mean()), 1e-3)
    return int(SEVERAL * place / rate) + KNOWN


def _ends(found: tuple[Reals, Reals], number: int, begin: int) -> Ends:
    return begin + int(found[0][number]), begin + int(found[1][number])
