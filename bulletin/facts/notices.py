"""Notices of delay that the rules of some markets ask for: which waiting orders are due one, by when, and what silence will mean.

An order's date is the one it was told last, else that of its placing and the days of the rule. A notice is due once that date has
come, or when the window of one of its units begins after it, unless told.csv has a row since. An order that is to be paid back
is due none. The new date that a notice tells is the end of the last window of its units, carried to leaving; without a forecast
there is none. This shows the rule and no more: local law and counsel decide.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.ahead.leaving import leaving
from bulletin.facts.ahead.windows import order_windows
from bulletin.facts.counting.backlog import backlog_of
from bulletin.facts.counting.joins import order_count, order_keys
from bulletin.facts.counting.keys import Integers, texts
from bulletin.facts.counting.telling import Dates, telling_of
from bulletin.facts.notice_answers import NOTICES, ended_by_notices
from bulletin.facts.order_papers import hold_of
from bulletin.facts.order_shortages import shortages_of
from bulletin.facts.scopes.calendar import day_of
from bulletin.facts.scopes.family import Gap
from bulletin.model import Delay, Notice, NoticesDue
from bulletin.tables.natural import natural_key

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day
    from bulletin.settings import Notice as Section

Chosen = NDArray[np.bool_]
NONE = -1
NOTHING = np.datetime64("NaT")
DAYS = "datetime64[D]"
EARLIEST, LATEST = np.datetime64("1000-01-01"), np.datetime64("9999-12-31")


@dataclass(frozen=True, eq=False)
class DueNotices:
    """One entry a row of orders.csv.

    `rule` counts the `[[notice]]` sections of the settings, -1 where no notice is due; `by` is the date that is not kept, `told`
    says that the customer was told it, `new` is the date of leaving that could be told now (NaT without one), `renewed` says
    that a notice was sent before. The waiting rows of an order have all of them in common.
    """

    rule: Integers
    by: Dates
    told: Chosen
    new: Dates
    renewed: Chosen


def due_notices(day: Day) -> DueNotices:
    """The notices due on a day."""
    keys, count = day.once(order_keys)["orders"], day.once(order_count)
    waiting = _still_waiting(day)
    rule, days = _rules(day)
    told, telling = _told_since(day), day.once(telling_of)
    placed = day.table("orders").frame["placed"].to_numpy().astype("datetime64[D]") + days
    by = np.where(np.isnat(telling.latest), placed, telling.latest)
    first, last = _windows(day)
    missed = (by <= np.datetime64(day.as_of)) | (first > by)
    unanswered = ~told.newer & ~(np.isnat(telling.latest) & (told.latest >= by))
    due = np.flatnonzero((rule != NONE) & waiting & missed & unanswered)
    rule_of = np.full(count, NONE, np.int64)
    by_of, new_of = np.full(count, LATEST, DAYS), np.full(count, EARLIEST, DAYS)
    rule_of[keys[due][::-1]] = rule[due][::-1]
    np.minimum.at(by_of, keys[due], by[due])
    np.maximum.at(new_of, keys[waiting], last[waiting])
    new = np.full(len(keys), NOTHING, DAYS)
    rows = waiting & (rule_of[keys] != NONE)
    new[rows] = leaving(day, new_of[keys[rows]])
    return DueNotices(np.where(rows, rule_of[keys], NONE), by_of[keys], ~np.isnat(telling.latest), new, told.noticed)


def _still_waiting(day: Day) -> Chosen:
    """Who waits and is not to be paid back, because it was asked for or by a notice that told.csv has."""
    backlog = day.once(backlog_of)
    waiting: Chosen = backlog.waiting & ~backlog.refund
    for ended in day.once(ended_by_notices):
        waiting[ended.rows] = False
    return waiting


def _windows(day: Day) -> tuple[Dates, Dates]:
    """First and last day of boxing of each row; NaT where none can be told."""
    windows = day.once(order_windows)
    nowhere = np.full(len(day.table("orders").frame), NOTHING, DAYS)
    return (nowhere, nowhere) if isinstance(windows, Gap) else (windows.first, windows.last)


def _rules(day: Day) -> tuple[Integers, NDArray[np.timedelta64]]:
    """For each row the section of the settings that its market falls under, the first one, and its days."""
    market = day.table("orders").frame["market"].astype("str")
    rule, days = np.full(len(market), NONE, np.int64), np.zeros(len(market), "timedelta64[D]")
    for number, section in reversed(list(enumerate(day.settings.notice))):
        rows = market.isin(section.markets).to_numpy()
        rule[rows], days[rows] = number, np.timedelta64(section.limit, "D")
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
        return ToldSince(never, never, np.full(rows, NOTHING, DAYS))
    told, keys = day.table("told").frame, day.once(order_keys)
    when = told["told"].to_numpy().astype(DAYS)
    newest = np.full(day.once(order_count), NONE, np.int64)
    in_time = np.argsort(when, kind="stable")
    newest[keys["told"][in_time]] = in_time
    noticed = np.zeros(len(newest), np.bool_)
    noticed[keys["told"][told["kind"].isin(NOTICES).to_numpy()]] = True
    own, dated = newest[keys["orders"]], day.once(telling_of).latest_row
    latest = np.full(rows, NOTHING, DAYS)
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
    section = day.settings.notice[due.rule[position]]
    kind: Literal["notice", "renewed"] = "renewed" if due.renewed[position] else "notice"
    by = _date(due.by[position])
    placed = None if due.told[position] else day.table("orders").frame["placed"].iloc[position].date()
    return notice_under(section, kind, by, None if np.isnat(due.new[position]) else _date(due.new[position]), placed)


def notice_under(section: Section, kind: Literal["notice", "renewed"], by: date, new: date | None, placed: date | None) -> Notice:
    """A notice by the rule of a section: `by` is the date that is not kept, `new` the one that can be told instead, if any.

    Under 16 CFR 435.2(b)(1)(ii) silence consents to a first notice of a delay of at most 30 days; (iii) makes it a cancellation,
    30 days after the date that is not kept, of a longer or indefinite one, and (b)(2) after every renewed notice.
    """
    case = section.terms.rule.case(kind, by, new)
    until = case.until(by, new)
    silence = case.silence if until and case.silence != "nothing" else ""
    words = section.terms.silence(case) if silence else section.terms.sentences["nothing"]
    sentences = {**section.terms.sentences, "silence": words}
    return Notice(section.rule, by, kind, silence, placed, new, until, case.source, sentences)


def delays(day: Day) -> tuple[Delay, ...]:
    """Every order that is due a notice, in natural order, with the reason for its delay as far as the records have one."""
    if not day.settings.notice:
        return ()
    due, orders = day.once(due_notices), day.table("orders").frame
    rows = np.flatnonzero(due.rule != NONE)
    columns = (texts(orders[name].iloc[rows]).tolist() for name in ("order", "locale", "model"))
    spoken: dict[str, str] = {}
    lines: dict[str, list[tuple[int, str]]] = {}
    for row, number, locale, model in zip(rows.tolist(), *columns, strict=True):
        spoken.setdefault(number, locale)
        lines.setdefault(number, []).append((row, model))
    return tuple(_delay(day, number, spoken[number], lines[number]) for number in sorted(lines, key=natural_key))


def _delay(day: Day, number: str, locale: str, lines: list[tuple[int, str]]) -> Delay:
    """The delay of an order: `lines` are the rows of its units that wait, with their models."""
    notice = notice_of(day, lines[0][0])
    if notice is None:
        raise LookupError(f"{number} is due a notice that its row is not")
    missing = () if notice.new else (shortage for row, model in lines for shortage in shortages_of(day, row, model))
    models = tuple(model for _, model in lines)
    return Delay(number, locale, models, notice, tuple(dict.fromkeys(missing)), hold_of(day, number))


def _date(day: np.datetime64) -> date:
    return day_of(int(day.astype(np.int64)))
