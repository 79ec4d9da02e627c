"""What each order has earned by waiting: from when, until when, how many months, how much."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.order_units import order_units
from bulletin.facts.counting.telling import telling_of
from bulletin.facts.counting.units import units_of
from bulletin.facts.credit.accrual import NEVER, Dates, Earnings, anniversaries, earnings, months_elapsed
from bulletin.tables.categories import Numbers, are_any_of, codes_among, used
from bulletin.tables.integer_keys import NONE

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day
    from bulletin.settings import Credit


@dataclass(frozen=True, eq=False)
class WaitingCredit:
    """One entry a row of orders.csv, under the policy of the settings.

    `start` is the first date told or the day placed (NaT: it earns nothing), `end` the last day that counts, at most the as-of
    date; `ended` says that the waiting is over. Where no record tells since when, `end` is `start`: an order that left or was
    cancelled earns nothing that can't be told. `currency` numbers `earnings.currencies`, `earned` are its minor units.
    """

    start: Dates
    end: Dates
    ended: NDArray[np.bool_]
    currency: Numbers
    months: Numbers
    earned: Integers
    earnings: Earnings

    def earned_by(self, day: np.datetime64, rows: Integers) -> Integers:
        """What each of these rows had earned by an earlier day."""
        months = months_elapsed(self.start[rows], np.minimum(self.end[rows], day))
        return self.earnings.earned[self.currency[rows], months]

    def next_step(self, rows: Integers) -> tuple[Dates, Integers]:
        """The day on which each of these rows earns next if it goes on waiting, and how much; NaT and 0 where it will not."""
        step = self.earnings.next_step(self.currency[rows], self.months[rows])
        step[self.ended[rows] | np.isnat(self.start[rows])] = NEVER
        days = anniversaries(self.start[rows], np.maximum(step, 0))
        amounts = self.earnings.earned[self.currency[rows], np.maximum(step, 0)] - self.earned[rows]
        return np.where(step == NEVER, np.datetime64("NaT"), days), np.where(step == NEVER, 0, amounts)


def waiting_credit(day: Day) -> WaitingCredit | None:
    """What all orders have earned up to the as-of date; None where the settings have no policy."""
    policy = day.settings.credit
    if policy is None:
        return None
    orders, today = day.table("orders").frame, np.datetime64(day.as_of, "D")
    start = (
        day.once(telling_of).first if policy.months_from == "promised" else orders["placed"].to_numpy().astype("datetime64[D]")
    )
    end = _over(day, policy)
    goes_on = np.isnat(end)
    waits = goes_on & are_any_of(orders["status"], ["waiting"] if policy.until == "boxed" else ["waiting", "boxed"])
    untold = goes_on & ~waits
    end[waits], end[untold] = today, start[untold]
    end = np.minimum(end, today, out=end)
    months = months_elapsed(start, end)
    currencies = tuple(sorted({*policy.tiers[0].amount, *used(orders["currency"])}))
    currency = codes_among(orders["currency"], currencies)
    table = earnings(policy, currencies, int(months.max(initial=0)))
    return WaitingCredit(start, end, ~waits, currency, months, table.earned[currency, months], table)


def _over(day: Day, policy: Credit) -> Dates:
    """The day on which each order stopped waiting, NaT where it has not, or where no record tells.

    Until boxed: the day its unit was boxed last; of an order that left without a scan of its unit, the day it was shipped.
    Until shipped: that day. The day of a cancellation, if that came before.
    """
    orders = day.table("orders").frame
    closed = orders["closed"].to_numpy()
    over = closed.astype("datetime64[D]")
    over[~are_any_of(orders["status"], ["shipped", "delivered"])] = np.datetime64("NaT")
    if policy.until == "boxed":
        unit = day.once(order_units)
        boxed = np.flatnonzero(unit != NONE)
        over[boxed] = day.once(units_of).last_day[unit[boxed]].astype("datetime64[D]")
    cancelled = np.flatnonzero(are_any_of(orders["status"], ["cancelled"]))
    over[cancelled] = np.fmin(over[cancelled], closed[cancelled].astype("datetime64[D]"))
    return over
