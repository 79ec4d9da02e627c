"""Holidays by a country's calendar or the maker's own list. The calendars are imported when first asked for."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

Holidays = str | tuple[date, ...] | None


@lru_cache(maxsize=512)
def is_holiday_code(code: str) -> bool:
    """Whether a country (`AT`) or a part of one (`DE-BY`) has a calendar."""
    from holidays.utils import list_supported_countries

    country, _, part = code.partition("-")
    parts = list_supported_countries(include_aliases=False).get(country)
    return parts is not None and (not part or part in parts)


@lru_cache(maxsize=512)
def _country_holidays(code: str, year: int) -> frozenset[date]:
    from holidays import country_holidays

    country, _, part = code.partition("-")
    return frozenset(country_holidays(country, subdiv=part or None, years=year))


def is_holiday(holidays: Holidays, day: date) -> bool:
    """Whether a day is a holiday; with no calendar named, none is."""
    if holidays is None:
        return False
    return day in (_country_holidays(holidays, day.year) if isinstance(holidays, str) else holidays)
