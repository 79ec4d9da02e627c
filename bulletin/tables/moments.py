"""A million moments at once: those that are written in the usual way, as arithmetic on their digits.

The usual way is `YYYY-MM-DD`, `T` or a space, `hh:mm` or `hh:mm:ss`, and `Z`, `+hh:mm` or nothing. Whatever else a cell
holds is left to `days.py`, which defines what a moment is; a test holds that both agree.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.blocks import blocks
from bulletin.tables.days import FIRST_YEAR, LAST_YEAR
from bulletin.tables.letters import Letters, are_digits, letters_by_length, number

Stamps = NDArray[np.datetime64]
NO_MOMENT = np.datetime64("NaT", "s")
HOUR, DAY = 3600, 86400
EPOCH = date(1970, 1, 1).toordinal()
LENGTHS = {16: 16, 17: 16, 19: 19, 20: 19, 22: 16, 25: 19}
"""Length of a text -> length of its date and time of day."""


def utc_moments(texts: Any, zone: ZoneInfo) -> Stamps:
    """Texts (pandas' `str`) as seconds in UTC, shape as given; NaT where a text is not written in the usual way."""
    moments = np.full(len(texts), NO_MOMENT, dtype="datetime64[s]")
    for positions, letters in letters_by_length(texts):
        if letters.shape[0] in LENGTHS:
            moments[positions] = _read(letters, zone)
    return moments


def _read(letters: Letters, zone: ZoneInfo) -> Stamps:
    """The moments of texts of one length."""
    end = LENGTHS[letters.shape[0]]
    good = _has(letters, 4, "-") & _has(letters, 7, "-") & (_has(letters, 10, "T") | _has(letters, 10, " "))
    good &= _has(letters, 13, ":") & (_has(letters, 16, ":") if end == 19 else True)
    digits = letters[[0, 1, 2, 3, 5, 6, 8, 9, 11, 12, 14, 15, *range(17, end)]]
    good &= are_digits(digits)
    hour, minute, second = number(digits[8:10]), number(digits[10:12]), number(digits[12:])
    good &= (hour < 24) & (minute < 60) & (second < 60)
    days, exist = _epoch_days(np.where(good, number(digits[:8]), 0))
    local = (days * DAY + hour * HOUR + minute * 60 + second).astype("datetime64[s]")
    utc, offset_good = _to_utc(local, letters[end:], zone, good & exist)
    utc[~(good & exist & offset_good)] = NO_MOMENT
    return utc


def _epoch_days(written: NDArray[np.int64]) -> tuple[NDArray[np.int64], NDArray[np.bool_]]:
    """Days written as YYYYMMDD as days since 1970, and whether they exist; each distinct one is worked out once."""
    codes, distinct = pd.factorize(written)
    found = [_epoch_day(day) for day in distinct.tolist()]
    return np.array([day or 0 for day in found], dtype=np.int64)[codes], np.array([day is not None for day in found])[codes]


def _epoch_day(written: int) -> int | None:
    year, month, day = written // 10000, written // 100 % 100, written % 100
    if not FIRST_YEAR <= year <= LAST_YEAR:
        return None
    try:
        return date(year, month, day).toordinal() - EPOCH
    except ValueError:
        return None


def _to_utc(local: Stamps, tail: Letters, zone: ZoneInfo, good: NDArray[np.bool_]) -> tuple[Stamps, NDArray[np.bool_]]:
    if len(tail) == 0:
        utc = local.copy()
        utc[good] = from_local(local[good], zone)
        return utc, good
    if len(tail) == 1:
        return local, _has(tail, 0, "Z")
    hour, minute, plus = number(tail[1:3]), number(tail[4:6]), _has(tail, 0, "+")
    offset = (hour * HOUR + minute * 60) * np.where(plus, 1, -1)
    fits = (plus | _has(tail, 0, "-")) & _has(tail, 3, ":") & are_digits(tail[[1, 2, 4, 5]]) & (hour < 24) & (minute < 60)
    return local - offset.astype("timedelta64[s]"), fits


def _has(letters: Letters, at: int, sign: str) -> NDArray[np.bool_]:
    return np.asarray(letters[at] == ord(sign))


def from_local(local: Stamps, zone: ZoneInfo) -> Stamps:
    """Times on the maker's clock as UTC; the first one in the hour that comes twice."""
    return _shifted(local, lambda moment: -(moment.replace(tzinfo=zone).utcoffset() or timedelta()))


def local_days(utc: Stamps, zone: ZoneInfo) -> Stamps:
    """The days of moments on the maker's clock, as their midnights; NaT stays NaT."""
    days = np.full(len(utc), NO_MOMENT, dtype="datetime64[s]")
    for block in blocks(len(utc)):
        known = np.flatnonzero(~np.isnat(utc[block])) + block.start
        local = _shifted(utc[known], lambda moment: moment.replace(tzinfo=UTC).astimezone(zone).utcoffset() or timedelta())
        days[known] = local.astype("datetime64[D]")
    return days


def _shifted(stamps: Stamps, shift: Callable[[datetime], timedelta]) -> Stamps:
    """Shift each moment; days on which the shift is the same at both ends are shifted as a whole."""
    codes, days = pd.factorize(stamps.astype("datetime64[D]").astype(np.int64))
    starts = days.astype("datetime64[D]")
    at_start = np.array([_seconds(day, shift) for day in starts], dtype=np.int64)
    at_end = np.array([_seconds(day + 1, shift) for day in starts], dtype=np.int64)
    shifts = at_start[codes]
    for index in np.flatnonzero((at_start != at_end)[codes]):
        shifts[index] = _seconds(stamps[index], shift)
    shifted: Stamps = stamps.astype("datetime64[s]") + shifts.astype("timedelta64[s]")
    return shifted


def _seconds(stamp: np.datetime64, shift: Callable[[datetime], timedelta]) -> int:
    moment: datetime = stamp.astype("datetime64[s]").item()
    return int(shift(moment).total_seconds())
