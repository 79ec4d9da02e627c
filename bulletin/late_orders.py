"""What a maker owes to late orders on a day: notices to send and orders to pay back, gathered for documents and warnings."""

from __future__ import annotations

from datetime import date

from bulletin.documents import notices
from bulletin.documents.notice_list import NoticeWork
from bulletin.facts.notice_answers import refunds_due
from bulletin.facts.notices import delays
from bulletin.model import Document, Place, Problem, RefundDue
from bulletin.tables.addressees import addressees_of
from bulletin.workshop import Clock, Workshop, book_of

ORDERS_SHOWN = 10


def press_notices(workshop: Workshop, name: str, day: date, clock: Clock) -> tuple[list[Document], list[Problem]]:
    """The documents of a day's delays beside those of a bulletin of this name, none where the settings know no rule.

    Problems are bare figures, which block, and a warning of orders that are to be paid back.
    """
    if not workshop.settings.notice:
        return [], []
    work = work_of(workshop, day, clock)
    documents, bare = notices.documents(name, work)
    return documents, [*bare, *unpaid(workshop, work.refunds)]


def work_of(workshop: Workshop, day: date, clock: Clock) -> NoticeWork:
    """All that has to be done about delays on a day, with the addresses to send notices to."""
    book, _ = book_of(workshop, day)
    return NoticeWork(
        workshop.maker,
        workshop.names,
        day,
        clock.published.astimezone(workshop.settings.maker.zone),
        delays(book.day),
        refunds_due(book.day),
        workshop.settings.notice,
        addressees_of(workshop.tables),
    )


def unpaid(workshop: Workshop, refunds: tuple[RefundDue, ...]) -> list[Problem]:
    """A warning for each rule by which orders are to be paid back; the first ones by number, the others counted."""
    by_rule: dict[str, list[str]] = {}
    for refund in refunds:
        by_rule.setdefault(refund.rule, []).append(refund.order)
    place = Place(workshop.tables.file("told"))
    return [
        Problem("refund-due", "warn", place, rule, {"count": str(len(orders)), "orders": listed(orders)})
        for rule, orders in by_rule.items()
    ]


def listed(orders: list[str]) -> str:
    """The first orders by number, how many more there are."""
    more = [f"and {len(orders) - ORDERS_SHOWN} more"] if len(orders) > ORDERS_SHOWN else []
    return ", ".join([*orders[:ORDERS_SHOWN], *more])
