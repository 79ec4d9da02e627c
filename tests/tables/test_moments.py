"""Moments by arithmetic agree with moments one by one, in every zone and around every change of the clock."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bulletin.tables.faults import Wrong
from bulletin.tables.kinds import read_cell
from bulletin.tables.layouts import LAYOUTS
from bulletin.tables.moments import local_days, utc_moments
from bulletin.tables.ways import Ways

AT = LAYOUTS["boxing"].column("at")
VIENNA = "Europe/Vienna"
FORMS = [
    "%Y-%m-%dT%H:%M",
    "%Y-%m-%d %H:%M:%S",
    "%Y-%m-%dT%H:%M:%SZ",
    "%Y-%m-%dT%H:%MZ",
    "%Y-%m-%dT%H:%M:%S+05:30",
    "%Y-%m-%d %H:%M-03:00",
]


def one_by_one(text: str, zone: str) -> np.datetime64:
    read = read_cell(AT, Ways(".", "", ("%Y-%m-%d",), ZoneInfo(zone)))(text)
    if isinstance(read, Wrong):
        return np.datetime64("NaT", "s")
    return np.datetime64(read.astimezone(UTC).replace(tzinfo=None), "s")


@given(
    st.lists(
        st.tuples(
            st.datetimes(datetime.fromisoformat("1901-01-01"), datetime.fromisoformat("2190-01-01")), st.sampled_from(FORMS)
        ),
        min_size=1,
        max_size=20,
    ),
    st.sampled_from([VIENNA, "America/New_York", "Asia/Tokyo", "Australia/Lord_Howe", "Pacific/Apia", "UTC"]),
)
def test_agreement(moments: list[tuple[datetime, str]], zone: str) -> None:
    """Whatever is written in the usual way is the same moment both ways."""
    texts = [moment.strftime(form) for moment, form in moments]
    actual = utc_moments(pd.array(texts, dtype="str"), ZoneInfo(zone))

    assert [str(one_by_one(text, zone)) for text in texts] == actual.astype("str").tolist()


@pytest.mark.parametrize(
    ("text", "utc"),
    [
        ("2026-10-25T02:30", "2026-10-25T00:30:00"),
        ("2026-10-25T02:30+01:00", "2026-10-25T01:30:00"),
        ("2026-03-29T02:30", "2026-03-29T01:30:00"),
        ("2026-03-29T03:30", "2026-03-29T01:30:00"),
        ("2026-07-01T12:00", "2026-07-01T10:00:00"),
        ("2024-02-29T00:00:00", "2024-02-28T23:00:00"),
    ],
)
def test_changes_of_the_clock(text: str, utc: str) -> None:
    """The doubled hour is the first one, the skipped hour goes on after it (Vienna: 29 March and 25 October 2026, IANA)."""
    actual = utc_moments(pd.array([text], dtype="str"), ZoneInfo(VIENNA))

    assert [utc] == actual.astype("str").tolist()
    assert np.datetime64(utc, "s") == one_by_one(text, VIENNA)


@pytest.mark.parametrize(
    "text",
    [
        "2026-02-29T10:00",
        "2026-01-01T24:00",
        "2026-01-01T10:60",
        "2026-01-01T10:00:60",
        "1899-01-01T10:00",
        "2026-01-0aT10:00",
        "",
        "x",
    ],
)
def test_no_moments(text: str) -> None:
    """What does not exist is no moment in the quick way either."""
    assert [True] == np.isnat(utc_moments(pd.array([text], dtype="str"), ZoneInfo(VIENNA))).tolist()


def test_local_days() -> None:
    """The day on the maker's clock: Apia skipped 30 December 2011 (IANA), Vienna is an hour or two ahead of UTC."""
    moments = np.array(["2011-12-30T09:59:59", "2011-12-30T10:00:00", "2026-07-01T22:00:00", "NaT"], dtype="datetime64[s]")

    assert ["2011-12-29", "2011-12-31"] == local_days(moments[:2], ZoneInfo("Pacific/Apia")).astype("datetime64[D]").astype(
        "str"
    ).tolist()
    assert ["2026-07-02", "NaT"] == local_days(moments[2:], ZoneInfo(VIENNA)).astype("datetime64[D]").astype("str").tolist()
