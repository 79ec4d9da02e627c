"""What the line made on each day it was open: the history from which forecasts are drawn.

A unit counts on the day it was first boxed, also while it stands opened for rework that is not four weeks old: it was made.
Units for stock and replacements take their share of the line but serve no waiting order. What was boxed on a day off counts for
the open day before it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd

from bulletin.facts.ahead.open_days import open_days_behind
from bulletin.facts.counting.joins import serial_keys
from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.models import models_of
from bulletin.facts.counting.units import standing, units_of
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day

SOON_BACK = 28
"""Days for which an opened unit is taken to be in rework."""
COLUMNS = ("model", "event", "at", "day", "purpose")
FOR_OTHERS = ("stock", "replacement")
BACK = 420
"""Calendar days of history that are looked at."""
LEAST_SHARE = 0.05
RECENT = 60
"""Working days that tell which share of the output goes to orders."""


@dataclass(frozen=True, eq=False)
class PastOutput:
    """Units for orders by open day (rows) and model (columns), and all units on each day."""

    days: Integers
    models: tuple[str, ...]
    units: Integers
    everything: Integers

    @property
    def for_orders(self) -> float:
        """The share of the recent output that went to orders; 1 where there was none."""
        total = int(self.everything[-RECENT:].sum())
        return max(float(self.units[-RECENT:].sum()) / total, LEAST_SHARE) if total else 1.0


def past_output(day: Day) -> PastOutput:
    """The output up to the as-of date, whose own day is left out where nothing was scanned on it: it is not over."""
    frame = day.table("boxing").frame
    serial = day.once(serial_keys)["boxing"]
    lately = frame["day"] > pd.Timestamp(day.as_of) - pd.Timedelta(days=SOON_BACK)
    in_rework = (lately & (frame["event"] == "reopened")).to_numpy()
    kept = frame.loc[~in_rework, list(COLUMNS)] if in_rework.any() else frame
    units = standing(kept, serial[~in_rework]) if in_rework.any() else day.once(units_of)
    models = models_of(day)
    first = max(int(units.day.min()), day_number(day.as_of) - BACK) if len(units.day) else day_number(day.as_of)
    days = open_days_behind(day, first)
    if len(days) and days[-1] == day_number(day.as_of) and not (frame["day"] == pd.Timestamp(day.as_of)).any():
        days = days[:-1]
    at = np.searchsorted(days, units.day, side="right") - 1
    model = kept["model"].cat.set_categories(list(models)).cat.codes.to_numpy().astype(np.int64)[units.last]
    serves = ~kept["purpose"].isin(FOR_OTHERS).to_numpy()[units.last]
    counts = [_count(at[chosen], model[chosen], (len(days), len(models))) for chosen in (serves, ~serves)]
    return PastOutput(days, models, counts[0], (counts[0] + counts[1]).sum(axis=1))


def _count(at: Integers, model: Integers, shape: tuple[int, int]) -> Integers:
    there = at >= 0
    return np.bincount(at[there] * shape[1] + model[there], minlength=shape[0] * shape[1]).reshape(shape)
