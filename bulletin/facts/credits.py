"""`credits`: store credit for orders that wait: what the policy has earned them, what was credited, what is still owed.

Whole minor units all the way; amounts of several currencies stand beside each other and are never added up.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.accrual import major_units, money
from bulletin.facts.calendar import day_of
from bulletin.facts.family import Found, Gap, Records, Scope, door, fact
from bulletin.facts.joins import order_count, order_keys
from bulletin.facts.keys import Integers, texts
from bulletin.facts.waiting_credit import WaitingCredit, waiting_credit
from bulletin.model import Basis, Money

if TYPE_CHECKING:
    from bulletin.facts.day import Day

NO_POLICY = Gap("bulletin.toml has no section [credit]")
NONE = -1
SIGNS = {"credit": 1, "redemption": -1, "expiry": -1, "correction": 1}
REDUCES_OWED = ("credit", "correction")


@dataclass(frozen=True)
class Amounts:
    """Minor units by currency, and the rows they come from, of one currency or (None) of all."""

    by_currency: Mapping[str, int]
    rows: Callable[[str | None], Records]

    def all(self) -> Found:
        """Every currency with an amount."""
        return Found(money(self.by_currency), lambda: self.rows(None))

    def one(self, currency: str) -> Found:
        """One currency, also where its amount is 0."""
        amount = major_units(self.by_currency.get(currency, 0), currency)
        return Found(Money(((currency, amount),)), lambda: self.rows(currency))


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
    return Amounts(sums(names, currency, earned), lambda asked: {"orders": records[_of_currency(names, currency, asked)]})


def balance_of(day: Day) -> Amounts | Gap:
    """What credits.csv leaves: credit less redemption and expiry, plus correction."""
    frame = day.table("credits").frame
    signs = frame["kind"].map(SIGNS).to_numpy(dtype=np.int64)
    names = tuple(sorted(map(str, frame["currency"].unique())))
    currency = _numbers(day, "credits", names)
    records = frame.index.to_numpy()
    return Amounts(
        sums(names, currency, signs * frame["amount"].to_numpy()),
        lambda asked: {"credits": records[_of_currency(names, currency, asked)]},
    )


def owed_of(day: Day) -> Amounts | Gap:
    """Per order that is not cancelled: accrued less credited and corrected, at least 0."""
    credit = day.once(waiting_credit)
    if credit is None:
        return NO_POLICY
    names = credit.earnings.currencies
    lives = (day.table("orders").frame["status"] != "cancelled").to_numpy()
    pair = day.once(order_keys)["orders"] * len(names) + credit.currency
    # One row stands for all live rows of an order in one currency.
    standing_for = np.full(day.once(order_count) * len(names), NONE, np.int32)
    standing_for[pair[lives]] = np.flatnonzero(lives)
    owed = np.zeros(len(pair), np.int64)
    np.add.at(owed, standing_for[pair[lives]], credit.earned[lives])
    given_pair, given, given_rows = _given(day, names)
    given_to = standing_for[given_pair]
    np.subtract.at(owed, given_to[given_to != NONE], given[given_to != NONE])
    np.maximum(owed, 0, out=owed)

    def rows(asked: str | None) -> Records:
        chosen = (owed > 0) & _of_currency(names, credit.currency, asked)
        records = {name: day.table(name).frame.index.to_numpy() for name in ("orders", "credits")}
        earning = lives & (credit.earned > 0) & chosen[standing_for[pair]]
        lessening = given_rows[(given_to != NONE) & chosen[given_to]]
        return {"orders": records["orders"][earning], "credits": records["credits"][lessening]}

    return Amounts(sums(names, credit.currency, owed), rows)


def _given(day: Day, names: tuple[str, ...]) -> tuple[Integers, Integers, Integers]:
    """Of the rows of credits.csv that lessen what is owed: key of order and currency, minor units, position."""
    frame = day.table("credits").frame
    currency = _numbers(day, "credits", names)
    rows = np.flatnonzero(frame["kind"].isin(REDUCES_OWED).to_numpy() & (currency >= 0))
    return day.once(order_keys)["credits"][rows] * len(names) + currency[rows], frame["amount"].to_numpy()[rows], rows


def _numbers(day: Day, table: str, names: tuple[str, ...]) -> Integers:
    """The currency of each row as its number among the names, -1 for any other."""
    return day.table(table).frame["currency"].cat.set_categories(list(names)).cat.codes.to_numpy().astype(np.int64)


def _of_currency(names: tuple[str, ...], numbers: Integers, asked: str | None) -> NDArray[np.bool_]:
    wanted = list(range(len(names))) if asked is None else [at for at, name in enumerate(names) if name == asked]
    return np.isin(numbers, wanted)


def sums(names: tuple[str, ...], numbers: Integers, amounts: Integers) -> dict[str, int]:
    """Minor units added up by currency."""
    return {name: int(amounts[numbers == at].sum()) for at, name in enumerate(names)}


def one_currency(amounts: Amounts | Gap, currency: str) -> Found | Gap:
    """One currency of some amounts."""
    return amounts if isinstance(amounts, Gap) else amounts.one(currency)


def policy_currencies(day: Day) -> tuple[str, ...]:
    """Currencies that the policy names: each tier names the same."""
    policy = day.settings.credit
    return tuple(sorted(policy.tiers[0].amount)) if policy else ()


def known_currencies(day: Day) -> tuple[str, ...]:
    """Currencies that the policy, an order or a row of credits.csv names."""
    tables = [day.table(name).frame for name in ("orders", "credits") if day.has(name)]
    named = {str(currency) for frame in tables for currency in frame["currency"].unique()}
    return tuple(sorted({*policy_currencies(day), *named}))


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
        held = {names[number] for number in numbers}
        value = Money(tuple((name, major_units(amounts[name], name)) for name in sorted(held)))
        return Found(value, self.records)

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
