"""Waiting credit, one order and one anniversary after the other."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from dateutil.relativedelta import relativedelta

from tests.naive.folder import Maker, Row

PLACES = {"JPY": 0, "KRW": 0, "KWD": 3, "BHD": 3}
Step = tuple[date, Decimal]


def facts(maker: Maker) -> dict[str, object]:
    """The family; what the policy feeds needs the section, the balance the table."""
    found: dict[str, object] = {}
    rows = maker.rows("credits")
    if rows is not None:
        found["credits.balance"] = money(maker, balance(rows))
    if "credit" not in maker.settings:
        return found
    earned = {order: accrued(maker, own) for order, own in by_order(maker).items()}
    month = maker.as_of.replace(day=1)
    found["credits.orders"] = sum(bool(steps) for _, steps in earned.values())
    found["credits.accrued_month"] = money(
        maker, [(currency, amount) for currency, steps in earned.values() for day, amount in steps if day >= month]
    )
    if rows is not None:
        found["credits.owed"] = money(maker, owed(maker, earned, rows))
    for name in ("balance", "accrued_month", "owed"):
        for currency, amount in dict(found.get(f"credits.{name}", {})).items():  # type: ignore[call-overload]
            found[f"credits.{name}.{currency}"] = {currency: amount}
    return found


def by_order(maker: Maker) -> dict[str, list[Row]]:
    """Order rows by order."""
    found: dict[str, list[Row]] = {}
    for row in maker.order_rows:
        found.setdefault(row["order"], []).append(row)
    return found


def money(maker: Maker, amounts: list[tuple[str, Decimal]]) -> dict[str, str]:
    """Sums a currency in the currency's decimals; those that are zero only where the maker knows no other currency."""
    tiers = maker.settings.get("credit", {}).get("tiers", [])
    known = {currency for tier in tiers for currency in tier["amount"]}
    known |= {row["currency"] for row in [*maker.order_rows, *(maker.rows("credits") or [])]}
    sums = dict.fromkeys(known, Decimal())
    for currency, amount in amounts:
        sums[currency] += amount
    shown = [currency for currency in sorted(sums) if sums[currency] != 0 or len(sums) == 1]
    return {currency: f"{sums[currency]:.{PLACES.get(currency, 2)}f}" for currency in shown}


def balance(rows: list[Row]) -> list[tuple[str, Decimal]]:
    """Credit and corrections less redemptions and expiries."""
    signs = {"credit": 1, "correction": 1, "redemption": -1, "expiry": -1}
    return [(row["currency"], signs[row["kind"]] * Decimal(row["amount"])) for row in rows]


def accrued(maker: Maker, rows: list[Row]) -> tuple[str, list[Step]]:
    """What the units of one order earned by the day."""
    return rows[0]["currency"], [step for row in rows for step in steps(maker, row)]


def steps(maker: Maker, row: Row) -> list[Step]:
    """The anniversaries of one unit that earned something, and how much."""
    policy: dict[str, Any] = maker.settings["credit"]
    placed = date.fromisoformat(row["placed"])
    first = placed if policy.get("months_from", "promised") == "placed" else next(iter(maker.dates_told(row)), None)
    found: list[Step] = []
    if first is None:
        return found
    last = ends(maker, row) or first
    cap = policy.get("cap", {}).get(row["currency"])
    room = Decimal(cap) if cap is not None else None
    number = 1
    while (day := first + relativedelta(months=number)) <= last:
        tiers = [tier for tier in policy["tiers"] if tier["from_month"] <= number]
        if tiers:
            amount = Decimal(max(tiers, key=lambda tier: tier["from_month"])["amount"][row["currency"]])
            amount = amount if room is None else min(amount, room)
            room = None if room is None else room - amount
            if amount > 0:
                found.append((day, amount))
        number += 1
    return found


def ends(maker: Maker, row: Row) -> date | None:
    """The last day on which waiting earns: boxed last or shipped, as the policy says, or cancelled before; the day itself.

    None where the waiting is over and no record tells since when.
    """
    until = maker.settings["credit"].get("until", "boxed")
    closed = date.fromisoformat(row["closed"]) if row.get("closed") and row["status"] not in ("waiting", "boxed") else None
    unit = maker.units.get(row["unit"])
    boxed = unit.boxed_days(maker.zone)[-1] if until == "boxed" and unit is not None and unit.stands else None
    if row["status"] == "cancelled":
        return min((day for day in (closed, boxed) if day is not None), default=None)
    waits = row["status"] == "waiting" or (row["status"] == "boxed" and until == "shipped")
    return boxed or closed or (maker.as_of if waits else None)


def owed(maker: Maker, earned: dict[str, tuple[str, list[Step]]], rows: list[Row]) -> list[tuple[str, Decimal]]:
    """Of each order that is not cancelled, what it earned less what was credited and corrected, at least nothing."""
    booked: dict[str, Decimal] = {}
    for row in rows:
        if row["kind"] in ("credit", "correction"):
            booked[row["order"]] = booked.get(row["order"], Decimal()) + Decimal(row["amount"])
    found = []
    for order, own in by_order(maker).items():
        if any(row["status"] != "cancelled" for row in own):
            currency, steps_earned = earned[order]
            accrual = sum((amount for _, amount in steps_earned), Decimal())
            found.append((currency, max(Decimal(), accrual - booked.get(order, Decimal()))))
    return found
