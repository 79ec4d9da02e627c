"""The `promises` family: what was promised by a day, and whether it was kept.

A promise is kept when it was done on or before its due day, late when it was done after it or is open past it. Withdrawn ones
count neither way. They are the rows of promises.csv, and what bulletins on record promised (`pledges/standing.py`).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cached_property, partial

import numpy as np

from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.medians import median
from bulletin.facts.pledges.standing import Standing, promises_of
from bulletin.facts.scopes.columns import Sheet
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Found, Gap, Records, Scope, door, fact
from bulletin.formats.exact import share_decimals
from bulletin.model import Basis, Value

NONE_DUE = Gap("no promise was kept or late yet")


class Promise(Scope):
    """One promise."""

    def __init__(self, day: Day, name: str, standing: Standing) -> None:
        """How it stands."""
        super().__init__(day)
        self.name, self.standing = name, standing

    @fact("date")
    def due(self) -> Found | Gap:
        """The day by which it was promised."""
        return Found(self.standing.due, self.standing.records, self.basis)

    @fact("state")
    def state(self) -> Found | Gap:
        """Open, kept (done on or before its day), late (done after it, or open past it) or withdrawn."""
        return Found(self.standing.state, self.standing.records, self.basis)

    @fact("day")
    def late_by(self) -> Found | Gap:
        """Days from the due day to the day it was done, or to the as-of date while it is not; 0 for one that was kept."""
        if self.standing.state in ("open", "withdrawn"):
            return Gap("it is not due yet" if self.standing.state == "open" else "it was withdrawn")
        return Found(self.standing.days_late, self.standing.records)

    @property
    def basis(self) -> Basis:
        """A promise still to be kept commits the maker, a forecast no more than it did; what became of any is on record."""
        if self.standing.state != "open":
            return Basis.RECORD
        return self.standing.promised.basis if self.standing.promised else Basis.COMMITMENT

    def columns(self) -> Mapping[str, Callable[[], Found | Gap]]:
        """The columns of its row; those that a row would have of what a bulletin promised."""
        return self._columns

    @cached_property
    def _columns(self) -> Mapping[str, Callable[[], Found | Gap]]:
        if self.standing.promised is None:
            row = self.day.once(promise_sheet).row(self.name)
            return row.columns(self.basis) if row else {}
        told: dict[str, tuple[Value | None, str]] = {
            "promise": (self.name, "text"),
            "made": (self.standing.promised.made, "date"),
            "text": (self.standing.promised.text, "text"),
            "done": (self.standing.done, "date"),
        }
        return {name: partial(self._tell, value, unit) for name, (value, unit) in told.items()}

    def _tell(self, value: Value | None, unit: str) -> Found | Gap:
        return Gap("it is not done") if value is None else Found(value, self.standing.records, self.basis, unit)


def promise_sheet(day: Day) -> Sheet:
    """The rows of promises.csv."""
    return Sheet(day.table("promises"), "promise")


class Promises(Scope):
    """All promises made up to the day."""

    tables = ("promises",)

    @classmethod
    def missing(cls, day: Day) -> str:
        """What bulletins on record promised is counted without promises.csv too."""
        return "" if day.promised else super().missing(day)

    @door("item", choices="ids", name="")
    def item(self, named: str) -> Promise | None:
        """One of them."""
        standing = self._all.get(named)
        return Promise(self.day, named, standing) if standing else None

    def ids(self) -> tuple[str, ...]:
        """Those that have facts of their own."""
        return tuple(self._all)

    @fact("promise")
    def open(self) -> Found | Gap:
        """Promises that are neither done nor withdrawn, those past their day among them."""
        return self._count([one for one in self._counted if one.is_open])

    @fact("promise")
    def kept(self) -> Found | Gap:
        """Promises that were done on or before their day."""
        return self._count(self._in("kept"))

    @fact("promise")
    def late(self) -> Found | Gap:
        """Promises that were done after their day, or are past it and not done."""
        return self._count(self._in("late"))

    @fact("share")
    def kept_share(self) -> Found | Gap:
        """Promises kept, as a share of those kept and late."""
        due = self._in("kept", "late")
        if not due:
            return NONE_DUE
        share = Fraction(len(self._in("kept")), len(due))
        return Found(share, partial(rows_of, due), decimals=share_decimals(share))

    @fact("day", decimals=1)
    def slip(self) -> Found | Gap:
        """The median of the days late of promises kept (0 days) and late ones, open ones to the as-of date."""
        due = self._in("kept", "late")
        late: Integers = np.array([one.days_late for one in due], np.int64)
        return Found(median(late), partial(rows_of, due)) if due else NONE_DUE

    @cached_property
    def _all(self) -> Mapping[str, Standing]:
        return self.day.once(promises_of)

    @cached_property
    def _counted(self) -> list[Standing]:
        return [one for one in self._all.values() if one.counts]

    def _in(self, *states: str) -> list[Standing]:
        return [one for one in self._counted if one.state in states]

    def _count(self, chosen: list[Standing]) -> Found:
        return Found(len(chosen), partial(rows_of, chosen))


def rows_of(promises: list[Standing]) -> Records:
    """The rows behind some promises: those of promises.csv, and the orders that what bulletins promised was held against."""
    found: dict[str, list[Integers]] = {}
    for one in promises:
        for table, records in one.records().items():
            found.setdefault(table, []).append(records)
    return {table: np.concatenate(records) for table, records in found.items()}
