"""What is on file about one order beside its place in the queue: the hold it is under, the refund that was asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bulletin.facts.credit.accrual import money
from bulletin.model import Hold, Refund

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day


def hold_of(day: Day, order: str) -> Hold | None:
    """The hold that keeps an order longest of those in force: one without an end, else the one that ends last."""
    if not day.has("holds"):
        return None
    frame = day.table("holds").frame
    lasts = frame["until"].isna() | (frame["until"] >= np.datetime64(day.as_of))
    holds = frame[lasts & (frame["order"] == order)].sort_values(["until", "from"], na_position="last", kind="stable")
    if holds.empty:
        return None
    longest = holds.iloc[-1]
    return Hold(longest["reason"], None if holds["until"].isna().any() else longest["until"].date())


def refund_of(day: Day, order: str) -> Refund | None:
    """The refund of an order that was asked for last: an unpaid one before all that are paid."""
    if not day.has("refunds"):
        return None
    frame = day.table("refunds").frame
    refunds = frame[frame["order"] == order].sort_values("asked", kind="stable")
    if refunds.empty:
        return None
    unpaid = refunds[refunds["paid"].isna()]
    row = (refunds if unpaid.empty else unpaid).iloc[-1]
    paid = row["paid"].date() if unpaid.empty else None
    return Refund(row["asked"].date(), money({str(row["currency"]): int(row["amount"])}), paid)
