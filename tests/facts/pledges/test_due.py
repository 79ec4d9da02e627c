"""By which day a fact says that something will have come."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest

from bulletin.draft.expressions import parse_key
from bulletin.facts.pledges.due import due_of, month_end
from bulletin.model import Range, Value, Window

AS_OF = date(2026, 3, 27)
SPRING = Window(date(2026, 4, 6), date(2026, 4, 17))
DUE: dict[str, tuple[Value, date | None]] = {
    "forecast.cleared": (SPRING, date(2026, 4, 17)),
    "forecast.of.Heron 8.order.A-1": (SPRING, date(2026, 4, 17)),
    "promises.PR-4.due": (date(2026, 5, 29), date(2026, 5, 29)),
    "forecast.month": (Range(200, 230), date(2026, 3, 31)),
    "forecast.of.Heron 8.next_month": (Range(90, 120), date(2026, 4, 30)),
    "forecast.chance_cleared_by.2026-06-30": (Fraction(8, 10), date(2026, 6, 30)),
    "forecast.chance_cleared_by.2026-05-31": (Fraction(79, 100), None),
    "forecast.chance_best_month": (Fraction(9, 10), date(2026, 3, 31)),
    "forecast.moved": (181, None),
    "forecast.why": (("rate",), None),
}


@pytest.mark.parametrize(("key", "value", "due"), [(key, *told) for key, told in DUE.items()], ids=DUE)
def test_what_a_fact_promises(key: str, value: Value, due: date | None) -> None:
    """A window promises its last day, a month its end, a chance its day where it is good enough; other facts promise nothing."""
    names = tuple(step.text for step in parse_key(key))

    assert due == due_of(names, value, AS_OF, Decimal("0.8"))


def test_months_end() -> None:
    """The end of this month and of the next, over the end of a year and in February."""
    expected = [date(2026, 12, 31), date(2027, 1, 31), date(2028, 2, 29)]

    assert expected == [month_end(date(2026, 12, 5)), month_end(date(2026, 12, 5), 1), month_end(date(2028, 1, 31), 1)]
