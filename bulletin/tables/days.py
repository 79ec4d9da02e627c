"""How the text of one cell is read as a day or a moment, and what is told where it is none.

A text that is a day written another way is told as it should be written, and with the setting that lets it stand; one that
is written well and is no day (30 February) is told just that. Where the month may stand first or second, both are told.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime
from types import MappingProxyType
from typing import NamedTuple

from bulletin.tables.faults import Wrong
from bulletin.tables.ways import Ways

FIRST_YEAR, LAST_YEAR = 1900, 2199
ISO = "%Y-%m-%d"
ISO_MOMENT = re.compile(r"[0-9]{4}[0-9W-]+([Tt ].+)?")
NUMBERS = re.compile(
    r"(?P<first>[0-9]{1,4})(?P<sign>[./-])(?P<second>[0-9]{1,2})(?P=sign)(?P<third>[0-9]{1,4})"
    r"(?:(?P<between>[T ])(?P<time>[0-9]{1,2}:[0-9]{2}(?P<seconds>:[0-9]{2})?))?"
)
"""A day in three numbers, and perhaps a time: the forms that are known, whichever of them the settings allow."""
NUMBERS_ALONE = re.compile(r"[0-9]{8}")
EXAMPLE = date(2026, 3, 27)
ORDERS: Mapping[str, tuple[str, ...]] = MappingProxyType({".": ("dmY",), "/": ("dmY", "mdY"), "-": ("dmY", "mdY")})
"""Which of the three numbers is the day, the month, the year, where the year stands last."""


class Way(NamedTuple):
    """A way in which a text can be read: its pattern, and the moment it then says, or None where there is none such."""

    pattern: str
    moment: datetime | None


def read_day(text: str, ways: Ways) -> date | Wrong:
    """The day that a cell says."""
    for pattern in ways.dates:
        found = _by_pattern(text, pattern)
        if found is not None and FIRST_YEAR <= found.year <= LAST_YEAR:
            return found.date()
    examples = " or ".join(EXAMPLE.strftime(pattern) for pattern in ways.dates)
    return _explained(text, ways, Wrong("cell-not-a-day", {"example": examples}))


def read_moment(text: str, ways: Ways) -> datetime | Wrong:
    """The moment that a cell says, in the maker's zone; by ISO 8601, or as the settings say."""
    found = _iso_moment(text)
    for pattern in ways.dates:
        found = found or _by_pattern(text, pattern)
    if found is None or not FIRST_YEAR <= found.year <= LAST_YEAR:
        return _explained(text, ways, Wrong("cell-not-a-moment", {"example": "2026-03-27T14:05:00+01:00"}))
    if found.tzinfo is None:
        found = found.replace(tzinfo=ways.zone)
    return found.astimezone(UTC).astimezone(ways.zone)


def _by_pattern(text: str, pattern: str) -> datetime | None:
    try:
        return datetime.strptime(text, pattern)  # noqa: DTZ007 - the zone is the maker's
    except ValueError:
        return None


def _iso_moment(text: str) -> datetime | None:
    if not ISO_MOMENT.fullmatch(text):
        return None
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        return None


def _explained(text: str, ways: Ways, wrong: Wrong) -> Wrong:
    """What is wrong with a text that is no day or moment by the ways allowed, more precisely where another way is seen."""
    known = list(_ways_to_read(text))
    found = {way.pattern: way.moment for way in known if way.moment and FIRST_YEAR <= way.moment.year <= LAST_YEAR}
    if found:
        offers = {_written(moment, ways, wrong) for moment in found.values()}
        details = {**wrong.details, "settings": _settings(list(found), ways)}
        return Wrong("date-written-otherwise", details, offers.pop() if len(offers) == 1 else "")
    if any(way.moment for way in known):
        return Wrong("date-out-of-range")
    return Wrong("date-does-not-exist") if known else wrong


def _written(moment: datetime, ways: Ways, wrong: Wrong) -> str:
    """As it should be written: a day in the first way of the file, a moment in ISO 8601."""
    if wrong.rule == "cell-not-a-day":
        return moment.strftime(ways.dates[0])
    return moment.isoformat(timespec="seconds" if moment.second else "minutes")


def _settings(patterns: list[str], ways: Ways) -> str:
    """The setting that allows a pattern beside those of the file; of several, each with its example."""
    usual = [] if ways.dates == (ISO,) else list(ways.dates)
    told = [f"dates = {json.dumps([*usual, pattern])}" for pattern in patterns]
    if len(told) == 1:
        return told[0]
    return ", or ".join(f"{setting} ({EXAMPLE.strftime(pattern)})" for setting, pattern in zip(told, patterns, strict=True))


def _ways_to_read(text: str) -> Iterator[Way]:
    """All known ways in which a text can be read."""
    if NUMBERS_ALONE.fullmatch(text):
        yield Way("%Y%m%d", _by_pattern(text, "%Y%m%d"))
    match = NUMBERS.fullmatch(text)
    if match is None:
        return
    time = f"{match['between']}{'%H:%M:%S' if match['seconds'] else '%H:%M'}" if match["time"] else ""
    for order in _orders(match):
        pattern = match["sign"].join(f"%{letter}" for letter in order) + time
        yield Way(pattern, _by_pattern(text, pattern))


def _orders(match: re.Match[str]) -> Iterator[str]:
    """Where year (`Y`, of two digits `y`), month and day may stand."""
    if len(match["first"]) == 4:
        yield "Ymd"
    elif len(match["first"]) < 3 and len(match["third"]) in (2, 4):
        for order in ORDERS[match["sign"]]:
            yield order if len(match["third"]) == 4 else order.lower()
