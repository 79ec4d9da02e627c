"""The boxed-a-week series of a bulletin, as rows that charts and tables show."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from babel.dates import format_date, format_skeleton

from bulletin.documents.marks import mark_printed, moment
from bulletin.model import Window

if TYPE_CHECKING:
    from markupsafe import Markup

    from bulletin.documents.reader import Reader
    from bulletin.model import Bulletin, Fact

DAY = re.compile(r"\d{4}-\d{2}-\d{2}")

WHOLE_WEEK = 6
"""Days from the first to the last of a week that is over; a week still running is counted to the as-of date."""


@dataclass(frozen=True, slots=True)
class Week:
    """One row: its days, lines of label under a bar, the first day, the figure, its size, its share of the greatest in percent.

    `current` says that the week is not over.
    """

    days: Window
    labels: tuple[str, ...]
    label: str
    first: Markup
    shown: str
    figure: Markup
    size: int
    percent: int
    current: bool


def weeks(bulletin: Bulletin, reader: Reader) -> list[Week]:
    """The weeks boxed as the bulletin holds them, oldest first."""
    counted = [(period(fact), fact, fact.value) for fact in bulletin.boxed_by_week if isinstance(fact.value, int)]
    top = max([1, *(size for _, _, size in counted)])
    written: list[Week] = []
    for days, fact, size in counted:
        month = days.first.month != written[-1].days.first.month if written else True
        printed = reader.format.print_fact(fact)
        written.append(
            Week(
                days=days,
                labels=_labels(days.first, reader.locale, month),
                label=short_day(days.first, reader.locale),
                first=moment(short_day(days.first, reader.locale), days.first.isoformat()),
                shown=printed.text,
                figure=mark_printed(printed, reader),
                size=size,
                percent=round(100 * size / top),
                current=(days.last - days.first).days < WHOLE_WEEK,
            )
        )
    return written


def period(fact: Fact) -> Window:
    """The first and last day of a fact that counts between two days, read from its key."""
    first, last = map(date.fromisoformat, DAY.findall(fact.key)[-2:])
    return Window(first, last)


def short_day(day: date, locale: str) -> str:
    """Day and month, as short as the locale writes them."""
    return format_skeleton("MMMd", day, locale=locale.replace("-", "_"))


def _labels(day: date, locale: str, month: bool) -> tuple[str, ...]:
    """The day, and below it the month where it is another than before: short enough for the foot of a bar.

    The month as it stands within dates: Babel's names for months alone are those of whichever locale was loaded first.
    """
    tag = locale.replace("-", "_")
    number = format_date(day, "d", locale=tag)
    return (number, format_date(day, "MMM", locale=tag)) if month else (number,)
