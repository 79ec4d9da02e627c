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
from bulletin.tables.blocks import blocks
from bulletin.tables.categories import Numbers

Dates = NDArray[np.datetime64]
NEVER = -1


class CalendarDays:
    """Of each day of a span its month, its day in that month and the last day of that, both from 0: looked up, not worked out."""

    def __init__(self, first: np.datetime64, last: np.datetime64) -> None:
        """Both days inclusive."""
        days = np.arange(first, last + 1)
        month = days.astype("datetime64[M]")
        self.first = first
        self.month = month.astype(np.int64).astype(np.int32)
        self.day = _day_in_month(days, month).astype(np.int32)
        self.month_end = _month_end(month).astype(np.int32)

    def months_elapsed(self, first: Dates, last: Dates) -> Numbers:
        """As the function of this name, for dates that lie in the span."""
        begin, end = self._find(first), self._find(last)
        months = self.month[end] - self.month[begin] - (self.day[end] < np.minimum(self.day[begin], self.month_end[end]))
        months[(months < 0) | np.isnat(first) | np.isnat(last)] = 0
        return months

    def _find(self, days: Dates) -> Integers:
        """Where days stand in the span; anywhere for one that is NaT."""
        # NaT is the least of all numbers.
        first = self.first.astype(np.int64)
        at: Integers = np.maximum(days.view(np.int64), first)
        at -= first
        return at


def months_elapsed(first: Dates, last: Dates) -> Numbers:
    """How many monthly anniversaries of `first` lie up to `last`, inclusive; 0 where `last` lies before, or either is NaT."""
    if not len(first):
        return np.zeros(0, np.int32)
    # fmin and fmax pass over NaT.
    least, most = (extreme.reduce([extreme.reduce(first), extreme.reduce(last)]) for extreme in (np.fmin, np.fmax))
    if np.isnat(least):
        return np.zeros(len(first), np.int32)
    of, elapsed = CalendarDays(least, most), np.empty(len(first), np.int32)
    for block in blocks(len(first)):
        elapsed[block] = of.months_elapsed(first[block], last[block])
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

    def next_step(self, currency: Numbers, months: Numbers) -> Integers:
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
