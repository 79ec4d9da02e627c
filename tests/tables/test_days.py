"""Days and moments that are written another way, or do not exist."""

from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from bulletin.report import word
from bulletin.tables.days import read_day, read_moment
from bulletin.tables.faults import Wrong
from bulletin.tables.ways import Ways
from tests.tables.folders import ORDERS, problems_in


def wrong_day(text: str, *dates: str) -> Wrong:
    found = read_day(text, Ways(".", "", dates or ("%Y-%m-%d",), ZoneInfo("Europe/Vienna")))
    assert isinstance(found, Wrong)
    return found


def wrong_moment(text: str) -> Wrong:
    found = read_moment(text, Ways(".", "", ("%Y-%m-%d",), ZoneInfo("Europe/Vienna")))
    assert isinstance(found, Wrong)
    return found


def test_a_day_written_another_way_in_words(tmp_path: Path) -> None:
    """The message shows a day as it should be, the setting that lets the file stand, and this day ready to paste."""
    problems = problems_in(tmp_path, {"orders.csv": ORDERS + "1001,06.06.2026,Heron 8,AT,de,EUR,shipped\n"})
    told = [word(problem) for problem in problems if problem.place.file == "orders.csv"]

    assert [
        'orders.csv:2:6: error: placed is "06.06.2026", expected was one written as 2026-03-27; if the file writes it so '
        'throughout, put dates = ["%d.%m.%Y"] under [tables.orders] in bulletin.toml [date-written-otherwise]\n'
        "    write: 2026-06-06"
    ] == told


@pytest.mark.parametrize(
    ("text", "offer", "setting"),
    [
        ("6.6.26", "2026-06-06", "%d.%m.%y"),
        ("2026/06/07", "2026-06-07", "%Y/%m/%d"),
        ("13-07-2026", "2026-07-13", "%d-%m-%Y"),
        ("07/13/2026", "2026-07-13", "%m/%d/%Y"),
        ("20260607", "2026-06-07", "%Y%m%d"),
        ("2026-06-07 00:00:00", "2026-06-07", "%Y-%m-%d %H:%M:%S"),
    ],
)
def test_the_setting_that_is_offered_reads_the_day(text: str, offer: str, setting: str) -> None:
    """What is offered as the setting reads the text as the day that is offered."""
    found = wrong_day(text)

    assert (offer, f'dates = ["{setting}"]') == (found.offer, found.details["settings"])
    assert offer == str(read_day(text, Ways(".", "", (setting,), ZoneInfo("UTC"))))


def test_a_month_that_may_stand_first_or_second() -> None:
    """Where the text is two days, none is offered; both settings are, each with its example."""
    found = wrong_day("06/07/2026")

    assert ("", 'dates = ["%d/%m/%Y"] (27/03/2026), or dates = ["%m/%d/%Y"] (03/27/2026)') == (
        found.offer,
        found.details["settings"],
    )


def test_a_table_that_has_ways_of_its_own() -> None:
    """A day is offered in the table's own first way, and its ways stay in the setting."""
    found = wrong_day("2026-06-07", "%d.%m.%Y")

    assert ("27.03.2026", "07.06.2026", 'dates = ["%d.%m.%Y", "%Y-%m-%d"]') == (
        found.details["example"],
        found.offer,
        found.details["settings"],
    )


@pytest.mark.parametrize("text", ["2026-02-30", "30.02.2026", "2026-13-01", "31/11/2026", "20261301"])
def test_a_day_that_does_not_exist(text: str) -> None:
    """A day that no calendar has is told as such, however it is written."""
    assert "date-does-not-exist" == wrong_day(text).rule


@pytest.mark.parametrize("text", ["soon", "2026-03", "46100", "1.2.3.4", "27. März 2026", "1/2-2026"])
def test_no_day_at_all(text: str) -> None:
    """What is in no known form gets an example and no offer."""
    assert ("cell-not-a-day", "2026-03-27", "") == (
        wrong_day(text).rule,
        wrong_day(text).details["example"],
        wrong_day(text).offer,
    )


@pytest.mark.parametrize(
    ("text", "rule", "offer"),
    [
        ("06.10.2026 09:15", "date-written-otherwise", "2026-10-06T09:15"),
        ("13/10/2026 9:15:07", "date-written-otherwise", "2026-10-13T09:15:07"),
        ("2026-10-06 24:15", "date-does-not-exist", ""),
        ("06.10.1826 09:15", "date-out-of-range", ""),
        ("half past nine", "cell-not-a-moment", ""),
    ],
)
def test_moments(text: str, rule: str, offer: str) -> None:
    """Moments are told apart in the same ways."""
    found = wrong_moment(text)

    assert (rule, offer) == (found.rule, found.offer)
