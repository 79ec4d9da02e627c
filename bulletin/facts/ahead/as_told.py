"""Windows as bulletins told them, held against what came of each order: parts, holds and all that a replay does not know.

Only windows whose last day has passed are looked at, whatever came of them; an order that left the queue unserved is left out.
Lines of one bulletin share its futures: whether as many windows held as should is judged on one window a bulletin, of bulletins
each of which was told when the window of the one before had come.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

import numpy as np

from bulletin.facts.ahead.outlook import Outlook
from bulletin.facts.counting.keys import Integers
from bulletin.facts.pledges.serving import NEVER, Serving
from bulletin.facts.scopes.calendar import day_number, day_of
from bulletin.facts.scopes.day import Day
from bulletin.forecast.backtest import FORECAST, Replayed
from bulletin.forecast.output import Chosen
from bulletin.forecast.scoring import coverage_band
from bulletin.forecast.tally import SHARE, Score, held, score_of, separate
from bulletin.model import WindowsTold


@dataclass(frozen=True)
class PastWindow:
    """One window in days: as of when, for which place, from when to when, and when it came; None where it has not."""

    as_of: date
    place: int
    first: date
    last: date
    came: date | None

    @property
    def held(self) -> bool:
        """Whether what came lies in it."""
        return self.came is not None and self.first <= self.came <= self.last


@dataclass(frozen=True)
class ToldBand:
    """Windows told of places from the first to the last (None: of all further ones).

    `outstanding` of them have not come yet: they count as later, with losses up to the as-of date. `band` is how many of the
    separate ones come true if the windows are right, 95 times in 100. `shown` holds one window a bulletin.
    """

    first_place: int
    last_place: int | None
    bulletins: int
    windows: int
    outstanding: int
    separate: int
    separate_held: int
    band: tuple[int, int]
    score: Score
    shown: tuple[PastWindow, ...]


@dataclass(frozen=True, eq=False)
class _Told:
    """One entry a window: the numbers of the day it was told of, of its ends, of the day that came (or NEVER), and its place."""

    as_of: Integers
    place: Integers
    first: Integers
    last: Integers
    came: Integers

    def where(self, chosen: Chosen | Integers) -> _Told:
        return _Told(*(part[chosen] for part in (self.as_of, self.place, self.first, self.last, self.came)))


def as_told(day: Day, told: Sequence[WindowsTold]) -> tuple[ToldBand, ...]:
    """The windows of bulletins by place in the queue: bands that end with the places of the replay, and all further ones."""
    past, rows = day.once(Outlook).past.days, _rows(day) if told else {}
    found = [_of_bulletin(day, one, rows) for one in told if len(past) and day_number(one.as_of) >= past[0]]
    if not found:
        return ()
    return tuple(_bands(day, _Told(*(np.concatenate(parts) for parts in zip(*map(_parts, found), strict=True)))))


def _parts(told: _Told) -> tuple[Integers, ...]:
    return told.as_of, told.place, told.first, told.last, told.came


def _rows(day: Day) -> dict[tuple[str, str], int]:
    """The row of each line of an order."""
    frame = day.table("orders").frame
    return {key: row for row, key in enumerate(zip(frame["order"].tolist(), frame["line"].astype("str").tolist(), strict=True))}


def _of_bulletin(day: Day, told: WindowsTold, rows: dict[tuple[str, str], int]) -> _Told:
    """The windows of one bulletin whose lines are still known and were served or still stand in a queue."""
    serving = day.once(Serving)
    known = [(one, rows[one.order, one.line]) for one in told.windows if (one.order, one.line) in rows]
    row = np.array([at for _, at in known], np.int64)
    ends = [(one.place, day_number(one.window.first), day_number(one.window.last)) for one, _ in known]
    place, first, last = np.array(ends, np.int64).reshape(-1, 3).T
    every = _Told(np.full(len(row), day_number(told.as_of)), place, first, last, serving.served[row])
    return every.where((serving.served[row] != NEVER) | ~serving.outside()[row])


def _bands(day: Day, told: _Told) -> Iterator[ToldBand]:
    edges = [0, *day.once(Outlook).hindsight.places.tolist(), NEVER]
    for before, last in pairwise(edges):
        within = told.where((told.place > before) & (told.place <= last))
        if len(within.place):
            yield _band(day, within, (before + 1, None if last == NEVER else last))


def _band(day: Day, told: _Told, places: tuple[int, int | None]) -> ToldBand:
    outlook = day.once(Outlook)
    days = np.concatenate([outlook.past.days, outlook.ahead])
    last_known = np.minimum(told.came, day_number(day.as_of))
    parts = (told.as_of, told.first, told.last, last_known)
    as_of, first, last, came = (np.searchsorted(days, part, side="right") - 1 for part in parts)
    came = np.where(told.came == NEVER, np.maximum(came, last + 1), came)
    one_each = _one_a_bulletin(told)
    columns = np.stack([as_of, told.place, first, last, came])[:, one_each].T.tolist()
    replayed = [Replayed(*row) for row in columns]
    apart = separate(replayed)
    return ToldBand(
        *places,
        bulletins=len(one_each),
        windows=len(came),
        outstanding=int((told.came == NEVER).sum()),
        separate=len(apart),
        separate_held=sum(map(held, apart)),
        band=coverage_band(len(apart), SHARE),
        score=score_of(FORECAST, *(part.astype(np.float64) for part in (first, last, came))),
        shown=tuple(_shown(told.where(one_each))),
    )


def _one_a_bulletin(told: _Told) -> Integers:
    """The window of the furthest place of each bulletin, by the day it was told of."""
    furthest = np.lexsort((-told.place, told.as_of))
    _, begin = np.unique(told.as_of[furthest], return_index=True)
    chosen: Integers = furthest[begin]
    return chosen


def _shown(told: _Told) -> Iterator[PastWindow]:
    for as_of, place, first, last, came in zip(*(part.tolist() for part in _parts(told)), strict=True):
        yield PastWindow(day_of(as_of), place, day_of(first), day_of(last), None if came == NEVER else day_of(came))
