"""The backtest of a maker: windows as of each past week held against what came, and those that bulletins told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import date
from typing import Any

import numpy as np

from bulletin.facts.ahead.as_told import PastWindow, ToldBand, as_told
from bulletin.facts.ahead.outlook import Outlook
from bulletin.facts.counting.keys import Integers
from bulletin.facts.scopes.calendar import day_of
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Gap
from bulletin.forecast.backtest import KNOWN, Replayed, replay
from bulletin.forecast.tally import Tally, tally
from bulletin.model import WindowsTold

NOTE = "output alone is replayed: what parts allowed can't be told from one count of stock"


@dataclass(frozen=True)
class Backtest:
    """A tally of each place in the line, all windows, the open days by which windows ought to be widened, and what to know.

    `told` are the windows of bulletins on record, by place in the queue of the model, parts and all.
    """

    as_of: date
    tallies: tuple[Tally, ...]
    windows: tuple[PastWindow, ...]
    widening: int
    told: tuple[ToldBand, ...] = ()
    note: str = NOTE

    def series(self, place: int) -> tuple[PastWindow, ...]:
        """The windows of one place in the order of the weeks, as a chart draws them."""
        return tuple(window for window in self.windows if window.place == place)

    def as_json(self) -> dict[str, Any]:
        """Everything as JSON has it: days as ISO 8601, shares as fractions, losses in open days."""
        told = {"as_of": self.as_of.isoformat(), "note": self.note, "widening": self.widening}
        bands = [{**asdict(band), "shown": [_as_json(window) for window in band.shown]} for band in self.told]
        windows = [_as_json(window) for window in self.windows]
        return {**told, "places": [asdict(one) for one in self.tallies], "as_told": bands, "windows": windows}


def backtest_of(day: Day, told: Sequence[WindowsTold] = ()) -> Backtest | Gap:
    """The backtest of all output up to a day, and of what bulletins told; why there is none."""
    outlook = day.once(Outlook)
    days = np.concatenate([outlook.past.days, outlook.ahead])
    replayed = replay(outlook.hindsight)
    bands = as_told(day, told)
    if not replayed and not bands:
        return Gap(f"no place was reached in a week that {KNOWN} open days of output came before")
    windows = tuple(_in_days(one, days) for one in replayed)
    return Backtest(day.as_of, tuple(tally(replayed)), windows, outlook.widening, bands)


def _in_days(one: Replayed, days: Integers) -> PastWindow:
    at = np.minimum([one.as_of, one.first, one.last, one.came], len(days) - 1)
    as_of, first, last, came = (day_of(int(number)) for number in days[at])
    return PastWindow(as_of, one.place, first, last, came)


def _as_json(window: PastWindow) -> dict[str, Any]:
    return {name: value.isoformat() if isinstance(value, date) else value for name, value in asdict(window).items()}
