"""The `promises` family: what was promised by a day, and whether it was kept.

A promise is kept when it was done on or before its due day, late when it was done after it or is open past it. Withdrawn ones
count neither way.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.medians import median
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, fact
from bulletin.facts.scopes.items import Item, Items
from bulletin.formats.exact import share_decimals
from bulletin.model import Basis

Chosen = NDArray[np.bool_]
NONE_DUE = Gap("no promise was kept or late yet")


class Standing(NamedTuple):
    """How promises stand on a day, one entry a row; `days_late` is 0 for those that are not late."""

    state: NDArray[np.str_]
    done: Chosen
    days_late: Integers


def standing_of(day: Day) -> Standing:
    """How every promise stands on a day."""
    frame = day.table("promises").frame
    as_of = pd.Timestamp(day.as_of)
    withdrawn = (frame["state"] == "withdrawn") | frame["withdrawn"].notna()
    done = ~withdrawn & ((frame["state"] == "kept") | frame["done"].notna())
    ended = frame["done"].where(frame["done"].notna(), frame["due"].where(done, as_of))
    days_late = (ended - frame["due"]).dt.days.clip(lower=0).where(~withdrawn, 0).to_numpy().astype(np.int64)
    state = np.select([withdrawn, days_late > 0, done], ["withdrawn", "late", "kept"], "open")
    return Standing(state, done.to_numpy(), days_late)


class Promise(Item):
    """One promise."""

    @fact("date")
    def due(self) -> Found | Gap:
        """The day by which it was promised."""
        return Found(self.row["due"].date(), self.row.records, self.basis)

    @fact("state")
    def state(self) -> Found | Gap:
        """Open, kept (done on or before its day), late (done after it, or open past it) or withdrawn."""
        return Found(self._state, self.row.records, self.basis)

    @fact("day")
    def late_by(self) -> Found | Gap:
        """Days from the due day to the day it was done, or to the as-of date while it is not; 0 for one that was kept."""
        if self._state in ("open", "withdrawn"):
            return Gap("it is not due yet" if self._state == "open" else "it was withdrawn")
        return Found(int(self._standing.days_late[self.row.position]), self.row.records)

    @property
    def _standing(self) -> Standing:
        return self.day.once(standing_of)

    @property
    def _state(self) -> str:
        return str(self._standing.state[self.row.position])

    @property
    def basis(self) -> Basis:
        """A promise still to be kept commits the maker; what became of any other is on record."""
        return Basis.COMMITMENT if self._state == "open" else Basis.RECORD


class Promises(Items):
    """All promises made up to the day."""

    tables = ("promises",)
    kind = "promise"
    item_type = Promise

    @fact("promise")
    def open(self) -> Found | Gap:
        """Promises that are neither done nor withdrawn, those past their day among them."""
        return self._count(~self._standing.done & (self._standing.state != "withdrawn"))

    @fact("promise")
    def kept(self) -> Found | Gap:
        """Promises that were done on or before their day."""
        return self._count(self._is("kept"))

    @fact("promise")
    def late(self) -> Found | Gap:
        """Promises that were done after their day, or are past it and not done."""
        return self._count(self._is("late"))

    @fact("share")
    def kept_share(self) -> Found | Gap:
        """Promises kept, as a share of those kept and late."""
        kept, due = self._is("kept"), self._is("kept", "late")
        if not due.any():
            return NONE_DUE
        share = Fraction(int(kept.sum()), int(due.sum()))
        return Found(share, lambda: self._rows(due), decimals=share_decimals(share))

    @fact("day", decimals=1)
    def slip(self) -> Found | Gap:
        """The median of the days late of promises kept (0 days) and late ones, open ones to the as-of date."""
        due = self._is("kept", "late")
        return Found(median(self._standing.days_late[due]), lambda: self._rows(due)) if due.any() else NONE_DUE

    @cached_property
    def _standing(self) -> Standing:
        return self.day.once(standing_of)

    def _is(self, *states: str) -> Chosen:
        return np.isin(self._standing.state, states)

    def _count(self, chosen: Chosen) -> Found:
        return Found(int(chosen.sum()), lambda: self._rows(chosen))

    def _rows(self, chosen: Chosen) -> Records:
        return {"promises": self.day.table("promises").frame.index[chosen].to_numpy(np.int64)}
