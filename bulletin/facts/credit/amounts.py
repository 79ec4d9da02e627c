"""Credit added up by currency: earned in the month by the policy, left on the records, still owed.

Whole minor units all the way; amounts of several currencies stand beside each other and are never added up.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.keys import Integers
from bulletin.facts.credit.accrual import money
from bulletin.facts.credit.owed import Owed
from bulletin.facts.credit.waiting import waiting_credit
from bulletin.facts.scopes.family import Found, Gap, Records
from bulletin.tables.categories import Numbers, codes_among, used

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

NO_POLICY = Gap("bulletin.toml has no section [credit]")
SIGNS: Mapping[str, int] = MappingProxyType({"credit": 1, "redemption": -1, "expiry": -1, "correction": 1})


@dataclass(frozen=True)
class Amounts:
    """Minor units of every currency that the maker knows, and the rows they come from, of one currency or (None) of all."""

    by_currency: Mapping[str, int]
    rows: Callable[[str | None], Records]

    def all(self) -> Found:
        """Every currency, also where nothing came together in it."""
        return Found(money(self.by_currency), lambda: self.rows(None))

    def one(self, currency: str) -> Found:
        """One currency, also where its amount is 0."""
        return Found(money({currency: self.by_currency.get(currency, 0)}), lambda: self.rows(currency))


def accrued_month_of(day: Day) -> Amounts | Gap:
    """What the policy has earned all orders in the calendar month so far."""
    credit = day.once(waiting_credit)
    if credit is None:
        return NO_POLICY
    month_start = np.datetime64(day.calendar.month(day.as_of).first, "D")
    rows = np.flatnonzero(credit.end >= month_start)
    earned = credit.earned[rows] - credit.earned_by(month_start - 1, rows)
    rows, earned = rows[earned > 0], earned[earned > 0]
    records = day.table("orders").frame.index.to_numpy()[rows]
    names, currency = credit.earnings.currencies, credit.currency[rows]
    return Amounts(
        _of_all(day, sums(names, currency, earned)), lambda asked: {"orders": records[_of_currency(names, currency, asked)]}
    )


def balance_of(day: Day) -> Amounts | Gap:
    """What credits.csv leaves: credit less redemption and expiry, plus correction."""
    frame = day.table("credits").frame
    signs = frame["kind"].map(SIGNS).to_numpy(dtype=np.int64)
    names = tuple(sorted(used(frame["currency"])))
    currency = codes_among(frame["currency"], names)
    records = frame.index.to_numpy()
    return Amounts(
        _of_all(day, sums(names, currency, signs * frame["amount"].to_numpy())),
        lambda asked: {"credits": records[_of_currency(names, currency, asked)]},
    )


def owed_of(day: Day) -> Amounts | Gap:
    """Per order that is not cancelled: accrued less credited and corrected, at least 0."""
    credit = day.once(waiting_credit)
    if credit is None:
        return NO_POLICY
    names, owed = credit.earnings.currencies, Owed(day, credit)

    def rows(asked: str | None) -> Records:
        chosen = (owed.amounts > 0) & _of_currency(names, credit.currency, asked)
        records = {name: day.table(name).frame.index.to_numpy() for name in ("orders", "credits")}
        return {
            "orders": records["orders"][owed.earning(chosen)],
            "credits": records["credits"][owed.lessening(chosen)],
        }

    due = np.flatnonzero(owed.amounts)
    return Amounts(_of_all(day, sums(names, credit.currency[due], owed.amounts[due])), rows)


def _of_currency(names: tuple[str, ...], numbers: Numbers, asked: str | None) -> NDArray[np.bool_]:
    wanted = np.array([*(asked is None or name == asked for name in names), False])
    return wanted[numbers]


def sums(names: tuple[str, ...], numbers: Numbers, amounts: Integers) -> dict[str, int]:
    """Minor units added up by currency; `numbers` count the names, -1 for any other."""
    totals = np.zeros(len(names) + 1, np.int64)
    np.add.at(totals, numbers, amounts)
    return dict(zip(names, totals.tolist(), strict=False))


def _of_all(day: Day, amounts: Mapping[str, int]) -> dict[str, int]:
    """Amounts with a zero for every known currency that is not among them: there is always something to compare and to print."""
    return {**dict.fromkeys(day.once(known_currencies), 0), **amounts}


def policy_currencies(day: Day) -> tuple[str, ...]:
    """Currencies that the policy names: each tier names the same."""
    policy = day.settings.credit
    return tuple(sorted(policy.tiers[0].amount)) if policy else ()


def known_currencies(day: Day) -> tuple[str, ...]:
    """Currencies that the policy, an order or a row of credits.csv names."""
    tables = [day.table(name).frame for name in ("orders", "credits") if day.has(name)]
    named = {currency for frame in tables for currency in used(frame["currency"])}
    return tuple(sorted({*policy_currencies(day), *named}))
