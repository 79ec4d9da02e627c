"""What customers need to know, by the maker's own records: open safety defects, overdue promises, moved windows, what is owed.

A draft speaks of each of them, or somebody answers for leaving it out. Which there are is read off the facts of the day; what was
told before, and which figures were corrected since, only the record knows.
"""

from __future__ import annotations

from collections.abc import Iterator

from bulletin.facts.book import Book
from bulletin.facts.defects import OPEN
from bulletin.facts.pledges.standing import promises_of
from bulletin.model import Absent, Concern, Fact, Money, Step


def concerns_of(book: Book) -> tuple[Concern, ...]:
    """All that readers must hear of on a day, in the order in which a letter would tell it."""
    families = (safety_defects, overdue_promises, moved_windows, credit_owed, late_refunds)
    return tuple(concern for concerns in families for concern in concerns(book))


def safety_defects(book: Book) -> Iterator[Concern]:
    """Safety defects that are open or contained."""
    if book.day.lacks(("defects",)):
        return
    frame = book.day.table("defects").frame
    for defect in frame["defect"][(frame["severity"] == "safety") & frame["state"].isin(OPEN)]:
        title = _fact(book, "defects", str(defect), "title")
        told = f"the safety defect {defect} is open"
        yield Concern("safety defect", str(defect), told, item_key=_item(title), offer=_printed(title))


def overdue_promises(book: Book) -> Iterator[Concern]:
    """Promises past their day that are neither done nor withdrawn."""
    for promise, standing in book.day.once(promises_of).items():
        if standing.is_open and standing.state == "late" and standing.counts:
            due = _fact(book, "promises", promise, "due")
            told = f"the promise {promise} is overdue"
            yield Concern("overdue promise", promise, told, item_key=_item(due), offer=_printed(due))


def moved_windows(book: Book) -> Iterator[Concern]:
    """Orders whose window now ends later than they were told, by more than the settings' `window_moved_days`."""
    moved = _fact(book, "forecast", "moved")
    if isinstance(moved, Fact) and moved.value:
        told = f"the windows of {moved.value} orders are later than they were told"
        yield Concern("moved windows", moved.key, told, (moved.key, "forecast.moved_days"), offer=_printed(moved))


def credit_owed(book: Book) -> Iterator[Concern]:
    """Currencies in which orders have earned credit that nobody credited."""
    owed = _fact(book, "credits", "owed")
    amounts = owed.value.amounts if isinstance(owed, Fact) and isinstance(owed.value, Money) else ()
    for currency, amount in amounts:
        one = _fact(book, "credits", "owed", currency)
        if amount:
            told = f"{amount} {currency} of credit is owed"
            yield Concern("credit owed", one.key, told, ("credits.owed", one.key), offer=_printed(one))


def late_refunds(book: Book) -> Iterator[Concern]:
    """Refunds that were asked for long ago and are not paid."""
    late = _fact(book, "refunds", "late")
    if isinstance(late, Fact) and late.value:
        told = "a refund is late" if late.value == 1 else f"{late.value} refunds are late"
        yield Concern("late refunds", late.key, told, (late.key,), offer=_printed(late))


def _fact(book: Book, family: str, *steps: str) -> Fact | Absent:
    """A fact by the steps behind its family, items among them."""
    return book.find((Step("name", family), *(Step("any", step) for step in steps)))


def _item(fact: Fact | Absent) -> str:
    """The key of the item that a fact belongs to."""
    return fact.key.rsplit(".", 1)[0]


def _printed(fact: Fact | Absent) -> str:
    return f"{{{{ {fact.spelling} }}}}"
