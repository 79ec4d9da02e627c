"""The state of every order line: what support tells a customer, and what a bulletin freezes when it is issued."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any, Literal

import numpy as np
import pandas as pd

from bulletin.facts.ahead.lanes import carried
from bulletin.facts.ahead.windows import order_windows
from bulletin.facts.counting.backlog import backlog_of
from bulletin.facts.counting.keys import Integers, texts
from bulletin.facts.counting.order_units import order_units
from bulletin.facts.counting.reopening import reopened_days
from bulletin.facts.counting.telling import telling_of
from bulletin.facts.counting.units import units_of
from bulletin.facts.credit.account import store_credit
from bulletin.facts.credit.accrual import Dates, money
from bulletin.facts.credit.waiting import waiting_credit
from bulletin.facts.hazards import hazards_of
from bulletin.facts.notices import notice_of
from bulletin.facts.order_papers import hold_of, refund_of
from bulletin.facts.order_shortages import shortages_of
from bulletin.facts.scopes.family import Gap
from bulletin.model import Money, OrderLine, Window
from bulletin.tables.integer_keys import NONE
from bulletin.tables.natural import natural_key

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from bulletin.facts.scopes.day import Day

WAITS = ("waiting", "held", "refund")
UNDERWAY = ("boxed", "shipped")
TEXTS = ("order", "line", "model", "locale", "currency", "status")
DATES = ("promised", "boxed", "closed", "delivered")
NOTHING = np.datetime64("NaT")


def order_lines(day: Day, order: str) -> tuple[OrderLine, ...]:
    """The lines of one order, in natural order; none for an order that the tables do not know."""
    positions = np.flatnonzero(texts(day.table("orders").frame["order"]) == order)
    rows = order_states(day, positions).to_dict("records")
    opened = reopened_days(day, order, positions.tolist())
    lines = [_line(day, int(position), row, opened.get(int(position))) for position, row in zip(positions, rows, strict=True)]
    return tuple(sorted(_with_papers(day, lines), key=lambda line: natural_key(line.line)))


def _with_papers(day: Day, lines: Sequence[OrderLine]) -> list[OrderLine]:
    """The lines of one order with what is on file about the order as a whole."""
    if not lines:
        return []
    order = lines[0].order
    hold, refund = hold_of(day, order), refund_of(day, order)
    credit = store_credit(day, order, [line.credit for line in lines if line.status != "cancelled"])
    return [replace(line, hold=hold, refund=refund, store_credit=credit) for line in lines]


def all_order_lines(day: Day) -> pd.DataFrame:
    """`order_states` of all orders."""
    return order_states(day, np.arange(len(day.table("orders").frame)))


def order_states(day: Day, positions: Integers) -> pd.DataFrame:
    """One row a line at these positions of orders.csv, on whole columns.

    Columns: order, line, model, locale, currency, status (`held` and `refund` for waiting ones outside the queue), placed, place
    (0 outside it), window_first, window_last, promised, boxed, closed, delivered, credit (minor units), next_credit_on,
    next_credit. Days are dates, NaT where there is none or none can be told.
    """
    frame = day.table("orders").frame.iloc[positions]
    backlog, credit = day.once(backlog_of), day.once(waiting_credit)
    states = {name: frame[name].astype("str") for name in TEXTS}
    states["status"] = states["status"].mask(backlog.held[positions], "held").mask(backlog.refund[positions], "refund")
    next_on, next_amount = credit.next_step(positions) if credit else (np.full(len(positions), NOTHING), 0)
    windows = day.once(order_windows)
    nowhere = np.full(len(positions), NOTHING, "datetime64[D]")
    window_first, window_last = (
        (nowhere, nowhere) if isinstance(windows, Gap) else (windows.first[positions], windows.last[positions])
    )
    return pd.DataFrame(
        {
            **states,
            "placed": frame["placed"],
            "place": backlog.place[positions],
            "window_first": window_first.astype("datetime64[s]"),
            "window_last": window_last.astype("datetime64[s]"),
            "promised": day.once(telling_of).latest[positions].astype("datetime64[s]"),
            "boxed": _boxed(day, positions).astype("datetime64[s]"),
            "closed": frame["closed"],
            "delivered": frame["delivered"],
            "credit": credit.earned[positions] if credit else 0,
            "next_credit_on": next_on.astype("datetime64[s]"),
            "next_credit": next_amount,
        }
    )


def _boxed(day: Day, positions: Integers) -> Dates:
    """The day on which the unit of each line was boxed last, NaT where none stands boxed."""
    unit = day.once(order_units)[positions]
    boxed = np.full(len(positions), NOTHING, "datetime64[D]")
    there = unit != NONE
    boxed[there] = day.once(units_of).last_day[unit[there]].astype("datetime64[D]")
    return boxed


def _line(day: Day, position: int, row: Mapping[Any, Any], reopened: date | None) -> OrderLine:
    first, last = _date(row["window_first"]), _date(row["window_last"])
    window = Window(first, last) if first and last else None
    return OrderLine(
        **{name: row[name] for name in TEXTS},
        **{name: _date(row[name]) for name in DATES},
        as_of=day.as_of,
        placed=row["placed"].date(),
        place=row["place"] or None,
        ahead_of=row["place"] - 1 if row["place"] else None,
        window=window,
        unforeseen="" if window or not row["place"] else _unforeseen(day),
        arrival=_arrival(day, position, window or _boxed_then(row)),
        reopened=reopened,
        held_up=shortages_of(day, position, row["model"]) if row["status"] in WAITS else (),
        credit=money({row["currency"]: row["credit"]} if row["credit"] else {}),
        next_credit=_next_credit(row),
        notice_due=notice_of(day, position),
        hazards=hazards_of(day, row["order"], str(day.table("orders").frame["serial"].iloc[position])),
    )


def _unforeseen(day: Day) -> Literal["history", "reach"]:
    return "history" if isinstance(day.once(order_windows), Gap) else "reach"


def _boxed_then(row: Mapping[Any, Any]) -> Window | None:
    """The day of boxing of what is boxed or on its way."""
    boxed = _date(row["boxed"]) if row["status"] in UNDERWAY else None
    return Window(boxed, boxed) if boxed else None


def _arrival(day: Day, position: int, boxed: Window | None) -> Window | None:
    """When a unit will be at the door, from its window or day of boxing, not before the day; None if past or unknown."""
    market = str(day.table("orders").frame["market"].iloc[position])
    arrival = carried(day, market, boxed) if boxed else None
    if not isinstance(arrival, Window) or arrival.last < day.as_of:
        return None
    return Window(max(arrival.first, day.as_of), arrival.last)


def _next_credit(row: Mapping[Any, Any]) -> tuple[date, Money] | None:
    on = _date(row["next_credit_on"])
    return None if on is None else (on, money({row["currency"]: row["next_credit"]}))


def _date(cell: Any) -> Any:
    """A day of a frame as a date, NaT as None."""
    return None if pd.isna(cell) else cell.date()
