"""Two days as one interval, with the month written out and no part said twice.

CLDR has intervals of days with short months only (`yMMMd`); their patterns serve with long ones, which is what the long date
format of each of our locales does too. The skeleton has the year, so that an interval across years keeps both.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from babel.dates import parse_pattern

if TYPE_CHECKING:
    from datetime import date

    from babel import Locale

    from bulletin.model import Window

GLUE = re.compile(r"[\s\u2009\u202f\u00a0\u2013\u2014～~-]+$")
SHORT_MONTH = re.compile(r"(?<![ML])(MMM|LLL)(?![ML])")


def interval(window: Window, locale: Locale) -> tuple[str, str, str]:
    """The first day, what stands between, the last day: ("March 5", " – ", "9, 2026")."""
    first, last = window
    greatest = "y" if first.year != last.year else "M" if first.month != last.month else "d"
    patterns = locale.interval_formats.get("yMMMd", {}).get(greatest)
    if not patterns or len(patterns) != 2:
        return _day(first, str(locale.date_formats["long"]), locale), " – ", _day(last, str(locale.date_formats["long"]), locale)
    begin, end = (_long_month(pattern, locale) for pattern in patterns)
    start = _day(first, begin, locale)
    glue = GLUE.search(start)
    return start[: glue.start()] if glue else start, glue[0] if glue else "", _day(last, end, locale)


def _long_month(pattern: str, locale: Locale) -> str:
    """The pattern with its month written out, joined as in the long format (`5 de marzo de 2026`)."""
    joined = " 'de' " if "'de'" in str(locale.date_formats["long"].pattern) else ""
    if joined and "'de'" not in pattern:
        pattern = re.sub(r" (?=MMM|LLL|y)", joined, pattern)
    return SHORT_MONTH.sub(lambda match: match[1] + match[1][0], pattern)


def _day(day: date, pattern: str, locale: Locale) -> str:
    return parse_pattern(pattern).apply(day, locale)
