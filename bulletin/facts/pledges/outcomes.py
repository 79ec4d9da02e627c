"""What came of a forecast that a bulletin promised: what was boxed, delivered or made since decides, and nobody's word.

A window is kept when all that it speaks of were boxed by its last day; sooner than its first day is kept too. What a queue or an
order is, is what it was on the day of the bulletin's facts; who has left the queue unserved since no longer counts.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

import numpy as np
import pandas as pd

from bulletin.facts.ahead.lanes import carried
from bulletin.facts.boxed import Boxed
from bulletin.facts.counting.backlog import waiting_in_turn
from bulletin.facts.counting.keys import Integers, texts
from bulletin.facts.pledges.due import FAMILY, due_of, forecast_parts
from bulletin.facts.pledges.serving import NEVER, Chosen, Serving
from bulletin.facts.scopes.calendar import day_number, day_of
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Records, no_rows
from bulletin.model import Path, Promised, Range, Value, Window


@dataclass(frozen=True, slots=True)
class Outcome:
    """The day on which all of it had come, None while it has not; `void`: nobody is left of those whom it was made to."""

    done: date | None
    void: bool = False
    records: Callable[[], Records] = no_rows


@dataclass(frozen=True, slots=True)
class Said:
    """A fact of the forecast that a bulletin told: as of when, of which model (empty: all), its name, arguments and value."""

    day: Day
    as_of: date
    model: str
    name: str
    arguments: tuple[str, ...]
    value: Value


def outcome_of(day: Day, promised: Promised) -> Outcome | None:
    """What came of a promise up to a day; None for one that is not decided by what came."""
    said = [_read(day, promised.as_of, path, value) for path, value in promised.said if _is_dated(day, promised, path, value)]
    found = [None if one is None else _come(one) for one in said]
    decided = [outcome for outcome in found if outcome is not None]
    if not decided or len(decided) < len(found):
        return None
    asked = [outcome for outcome in decided if not outcome.void]
    days = [outcome.done for outcome in asked if outcome.done is not None]
    return Outcome(max(days) if days and len(days) == len(asked) else None, not asked, decided[0].records)


def _is_dated(day: Day, promised: Promised, path: Path, value: Value) -> bool:
    least = day.settings.checks.forecast_chance
    return due_of(tuple(step.text for step in path), value, promised.as_of, least) is not None


def _read(day: Day, as_of: date, path: Path, value: Value) -> Said | None:
    names = tuple(step.text for step in path)
    return Said(day, as_of, *forecast_parts(names), value) if names[0] == FAMILY else None


def _come(said: Said) -> Outcome | None:
    """What came of one fact; None for a fact of the forecast that nothing on record decides."""
    if said.name in ("month", "next_month", "chance_best_month"):
        return _made(said)
    rows = _lines(said)
    if rows is None:
        return None
    if said.name == "new_order" and not len(rows) and isinstance(said.value, Window) and said.day.as_of <= said.value.last:
        return Outcome(None)
    return _arrived(said.day, rows) if said.name == "arrive" else _served(said.day, rows)


def _lines(said: Said) -> Integers | None:
    """The rows of orders.csv that a fact speaks of; None where it speaks of none."""
    serving, frame = said.day.once(Serving), said.day.table("orders").frame
    of_model: Chosen = np.ones(len(frame), np.bool_) if not said.model else (frame["model"] == said.model).to_numpy()
    match said.name, said.arguments:
        case ("cleared", ()) | ("chance_cleared_by", (_,)):
            return np.flatnonzero(serving.queued(said.as_of) & of_model)
        case ("order" | "arrive", (number,)):
            return np.flatnonzero(serving.queued(said.as_of) & (texts(frame["order"]) == number))
        case ("place", (number,)):
            return _one_a_model(said.day, np.flatnonzero(serving.queued(said.as_of) & of_model), int(number))
        case ("new_order", ()):
            stays = (serving.served < NEVER) | ~serving.outside()
            return _one_a_model(said.day, np.flatnonzero((serving.placed > day_number(said.as_of)) & stays & of_model), 1)
    return None


def _one_a_model(day: Day, rows: Integers, place: int) -> Integers:
    """The row at a place among some rows of each model, where there are so many, in the order in which they are served."""
    frame = day.table("orders").frame
    models = frame["model"].astype("str").to_numpy()[rows]
    queues = [waiting_in_turn(frame, rows[models == model]) for model in sorted(set(models))]
    return np.array([queue[place - 1] for queue in queues if len(queue) >= place], np.int64)


def _served(day: Day, rows: Integers) -> Outcome:
    """Whether all lines that still stand in a queue were boxed, and by when the last of them was."""
    return _when(day, rows, day.once(Serving).served[rows])


def _arrived(day: Day, rows: Integers) -> Outcome:
    """The same for delivery; one that has left without a day of delivery arrives when the slowest of its lane would."""
    frame, serving = day.table("orders").frame.iloc[rows], day.once(Serving)
    came = np.full(len(rows), NEVER, np.int64)
    columns = (frame[name].tolist() for name in ("market", "status", "delivered"))
    for at, (row, market, status, delivered) in enumerate(zip(rows, *columns, strict=True)):
        if pd.notna(delivered):
            came[at] = day_number(delivered.date())
        elif status in ("shipped", "delivered"):
            boxed = day_of(int(serving.served[row]))
            arrival = carried(day, str(market), Window(boxed, boxed))
            came[at] = day_number(arrival.last) if isinstance(arrival, Window) and arrival.last <= day.as_of else NEVER
    return _when(day, rows, came)


def _when(day: Day, rows: Integers, came: Integers) -> Outcome:
    def records() -> Records:
        return {"orders": day.table("orders").frame.index.to_numpy(np.int64)[rows]}

    asked = ~((came == NEVER) & day.once(Serving).outside()[rows])
    if not asked.any():
        return Outcome(None, void=True, records=records)
    last = int(came[asked].max())
    return Outcome(None if last == NEVER else day_of(last), records=records)


def _made(said: Said) -> Outcome | None:
    """Whether the units of a month were made, and on which day the last of them was, also after the month."""
    calendar, whole = said.day.calendar, said.day.once(Boxed)
    boxed = whole.of.function(whole, said.model) if said.model else whole
    month = calendar.month(said.as_of, 1 if said.name == "next_month" else 0)
    if not isinstance(boxed, Boxed):
        return None
    least = _least(said, boxed, month)
    if least is None:
        return None
    made = np.sort(boxed.units.day[boxed.units.day >= day_number(month.first)])
    if least < 1:
        return Outcome(said.as_of)
    return Outcome(day_of(int(made[least - 1])) if len(made) >= least else None)


def _least(said: Said, boxed: Boxed, month: Window) -> int | None:
    """The units that were promised: the lower end of a range, or one more than the best month before."""
    if isinstance(said.value, Range):
        return said.value.low
    counts, first = boxed.days.by(said.day.calendar.month_numbers)
    now = int(said.day.calendar.month_numbers(np.array([day_number(month.first)]))[0])
    earlier = counts[: max(now - first, 0)]
    return int(earlier.max()) + 1 if earlier.size else None
