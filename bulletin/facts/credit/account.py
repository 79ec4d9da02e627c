"""The store credit of one order: what it was given, what is used up, what is left."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from bulletin.facts.credit.accrual import minor_units, money
from bulletin.model import Money, StoreCredit

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

GIVEN = ("credit", "correction")


def store_credit(day: Day, order: str, accrued: Iterable[Money]) -> StoreCredit:
    """What an order has in store credit, by currency; `accrued` is what the policy has earned each of its lines.

    Earned is what the policy has accrued or, where that is more, what credits.csv has credited and corrected: the one that is
    not credited yet is owed. Left is earned less redeemed and expired, at least 0.
    """
    given, used, expired = (_recorded(day, order, *kinds) for kinds in (GIVEN, ("redemption",), ("expiry",)))
    earned = _sums((currency, minor_units(amount, currency)) for each in accrued for currency, amount in each.amounts)
    earned = {currency: max(earned.get(currency, 0), given.get(currency, 0)) for currency in {**earned, **given}}
    gone = _sums([*used.items(), *expired.items()])
    left = {currency: max(amount - gone.get(currency, 0), 0) for currency, amount in earned.items()}
    return StoreCredit(money(earned), money(used), money(expired), money(left))


def _recorded(day: Day, order: str, *kinds: str) -> dict[str, int]:
    """Minor units by currency of the rows of credits.csv of these kinds."""
    if not day.has("credits"):
        return {}
    frame = day.table("credits").frame
    rows = frame[(frame["order"] == order) & frame["kind"].isin(kinds)]
    return _sums(zip(rows["currency"].astype("str"), rows["amount"].tolist(), strict=True))


def _sums(amounts: Iterable[tuple[str, int]]) -> dict[str, int]:
    """Minor units added up by currency."""
    total: dict[str, int] = {}
    for currency, amount in amounts:
        total[currency] = total.get(currency, 0) + amount
    return total
