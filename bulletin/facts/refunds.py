"""The `refunds` family: money that customers asked back and have not got yet."""

from __future__ import annotations

from datetime import timedelta

import numpy as np
import pandas as pd

from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Scope, fact

LATE_AFTER = 7
"""Working days."""


class Refunds(Scope):
    """All refunds asked for up to the day."""

    tables = ("refunds",)

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        super().__init__(day)
        frame = day.table("refunds").frame
        self._unpaid = frame[frame["paid"].isna()]

    @fact("refund")
    def open(self) -> Found | Gap:
        """Refunds that were asked for and are not paid."""
        return _count(self._unpaid)

    @fact("refund")
    def late(self) -> Found | Gap:
        """Refunds not paid that were asked for more than 7 working days ago."""
        working = self.day.calendar.working_days_before(self.day.as_of + timedelta(days=1), LATE_AFTER + 1)
        if len(working) <= LATE_AFTER:
            return Gap(f"there are no {LATE_AFTER + 1} working days up to the as-of date")
        return _count(self._unpaid[self._unpaid["asked"] < np.datetime64(working[0])])


def _count(rows: pd.DataFrame) -> Found:
    return Found(len(rows), lambda: {"refunds": rows.index.to_numpy(np.int64)})
