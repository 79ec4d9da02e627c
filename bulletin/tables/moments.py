"""A million moments at once: those that are written in the usual way, as arithmetic on their digits.

The usual way is `YYYY-MM-DD`, `T` or a space, `hh:mm` or `hh:mm:ss`, and `Z`, `+hh:mm` or nothing. Whatever else a cell holds is left
to `kinds.py`, which defines what a moment is; a test holds that both agree.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from bulletin.tables.kinds import FIRST_YEAR, LAST_YEAR
from bulletin.tables.letters import letters_by_length

Stamps = NDArray[np.datetime64]
NO_MOMENT = np.datetime64("NaT", "s")
HOUR, DAY = 3600, 86400
LENGTHS = {16: 16, 17: 16, 19: 19, 20: 19, 22: 16, 25: 19}
"""Length of a text -> length of its date and time of day."""


def utc_moments(texts: Any, zone: ZoneInfo) -> Stamps:
    """Texts (pandas' `str`) as seconds in UTC, shape as given; NaT where a text is not written in the usual way."""
    moments = np.full(len(texts), NO_MOMENT, dtype="datetime64[s]")
    for positions, letters in letters_by_length(texts):
        if letters.shape[1] in LENGTHS:
            moments[positions] = _read(letters, zone)
    return moments


def _read(letters: NDArray[np.uint8], zone: ZoneInfo) -> Stamps:
    """The moments of texts of one length, given as rows of character codes."""
    end = LENGTHS[letters.shape[1]]
    good = _has(letters, 4, "-") & _has(letters, 7, "-") & (_has(letters, 10, "T") | _has(letters, 10, " "))
    good &= _has(letters, 13, ":") & (_has(letters, 16, ":") if end == 19 else True)
    year, month, day, hour, minute = (_number(letters, *span) for span in ((0, 4), (5, 7), (8, 10), (11, 13), (14, 16)))
    second = _number(letters, 17, 19) if end == 19 else np.zeros_like(minute)
    good &= (year >= FIRST_YEAR) & (year <= LAST_YEAR) & (month >= 1) & (month <= 12) & (day >= 1)
    good &= (hour >= 0) & (hour < 24) & (minute >= 0) & (minute < 60) & (second >= 0) & (second < 60)
    months = ((np.where(good, year, 1970) - 1970) * 12 + np.where(good, month, 1) - 1).astype("datetime64[M]")
    days = months.astype("datetime64[D]") + (day - 1)
    good &= days.astype("datetime64[M]") == months
    local = days.astype("datetime64[s]") + (hour * HOUR + minute * 60 + second)
    utc, offset_good = _to_utc(local, letters[:, end:], zone, good)
    utc[~(good & offset_good)] = NO_MOMENT
    return utc


def _to_utc(local: Stamps, tail: NDArray[np.uint8], zone: ZoneInfo, good: NDArray[np.bool_]) -> tuple[Stamps, NDArray[np.bool_]]:
    if tail.shape[1] == 0:
        utc = local.copy()
        utc[good] = from_local(local[good], zone)
        return utc, good
    if tail.shape[1] == 1:
        return local, _has(tail, 0, "Z")
    hour, minute = _number(tail, 1, 3), _number(tail, 4, 6)
    plus = _has(tail, 0, "+")
    offset = (hour * HOUR + minute * 60) * np.where(plus, 1, -1)
    fits = (plus | _has(tail, 0, "-")) & _has(tail, 3, ":") & (hour >= 0) & (hour < 24) & (minute >= 0) & (minute < 60)
    return local - offset, fits


def _has(letters: NDArray[np.uint8], at: int, sign: str) -> NDArray[np.bool_]:
    return letters[:, at] == ord(sign)


def _number(letters: NDArray[np.uint8], start: int, end: int) -> NDArray[np.int64]:
    """The number in a span of columns; negative where a character is no digit."""
    number = np.zeros(len(letters), dtype=np.int64)
    bad = np.zeros(len(letters), dtype=bool)
    for at in range(start, end):
        digit = letters[:, at] - np.uint8(ord("0"))
        bad |= digit > 9
        number = number * 10 + digit
    return np.where(bad, -1, number)


def from_local(local: Stamps, zone: ZoneInfo) -> Stamps:
    """Times on the maker's clock as UTC; the first one in the hour that comes twice."""
    return _shifted(local, lambda moment: -(moment.replace(tzinfo=zone).utcoffset() or timedelta()))


def local_days(utc: Stamps, zone: ZoneInfo) -> Stamps:
    """The days of moments on the maker's clock, as their midnights; NaT stays NaT."""
    days = np.full(len(utc), NO_MOMENT, dtype="datetime64[s]")
    known = ~np.isnat(utc)
    local = _shifted(utc[known], lambda moment: moment.replace(tzinfo=UTC).astimezone(zone).utcoffset() or timedelta())
    days[known] = local.astype("datetime64[D]")
    return days


def _shifted(stamps: Stamps, shift: Callable[[datetime], timedelta]) -> Stamps:
    """Shift each moment; days on which the shift is the same at both ends are shifted as a whole."""
    days, positions = np.unique(stamps.astype("datetime64[D]"), return_inverse=True)
    at_start = np.array([_seconds(day, shift) for day in days], dtype=np.int64)
    at_end = np.array([_seconds(day + 1, shift) for day in days], dtype=np.int64)
    shifts = at_start[positions]
    for index in np.flatnonzero((at_start != at_end)[positions]):
        shifts[index] = _seconds(stamps[index], shift)
    return stamps.astype("datetime64[s]") + shifts


def _seconds(stamp: np.datetime64, shift: Callable[[datetime], timedelta]) -> int:
    moment: datetime = stamp.astype("datetime64[s]").item()
    return int(shift(moment).total_seconds())
