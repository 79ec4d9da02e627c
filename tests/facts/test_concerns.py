"""What readers must hear, read off the tables."""

from __future__ import annotations

import pytest

from bulletin.facts.book import facts_of
from bulletin.facts.concerns import concerns_of
from tests.facts.builders import CREDIT, Row, day_of, order

DAY = "2026-03-27"


def heard(settings: str = "", **tables: list[Row]) -> list[tuple[str, str]]:
    """Kind and item of every concern of the day; who waits was told no date, so that no window has moved."""
    day = day_of(DAY, settings=settings, orders=[order("A-1"), order("A-2")], **tables)
    return [(concern.kind, concern.item) for concern in concerns_of(facts_of(day))]


def defect(state: str, severity: str = "safety", **columns: str) -> Row:
    return {"defect": "D-1", "title": "pawl", "severity": severity, "opened": "2026-03-09", "state": state, **columns}


DEFECTS = {
    "open": (defect("open"), [("safety defect", "D-1")]),
    "contained": (defect("contained"), [("safety defect", "D-1")]),
    "closed later": (defect("closed", closed="2026-03-30"), [("safety defect", "D-1")]),
    "closed": (defect("closed", closed="2026-03-20"), []),
    "fixed": (defect("fixed"), []),
    "cosmetic": (defect("open", "cosmetic"), []),
    "not known yet": (defect("open", opened="2026-03-30"), []),
}


@pytest.mark.parametrize(("row", "expected"), DEFECTS.values(), ids=DEFECTS)
def test_open_safety_defects(row: Row, expected: list[tuple[str, str]]) -> None:
    """A safety defect that is open or contained on the day must be heard of, no other one."""
    assert expected == heard(defects=[row])


PROMISES = {
    "overdue": ({"due": "2026-03-26"}, [("overdue promise", "P-1")]),
    "due today": ({"due": "2026-03-27"}, []),
    "kept late": ({"due": "2026-03-20", "done": "2026-03-25", "state": "kept"}, []),
    "done tomorrow": ({"due": "2026-03-26", "done": "2026-03-28", "state": "kept"}, [("overdue promise", "P-1")]),
    "withdrawn": ({"due": "2026-03-20", "withdrawn": "2026-03-25", "state": "withdrawn"}, []),
}


@pytest.mark.parametrize(("columns", "expected"), PROMISES.values(), ids=PROMISES)
def test_overdue_promises(columns: Row, expected: list[tuple[str, str]]) -> None:
    """A promise past its day that is neither done nor withdrawn must be heard of."""
    promise = {"promise": "P-1", "made": "2026-02-02", "text": "a booklet", "state": "open", **columns}

    assert expected == heard(promises=[promise])


def test_late_refunds() -> None:
    """Refunds that are open for long must be heard of, fresh ones need not."""
    refund = {"order": "A-1", "asked": "2026-03-02", "amount": "12.00", "currency": "EUR"}

    assert [("late refunds", "refunds.late")] == heard(refunds=[refund])
    assert [] == heard(refunds=[{**refund, "asked": "2026-03-20"}])


def test_credit_owed_by_currency() -> None:
    """Credit that was earned and not credited must be heard of, in each currency of its own."""
    credited = {"order": "A-1", "date": "2026-03-05", "kind": "credit", "amount": "20.00", "currency": "EUR"}

    assert [("credit owed", "credits.owed.EUR")] == heard(CREDIT, credits=[credited])
