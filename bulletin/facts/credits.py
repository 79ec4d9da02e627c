"""`credits`: store credit for orders that wait: what the policy has earned them, what was credited, what is still owed."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from bulletin.facts.counting.joins import order_count, order_keys
from bulletin.facts.counting.keys import Integers, texts
from bulletin.facts.credit.accrual import money
from bulletin.facts.credit.amounts import (
    NO_POLICY,
    Amounts,
    accrued_month_of,
    balance_of,
    known_currencies,
    owed_of,
    policy_currencies,
    sums,
)
from bulletin.facts.credit.waiting import WaitingCredit, waiting_credit
from bulletin.facts.scopes.calendar import day_of
from bulletin.facts.scopes.family import Found, Gap, Records, Scope, door, fact
from bulletin.model import Basis

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day


def one_currency(amounts: Amounts | Gap, currency: str) -> Found | Gap:
    """One currency of some amounts."""
    return amounts if isinstance(amounts, Gap) else amounts.one(currency)


class InCurrency(Scope):
    """One currency of a fact that tells them all."""

    def __init__(self, day: Day, currency: str) -> None:
        """An ISO 4217 code that the policy or the tables know."""
        super().__init__(day)
        self.currency = currency


class AccruedMonth(InCurrency):
    """`credits.accrued_month["EUR"]`."""

    @fact("money", Basis.POLICY)
    def itself(self) -> Found | Gap:
        """Credit that the policy has earned waiting orders of this currency in the calendar month so far."""
        return one_currency(self.day.once(accrued_month_of), self.currency)


class Balance(InCurrency):
    """`credits.balance["EUR"]`."""

    @fact("money", tables=("credits",))
    def itself(self) -> Found | Gap:
        """What credits.csv leaves in this currency: credit less redemption and expiry, plus correction."""
        return one_currency(self.day.once(balance_of), self.currency)


class Owed(InCurrency):
    """`credits.owed["EUR"]`."""

    @fact("money", Basis.POLICY, tables=("credits",))
    def itself(self) -> Found | Gap:
        """Credit accrued by the policy less credited and corrected, at least 0 each, over orders of this currency not cancelled.

        An order of several lines is looked at as a whole, without its cancelled lines.
        """
        return one_currency(self.day.once(owed_of), self.currency)


class OfOrder(Scope):
    """One order, all its rows."""

    def __init__(self, day: Day, rows: Integers, credit: WaitingCredit | None) -> None:
        """The positions of its rows in orders.csv."""
        super().__init__(day)
        self.rows = rows
        self.credit = credit

    def found(self, earned: Integers) -> Found | Gap:
        """Minor units earned by its rows as money."""
        if self.credit is None:
            return NO_POLICY
        names, numbers = self.credit.earnings.currencies, self.credit.currency[self.rows]
        amounts = sums(names, numbers, earned)
        return Found(money({names[number]: amounts[names[number]] for number in numbers}), self.records)

    def records(self) -> Records:
        """The order's rows."""
        return {"orders": self.day.table("orders").frame.index.to_numpy()[self.rows]}


class SoFar(OfOrder):
    """`credits.so_far["A-1001"]`."""

    @fact("money", Basis.POLICY)
    def itself(self) -> Found | Gap:
        """Credit that this order has earned by the policy up to the as-of date."""
        return NO_POLICY if self.credit is None else self.found(self.credit.earned[self.rows])


class Next(OfOrder):
    """`credits.next["A-1001"]`."""

    @fact("date", Basis.POLICY)
    def itself(self) -> Found | Gap:
        """The next day on which this order earns credit by the policy, if it still waits then."""
        if self.credit is None:
            return NO_POLICY
        days, _ = self.credit.next_step(self.rows)
        if np.isnat(days).all():
            return Gap("this order earns no more credit")
        return Found(day_of(int(np.nanmin(days).astype(np.int64))), self.records)

    @fact("money", Basis.POLICY)
    def amount(self) -> Found | Gap:
        """The credit that this order earns on the next day on which it earns any, if it still waits then."""
        if self.credit is None:
            return NO_POLICY
        days, amounts = self.credit.next_step(self.rows)
        if np.isnat(days).all():
            return Gap("this order earns no more credit")
        return self.found(np.where(days == np.nanmin(days), amounts, 0))


class Credits(Scope):
    """Waiting credit of all orders, by currency and of one order."""

    tables = ("orders", "boxing")

    @fact("money", Basis.POLICY)
    def accrued_month(self) -> Found | Gap:
        """Credit that the policy has earned waiting orders in the calendar month so far, by currency."""
        return self._all(accrued_month_of)

    @fact("money", tables=("credits",))
    def balance(self) -> Found | Gap:
        """What credits.csv leaves by currency: credit less redemption and expiry, plus correction."""
        return self._all(balance_of)

    @fact("money", Basis.POLICY, tables=("credits",))
    def owed(self) -> Found | Gap:
        """Credit accrued by the policy less credited and corrected, at least 0 each, over orders not cancelled, by currency."""
        return self._all(owed_of)

    @fact("order", Basis.POLICY)
    def orders(self) -> Found | Gap:
        """Orders that have earned any credit by the policy up to the as-of date, cancelled ones among them."""
        credit = self.day.once(waiting_credit)
        if credit is None:
            return NO_POLICY
        earned = credit.earned > 0
        orders = np.zeros(self.day.once(order_count), np.bool_)
        orders[self.day.once(order_keys)["orders"][earned]] = True
        records = self.day.table("orders").frame.index.to_numpy()
        return Found(int(orders.sum()), lambda: {"orders": records[earned]})

    @door("item", choices="policy_currencies", name="accrued_month")
    def accrued_month_in(self, currency: str) -> AccruedMonth | None:
        """The same in one currency."""
        return AccruedMonth(self.day, currency) if currency in self.known_currencies() else None

    @door("item", choices="known_currencies", name="balance")
    def balance_in(self, currency: str) -> Balance | None:
        """The same in one currency."""
        return Balance(self.day, currency) if currency in self.known_currencies() else None

    @door("item", choices="policy_currencies", name="owed")
    def owed_in(self, currency: str) -> Owed | None:
        """The same in one currency."""
        return Owed(self.day, currency) if currency in self.known_currencies() else None

    @door("item")
    def next(self, order: str) -> Next | None:
        """When one order earns credit next, and how much."""
        rows = self._rows_of(order)
        return Next(self.day, rows, self.day.once(waiting_credit)) if rows.size else None

    @door("item")
    def so_far(self, order: str) -> SoFar | None:
        """What one order has earned."""
        rows = self._rows_of(order)
        return SoFar(self.day, rows, self.day.once(waiting_credit)) if rows.size else None

    def policy_currencies(self) -> tuple[str, ...]:
        """Currencies that the policy names."""
        return policy_currencies(self.day)

    def known_currencies(self) -> tuple[str, ...]:
        """Currencies that the policy or a row of orders.csv or credits.csv names."""
        return self.day.once(known_currencies)

    def _rows_of(self, order: str) -> Integers:
        return np.flatnonzero(texts(self.day.table("orders").frame["order"]) == order)

    def _all(self, amounts_of: Callable[[Day], Amounts | Gap]) -> Found | Gap:
        amounts = self.day.once(amounts_of)
        return amounts if isinstance(amounts, Gap) else amounts.all()
