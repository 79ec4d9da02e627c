"""Notices of delay that the rules of some markets ask for: which waiting orders are due one, by when, and what silence will mean.

An order's date is the one it was told last, else that of its placing and the days of the rule. A notice is due once that date has
come, or when the window of the order begins after it, unless told.csv has a row since. This shows the rule and no more: local law
and counsel decide.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.ahead.windows import order_windows
from bulletin.facts.counting.backlog import backlog_of
from bulletin.facts.counting.joins import order_count, order_keys
from bulletin.facts.counting.keys import Integers, texts
from bulletin.facts.counting.telling import Dates, telling_of
from bulletin.facts.scopes.calendar import day_of
from bulletin.facts.scopes.family import Gap
from bulletin.model import Notice, NoticesDue
from bulletin.tables.natural import natural_key

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

Chosen = NDArray[np.bool_]
NONE = -1
NOTICES = ("notice", "renewed")
MAIL_ORDER_RULE = "16 CFR"
"""Part 435 of it is the one rule whose treatment of silence is known here."""
LATER = timedelta(days=30)


@dataclass(frozen=True, eq=False)
class DueNotices:
    """One entry a row of orders.csv.

    `rule` counts the `[[notice]]` sections of the settings, -1 where no notice is due; `by` is the date that is not kept, `last`
    the end of the window that could be told now (NaT without one), `renewed` says that a notice was sent before.
    """

    rule: Integers
    by: Dates
    last: Dates
    renewed: Chosen


def due_notices(day: Day) -> DueNotices:
    """The notices due on a day."""
    frame = day.table("orders").frame
    rule, days = _rules(day)
    told = _told_since(day)
    telling = day.once(telling_of)
    placed = frame["placed"].to_numpy().astype("datetime64[D]") + days
    by = np.where(np.isnat(telling.latest), placed, telling.latest)
    windows = day.once(order_windows)
    nowhere = np.full(len(frame), np.datetime64("NaT"), "datetime64[D]")
    first, last = (nowhere, nowhere) if isinstance(windows, Gap) else (windows.first, windows.last)
    missed = (by <= np.datetime64(day.as_of)) | (first > by)
    unanswered = ~told.newer & ~(np.isnat(telling.latest) & (told.latest >= by))
    due = (rule != NONE) & day.once(backlog_of).waiting & missed & unanswered
    return DueNotices(np.where(due, rule, NONE), by, last, told.noticed)


def _rules(day: Day) -> tuple[Integers, NDArray[np.timedelta64]]:
    """For each row the section of the settings that its market falls under, the first one, and its days."""
    market = day.table("orders").frame["market"].astype("str")
    rule, days = np.full(len(market), NONE, np.int64), np.zeros(len(market), "timedelta64[D]")
    for number, section in reversed(list(enumerate(day.settings.notice))):
        rows = market.isin(section.markets).to_numpy()
        rule[rows], days[rows] = number, np.timedelta64(section.days, "D")
    return rule, days


@dataclass(frozen=True, eq=False)
class ToldSince:
    """One entry a row of orders.csv: told anew after its date was, told at all of a delay, the day it was told last."""

    newer: Chosen
    noticed: Chosen
    latest: Dates


def _told_since(day: Day) -> ToldSince:
    rows = len(day.table("orders").frame)
    if not day.has("told"):
        never = np.zeros(rows, np.bool_)
        return ToldSince(never, never, np.full(rows, np.datetime64("NaT"), "datetime64[D]"))
    told, keys = day.table("told").frame, day.once(order_keys)
    when = told["told"].to_numpy().astype("datetime64[D]")
    newest = np.full(day.once(order_count), NONE, np.int64)
    in_time = np.argsort(when, kind="stable")
    newest[keys["told"][in_time]] = in_time
    noticed = np.zeros(len(newest), np.bool_)
    noticed[keys["told"][told["kind"].isin(NOTICES).to_numpy()]] = True
    own, dated = newest[keys["orders"]], day.once(telling_of).latest_row
    latest = np.full(rows, np.datetime64("NaT"), "datetime64[D]")
    latest[own != NONE] = when[own[own != NONE]]
    spoken = noticed[keys["orders"]]
    newer = np.where(dated == NONE, spoken, own != dated)
    return ToldSince(newer, spoken, latest)


def notices_due(day: Day) -> tuple[NoticesDue, ...]:
    """The orders that are due a notice, by rule, in the order of the settings."""
    if not day.settings.notice:
        return ()
    due = day.once(due_notices)
    numbers = texts(day.table("orders").frame["order"])
    found: dict[str, set[str]] = {}
    for number, section in enumerate(day.settings.notice):
        found.setdefault(section.rule, set()).update(numbers[due.rule == number])
    return tuple(NoticesDue(rule, tuple(sorted(orders, key=natural_key))) for rule, orders in found.items() if orders)


def notice_of(day: Day, position: int) -> Notice | None:
    """The notice that one row of orders.csv is due, if any."""
    if not day.settings.notice:
        return None
    due = day.once(due_notices)
    if due.rule[position] == NONE:
        return None
    rule = day.settings.notice[due.rule[position]].rule
    by = day_of(int(due.by[position].astype(np.int64)))
    last = None if np.isnat(due.last[position]) else day_of(int(due.last[position].astype(np.int64)))
    kind: Literal["notice", "renewed"] = "renewed" if due.renewed[position] else "notice"
    return Notice(rule, by, kind, silence_under(rule, kind, by, last))


def silence_under(
    rule: str, kind: Literal["notice", "renewed"], told: date, new: date | None
) -> Literal["consent", "cancellation", ""]:
    """What no answer to a notice means: `told` is the date that is not kept, `new` the one that can be told instead, if any.

    Under 16 CFR 435.2(b)(1)(ii) silence consents to a first notice of a delay of at most 30 days; (iii) and (b)(2) make it a
    cancellation, 30 days after the date that is not kept, of a longer or indefinite one, and after every renewed notice. Of other
    rules nothing is said.
    """
    if not rule.startswith(MAIL_ORDER_RULE):
        return ""
    return "consent" if kind == "notice" and new is not None and new - told <= LATER else "cancellation"
