"""Waiting credit by the policy: months between dates, and what so many months have earned. Pure, on whole arrays.

The n-th monthly anniversary of a date is counted from that date: 31 January, 28 February, 31 March. Amounts are whole minor
units of their currency.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.keys import Integers
from bulletin.model import Money
from bulletin.settings import Credit, minor_digits

Dates = NDArray[np.datetime64]
NEVER = -1


def months_elapsed(first: Dates, last: Dates) -> Integers:
    """How many monthly anniversaries of `first` lie up to `last`, inclusive; 0 where `last` lies before, or either is NaT."""
    first_month, last_month = first.astype("datetime64[M]"), last.astype("datetime64[M]")
    there = ~(np.isnat(first) | np.isnat(last))
    months: Integers = np.where(there, (last_month - first_month).astype(np.int64), 0)
    month_end = _month_end(last_month)
    due = np.minimum(_day_in_month(first, first_month), month_end)
    months -= there & (_day_in_month(last, last_month) < due)
    elapsed: Integers = np.maximum(months, 0)
    return elapsed


def anniversaries(first: Dates, months: Integers) -> Dates:
    """The day of the n-th monthly anniversary of each date; the last day of a month that is too short."""
    first_month = first.astype("datetime64[M]")
    month = first_month + months.astype("timedelta64[M]")
    days = np.minimum(_day_in_month(first, first_month), _month_end(month))
    found: Dates = month.astype("datetime64[D]") + days.astype("timedelta64[D]")
    return found


def _day_in_month(day: Dates, month: Dates) -> Integers:
    """From 0 for the first of the month."""
    days: Integers = (day.astype("datetime64[D]") - month.astype("datetime64[D]")).astype(np.int64)
    return days


def _month_end(month: Dates) -> Integers:
    """The last day of each month, from 0 for the first."""
    days: Integers = ((month + 1).astype("datetime64[D]") - month.astype("datetime64[D]")).astype(np.int64) - 1
    return days


@dataclass(frozen=True, eq=False)
class Earnings:
    """What so many months have earned: `earned[c, n]` in minor units of the c-th of `currencies` after n months.

    A currency that the policy does not name earns nothing.
    """

    currencies: tuple[str, ...]
    earned: NDArray[np.int64]

    @property
    def longest(self) -> int:
        """The most months that can be asked for."""
        return int(self.earned.shape[1]) - 1

    def next_step(self, currency: Integers, months: Integers) -> Integers:
        """The number of the month that earns something next; NEVER where none will."""
        steps = np.full(self.earned.shape, NEVER, np.int64)
        for month in range(self.longest - 1, -1, -1):
            grows = self.earned[:, month + 1] > self.earned[:, month]
            steps[:, month] = np.where(grows, month + 1, steps[:, month + 1])
        return steps[currency, months]


def earnings(policy: Credit, currencies: tuple[str, ...], months: int) -> Earnings:
    """The policy as a table, so many months long and long enough to hold the step after them.

    The n-th month earns the amount of the tier with the greatest `from_month` not above n; the last step is cut to fit the cap.
    """
    length = max(months, *(tier.from_month for tier in policy.tiers)) + 2
    earned = np.zeros((len(currencies), length), np.int64)
    for at, currency in enumerate(currencies):
        steps = np.zeros(length, np.int64)
        for tier in sorted(policy.tiers, key=lambda tier: tier.from_month):
            steps[tier.from_month :] = minor_units(tier.amount.get(currency, Decimal(0)), currency)
        earned[at] = np.cumsum(steps)
        if currency in policy.cap:
            earned[at] = np.minimum(earned[at], minor_units(policy.cap[currency], currency))
    return Earnings(currencies, earned)


def minor_units(amount: Decimal, currency: str) -> int:
    """An amount in whole minor units: 12.50 EUR is 1250, 1500 JPY is 1500, 3.250 KWD is 3250."""
    return int(amount.scaleb(minor_digits(currency)))


def money(amounts: Mapping[str, int]) -> Money:
    """Minor units by currency as money, sorted by code; zeros are kept."""
    return Money(tuple((currency, major_units(amounts[currency], currency)) for currency in sorted(amounts)))


def major_units(amount: int, currency: str) -> Decimal:
    """Whole minor units as an amount with all its decimals: 1250 EUR is 12.50."""
    return Decimal(amount).scaleb(-minor_digits(currency))
