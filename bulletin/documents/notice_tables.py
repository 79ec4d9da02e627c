"""What the maker enters once notices are sent and refunds are made: rows as told.csv and refunds.csv have them."""

from __future__ import annotations

import csv
from io import StringIO
from typing import TYPE_CHECKING

from bulletin.model import Money

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from bulletin.model import Delay, RefundDue

TOLD = ("order", "told", "due", "kind", "answer", "answered")
REFUNDS = ("order", "asked", "paid", "amount", "currency")
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""What makes a formula of a cell in spreadsheet programs (OWASP, CSV Injection; from memory)."""
NOTHING = Money(())


def told_csv(delays: Sequence[Delay], sent: date) -> str:
    """Rows for told.csv, as of the day on which the notices are sent; the columns for answers are empty."""
    return written(TOLD, (told_row(delay, sent) for delay in delays))


def told_row(delay: Delay, sent: date) -> tuple[str, ...]:
    """One order's row."""
    notice = delay.notice
    return delay.order, sent.isoformat(), notice.new.isoformat() if notice.new else "", notice.kind, "", ""


def refunds_csv(refunds: Sequence[RefundDue]) -> str:
    """Rows for refunds.csv, one a currency; the amount is empty where orders.csv does not know it, `paid` always."""
    return written(REFUNDS, (row for refund in refunds for row in _refund_rows(refund)))


def _refund_rows(refund: RefundDue) -> list[tuple[str, ...]]:
    paid = [(f"{amount:f}", currency) for currency, amount in (refund.amount or NOTHING).amounts] or [("", "")]
    return [(refund.order, refund.since.isoformat(), "", amount, currency) for amount, currency in paid]


def written(header: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table as CSV. A cell that a spreadsheet program would run as a formula gets an apostrophe before it."""
    text = StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow(header)
    table.writerows([f"'{cell}" if cell.startswith(FORMULA) else cell for cell in row] for row in rows)
    return text.getvalue()
