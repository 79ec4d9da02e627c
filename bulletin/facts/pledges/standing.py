"""How every promise of a day stands: those of promises.csv, and those that bulletins on record made.

A forecast is decided by what came. Any other promise of a bulletin is answered by the row of its name in promises.csv; one that
tells of a promise on record by that promise. Whatever is told twice counts once: a row that answers does not count beside what it
answers, nor does a promise told again with the day that was told before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial

import numpy as np
import pandas as pd

from bulletin.facts.pledges.outcomes import outcome_of
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Records, no_rows
from bulletin.model import Promised

FAMILY = "promises"


@dataclass(frozen=True, slots=True)
class Standing:
    """One promise: its due day, the day it was done (its due day where a row tells none), whether it counts beside the others.

    `promised` is what a bulletin promised, where one did.
    """

    as_of: date
    due: date
    done: date | None
    withdrawn: bool
    counts: bool = True
    promised: Promised | None = None
    records: Callable[[], Records] = no_rows

    @property
    def days_late(self) -> int:
        """Days from the due day to the one it was done, or to the as-of date while it is not; 0 for one that is not late."""
        return 0 if self.withdrawn else max(((self.done or self.as_of) - self.due).days, 0)

    @property
    def state(self) -> str:
        """`open`, `kept`, `late` or `withdrawn`."""
        if self.withdrawn:
            return "withdrawn"
        if self.days_late:
            return "late"
        return "open" if self.done is None else "kept"

    @property
    def is_open(self) -> bool:
        """Whether it is neither done nor withdrawn."""
        return self.done is None and not self.withdrawn


def promises_of(day: Day) -> Mapping[str, Standing]:
    """All promises made up to a day, by name."""
    rows = dict(_rows(day))
    found = dict(rows)
    for promised in day.promised:
        found[promised.promise] = _issued(day, promised, rows, found)
    return dict(sorted(found.items()))


def _rows(day: Day) -> Iterator[tuple[str, Standing]]:
    """The rows of promises.csv."""
    if not day.has("promises"):
        return
    frame = day.table("promises").frame
    columns = (frame[name].tolist() for name in ("promise", "due", "state", "done", "withdrawn"))
    for record, promise, due, state, done, withdrawn in zip(frame.index.tolist(), *columns, strict=True):
        ended = due if state == "kept" and pd.isna(done) else done
        gone = state == "withdrawn" or not pd.isna(withdrawn)
        done_on = None if gone or pd.isna(ended) else ended.date()
        yield str(promise), Standing(day.as_of, due.date(), done_on, gone, records=partial(_row, record))


def _row(record: int) -> Records:
    return {FAMILY: np.array([record], np.int64)}


def _issued(day: Day, promised: Promised, rows: Mapping[str, Standing], before: Mapping[str, Standing]) -> Standing:
    """A promise of a bulletin, after all that was promised before it."""
    outcome = outcome_of(day, promised)
    if outcome is not None:
        return Standing(day.as_of, promised.due, outcome.done, outcome.void, promised=promised, records=outcome.records)
    again = _told_of(promised) & before.keys()
    answers = [rows[promised.promise]] if promised.promise in rows else [before[name] for name in sorted(again)]
    told = {before[name].due for name in again}
    told |= {other.due for other in before.values() if other.promised and again & _told_of(other.promised)}
    kept = [answer.done for answer in answers if not answer.withdrawn]
    return Standing(
        day.as_of,
        promised.due,
        max((done for done in kept if done), default=None) if None not in kept else None,
        withdrawn=bool(answers) and not kept,
        counts=promised.due not in told,
        promised=promised,
        records=answers[0].records if answers else no_rows,
    )


def _told_of(promised: Promised) -> set[str]:
    """The promises whose facts a promise was made of."""
    return {path[1].text for path, _ in promised.said if len(path) > 1 and path[0].text == FAMILY}
