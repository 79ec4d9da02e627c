"""Windows in place for a chart."""

from __future__ import annotations

from datetime import date, timedelta

from bulletin.documents.window_chart import GROUND, HEIGHT, LEFT, RIGHT, TOP, WIDTH, Drawn, panels

MONDAY = date(2026, 1, 5)


def window(week: int, first: int, last: int, came: int | None, *, told: bool = False) -> Drawn:
    """A window told of a week, its days counted from there."""
    of = MONDAY + timedelta(weeks=week)
    day = None if came is None else of + timedelta(came)
    return Drawn(of, of + timedelta(first), of + timedelta(last), day, told)


def test_a_window_stands_over_its_week() -> None:
    """The longest wait reaches the top, the day it was told of is the ground; time runs from edge to edge."""
    (panel,) = panels([("Place 10", [window(0, 0, 20, 5), window(4, 10, 10, 10, told=True)])])
    first, last = panel.bars

    assert (TOP, GROUND - TOP) == (first.top, first.height)
    assert LEFT < first.x < last.x <= WIDTH - RIGHT
    assert last.mark == (TOP + GROUND) / 2
    assert (False, True) == (first.told, last.told)


def test_the_form_of_a_mark_says_where_it_lies() -> None:
    """Within, before and after a window, and not yet, each have a form of their own."""
    (panel,) = panels([("Place 10", [window(at, 5, 9, came) for at, came in enumerate((5, 9, 4, 10, None))])])

    assert ["held", "held", "early", "late", "outstanding"] == [bar.form for bar in panel.bars]
    assert panel.bars[-1].mark is None


def test_panels_share_their_time() -> None:
    """Places stand below one another over the same weeks, each with days of its own; one without windows is left out."""
    found = panels([("near", [window(0, 2, 4, 3)]), ("none", []), ("far", [window(8, 90, 120, 100)])])

    assert [("near", 0), ("far", HEIGHT)] == [(panel.name, panel.top) for panel in found]
    assert found[0].months == found[1].months
    assert [["0", "1", "2", "3", "4"], ["0", "50", "100"]] == [[line.text for line in panel.days] for panel in found]
    assert ["2026-02", "2026-03"] == [line.text for line in found[0].months]


def test_few_months_are_named() -> None:
    """Of three years, every sixth month is named."""
    (panel,) = panels([("long", [window(week, 5, 9, 7) for week in range(156)])])

    assert ["2026-07", "2027-01", "2027-07", "2028-01", "2028-07"] == [line.text for line in panel.months]
