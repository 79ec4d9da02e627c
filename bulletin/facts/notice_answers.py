"""What became of the notices that told.csv has: whose order is to be paid back, since it was cancelled or consent never came.

The newest row of an order counts, where it is a notice. The date that it did not keep is the latest one told before it, else the
day of the order and the days of the rule; what no answer means is said by the rule.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.joins import order_count, order_keys
from bulletin.facts.counting.keys import Integers, texts
from bulletin.facts.credit.accrual import money
from bulletin.facts.scopes.calendar import day_of
from bulletin.model import Money, RefundDue
from bulletin.tables.natural import natural_key

if TYPE_CHECKING:
    from bulletin.facts.counting.telling import Dates
    from bulletin.facts.scopes.day import Day
    from bulletin.settings import Notice

NONE = -1
NOTICES = ("notice", "renewed")
HERE = ("waiting", "boxed")
"""The states of what has not left."""


class Ended(NamedTuple):
    """An order that a notice has ended: its key and its rows of orders.csv that have not left, since when and why."""

    key: int
    rows: Integers
    since: date
    why: Literal["cancelled", "no consent"]
    rule: str
    source: str


def ended_by_notices(day: Day) -> tuple[Ended, ...]:
    """The orders that have not left and are to be paid back; none of which refunds.csv knows already."""
    if not (day.settings.notice and day.has("told")):
        return ()
    return tuple(sorted(_ended(day), key=lambda ended: ended.key))


def refunds_due(day: Day) -> tuple[RefundDue, ...]:
    """The same for the maker, in natural order, each with what was paid for that which has not left."""
    ended = day.once(ended_by_notices)
    frame = day.table("orders").frame.iloc[[row for one in ended for row in one.rows]]
    amounts = frame["amount"].to_numpy(np.int64, na_value=NONE).tolist()
    lines = iter(zip(texts(frame["order"]).tolist(), texts(frame["currency"]).tolist(), amounts, strict=True))
    due = []
    for one in ended:
        own = [next(lines) for _ in one.rows]
        due.append(RefundDue(own[0][0], one.rule, one.since, one.why, one.source, _paid([line[1:] for line in own])))
    return tuple(sorted(due, key=lambda refund: natural_key(refund.order)))


def _paid(lines: Sequence[tuple[str, int]]) -> Money | None:
    """What was paid for some lines of an order in minor units, where it is known of each."""
    paid: dict[str, int] = {}
    for currency, amount in lines:
        paid[currency] = paid.get(currency, 0) + amount
    return None if any(amount == NONE for _, amount in lines) else money(paid)


def _ended(day: Day) -> Iterator[Ended]:
    orders, sent = day.table("orders").frame, _sent(day)
    keys = day.once(order_keys)["orders"]
    open_rows = np.flatnonzero(_open(day) & (sent.row != NONE)[keys])
    open_rows = open_rows[np.argsort(keys[open_rows], kind="stable")]
    of_order, starts = np.unique(keys[open_rows], return_index=True)
    market, placed = texts(orders["market"]), orders["placed"].to_numpy().astype("datetime64[D]")
    for key, rows in zip(of_order.tolist(), np.split(open_rows, starts[1:]), strict=True) if len(of_order) else ():
        section = next((one for one in day.settings.notice if market[rows[0]] in one.markets), None)
        if section and sent.answer[key] != "consent":
            kept = sent.kept[key] if not np.isnat(sent.kept[key]) else placed[rows[0]] + section.limit
            end = _end(section, sent, key, _date(kept), day.as_of)
            if end:
                yield Ended(key, rows, *end)


def _end(
    section: Notice, sent: Sent, key: int, kept: date, as_of: date
) -> tuple[date, Literal["cancelled", "no consent"], str, str] | None:
    """Since when and why an order is ended, by which rule, and where that stands; None where it is not.

    A renewed notice after one without a date is judged as a first one: there was no new date that could have run out.
    """
    new = None if np.isnat(sent.new[key]) else _date(sent.new[key])
    case = section.terms.rule.case("renewed" if sent.renewed[key] else "notice", kept, new)
    if sent.answer[key] == "cancel":
        return _date(sent.answered[key]), "cancelled", section.rule, case.source
    until = case.until(kept, new)
    if case.silence != "cancellation" or until is None or until >= as_of:
        return None
    return until, "no consent", section.rule, case.source


@dataclass(frozen=True, eq=False)
class Sent:
    """By key of the order: its newest row of told.csv where that is a notice (else -1), what it says, what was answered.

    `kept` is the latest date told before, `renewed` says that it renews a notice with a date, `answered` is the day of the
    answer, else that of the notice.
    """

    row: Integers
    kept: Dates
    new: Dates
    renewed: NDArray[np.bool_]
    answer: NDArray[np.object_]
    answered: Dates


def _sent(day: Day) -> Sent:
    told, keys, count = day.table("told").frame, day.once(order_keys)["told"], day.once(order_count)
    when, due, answered = (told[name].to_numpy().astype("datetime64[D]") for name in ("told", "due", "answered"))
    in_time = np.argsort(when, kind="stable")
    newest = _last_of(in_time, keys, count)
    earlier = in_time[newest[keys[in_time]] != in_time]
    before = _last_of(earlier, keys, count)
    dated = _last_of(earlier[~np.isnat(due[earlier])], keys, count)
    is_notice = told["kind"].isin(NOTICES).to_numpy()
    row = np.where((newest != NONE) & _at(is_notice, newest, missing=False), newest, NONE)
    undated_before = _at(is_notice & np.isnat(due), before, missing=False)
    nothing = np.datetime64("NaT")
    said = _at(answered, row, missing=nothing)
    return Sent(
        row,
        _at(due, dated, missing=nothing),
        _at(due, row, missing=nothing),
        _at((told["kind"] == "renewed").to_numpy(), row, missing=False) & ~undated_before,
        _at(texts(told["answer"]), row, missing=""),
        np.where(np.isnat(said), _at(when, row, missing=nothing), said),
    )


def _last_of(rows: Integers, keys: Integers, count: int) -> Integers:
    """The last of some rows of each key, -1 where there is none."""
    last = np.full(count, NONE, np.int64)
    last[keys[rows]] = rows
    return last


def _at(values: NDArray[Any], rows: Integers, *, missing: object) -> NDArray[Any]:
    """The values of rows, and what stands for them where there is no row."""
    found = np.full(len(rows), missing, values.dtype)
    found[rows != NONE] = values[rows[rows != NONE]]
    return found


def _open(day: Day) -> NDArray[np.bool_]:
    """Rows of orders.csv that have not left, and of whose order refunds.csv does not know."""
    keys = day.once(order_keys)
    named = np.zeros(day.once(order_count), np.bool_)
    if day.has("refunds"):
        named[keys["refunds"]] = True
    here: NDArray[np.bool_] = day.table("orders").frame["status"].isin(HERE).to_numpy() & ~named[keys["orders"]]
    return here


def _date(day: np.datetime64) -> date:
    return day_of(int(day.astype(np.int64)))
