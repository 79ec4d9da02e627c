"""Days as drafts write them in the arguments of facts."""

from __future__ import annotations

import re
from datetime import date

from bulletin.facts.scopes.family import Gap
from bulletin.model import Window

FORM = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)


def read_day(text: str) -> date | Gap:
    """A day written as 2026-03-05."""
    try:
        return date.fromisoformat(text) if FORM.fullmatch(text) else Gap(_wanted(text))
    except ValueError:
        return Gap(_wanted(text))


def read_span(first: str, last: str) -> Window | Gap:
    """Two days, the first not after the last."""
    days = read_day(first), read_day(last)
    if isinstance(days[0], Gap):
        return days[0]
    if isinstance(days[1], Gap):
        return days[1]
    if days[0] > days[1]:
        return Gap(f"{first} lies after {last}")
    return Window(days[0], days[1])


def _wanted(text: str) -> str:
    return f'"{text}" is no day of the form "2026-03-05" (year-month-day)'
