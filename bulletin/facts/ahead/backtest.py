"""The backtest of a maker: windows as of each past week held against what came, as a table, as data and as a series to draw."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import date
from typing import Any

import numpy as np

from bulletin.facts.ahead.outlook import Outlook
from bulletin.facts.counting.keys import Integers
from bulletin.facts.scopes.calendar import day_of
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Gap
from bulletin.forecast.backtest import KNOWN, Replayed, replay
from bulletin.forecast.tally import Tally, tally

NOTE = "output alone is replayed: what parts allowed can't be told from one count of stock"


@dataclass(frozen=True)
class PastWindow:
    """One window in days: as of when, for which place in the line, from when to when, and when it came."""

    as_of: date
    place: int
    first: date
    last: date
    came: date


@dataclass(frozen=True)
class Backtest:
    """A tally of each place in the line, all windows, the open days by which windows ought to be widened, and what to know."""

    as_of: date
    tallies: tuple[Tally, ...]
    windows: tuple[PastWindow, ...]
    widening: int
    note: str = NOTE

    def series(self, place: int) -> tuple[PastWindow, ...]:
        """The windows of one place in the order of the weeks, as a chart draws them."""
        return tuple(window for window in self.windows if window.place == place)

    def as_json(self) -> dict[str, Any]:
        """Everything as JSON has it: days as ISO 8601, shares as fractions, losses in open days."""
        windows = [
            {name: value.isoformat() if isinstance(value, date) else value for name, value in asdict(window).items()}
            for window in self.windows
        ]
        told = {"as_of": self.as_of.isoformat(), "note": self.note, "widening": self.widening}
        return {**told, "places": [asdict(one) for one in self.tallies], "windows": windows}


def backtest_of(day: Day) -> Backtest | Gap:
    """The backtest of all output up to a day; why there is none."""
    outlook = day.once(Outlook)
    days = np.concatenate([outlook.past.days, outlook.ahead])
    replayed = replay(outlook.hindsight)
    if not replayed:
        return Gap(f"no place was reached in a week that {KNOWN} open days of output came before")
    return Backtest(day.as_of, tuple(tally(replayed)), tuple(_in_days(one, days) for one in replayed), outlook.widening)


def _in_days(one: Replayed, days: Integers) -> PastWindow:
    at = np.minimum([one.as_of, one.first, one.last, one.came], len(days) - 1)
    as_of, first, last, came = (day_of(int(number)) for number in days[at])
    return PastWindow(as_of, one.place, first, last, came)
