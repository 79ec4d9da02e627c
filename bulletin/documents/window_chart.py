"""Windows and what came of them, in place for an SVG: one panel a place in the queue, one upright bar a window.

A bar runs from the first to the last day of a window, in days after the one it was told of; a mark stands where what was expected
came. Marks outside their windows have a form of their own, for those who do not tell colours apart. The figures stand in tables.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

WIDTH, HEIGHT = 400, 150
"""A panel, small in its own units, so that its texts can still be read on a narrow screen."""
LEFT, RIGHT, TOP, BOTTOM = 30, 6, 24, 20
GROUND = HEIGHT - BOTTOM
ASIDE = 3.2
"""How far right of a replayed window one as told stands."""
ROUND = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
MOST_LINES, MOST_MONTHS = 4, 7


@dataclass(frozen=True, slots=True)
class Drawn:
    """A window to draw, and whether a bulletin told it; `came` is None where nothing has come yet."""

    as_of: date
    first: date
    last: date
    came: date | None
    told: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """A window in place, rounded to tenths; `mark` is the height of what came, `form` where that lies."""

    x: float
    top: float
    height: float
    told: bool
    mark: float | None
    form: str


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the scale with its text: a height for days, a place from the left for months."""

    at: float
    text: str


@dataclass(frozen=True, slots=True)
class Panel:
    """All of one place, `top` units below the chart's upper edge."""

    name: str
    top: int
    bars: tuple[Bar, ...]
    days: tuple[Line, ...]
    months: tuple[Line, ...]


def panels(places: Sequence[tuple[str, Sequence[Drawn]]]) -> list[Panel]:
    """Panels below one another over the same time, each with a scale of its own. Places without a window have none."""
    filled = [(name, windows) for name, windows in places if windows]
    told = [window.as_of for _, windows in filled for window in windows]
    return [_panel(name, at * HEIGHT, windows, (min(told), max(told))) for at, (name, windows) in enumerate(filled)]


def _panel(name: str, top: int, windows: Sequence[Drawn], span: tuple[date, date]) -> Panel:
    most = max((max(window.last, window.came or window.last) - window.as_of).days for window in windows) or 1
    step = next((step for step in ROUND if most / step <= MOST_LINES), most)
    days = tuple(Line(_height(day, most), str(day)) for day in range(0, most + 1, step))
    return Panel(name, top, tuple(_bar(window, most, span) for window in windows), days, tuple(_months(span)))


def _bar(window: Drawn, most: int, span: tuple[date, date]) -> Bar:
    low, high = (_height((day - window.as_of).days, most) for day in (window.first, window.last))
    mark = None if window.came is None else _height((window.came - window.as_of).days, most)
    x = round(_across(window.as_of, span) + (ASIDE if window.told else 0), 1)
    return Bar(x, high, round(max(low - high, 1.5), 1), window.told, mark, _form(window))


def _form(window: Drawn) -> str:
    if window.came is None:
        return "outstanding"
    return "early" if window.came < window.first else "late" if window.came > window.last else "held"


def _months(span: tuple[date, date]) -> list[Line]:
    """The first of each month, or of every other ..., so that few enough are named."""
    first = span[0].year * 12 + span[0].month - 1
    last = span[1].year * 12 + span[1].month - 1
    step = next(step for step in (1, 2, 3, 6, 12, last - first + 1) if (last - first) / step <= MOST_MONTHS)
    named = [date(month // 12, month % 12 + 1, 1) for month in range(first + 1, last + 1) if month % step == 0]
    return [Line(round(_across(month, span), 1), f"{month:%Y-%m}") for month in named]


def _height(days: int, most: int) -> float:
    return round(GROUND - (GROUND - TOP) * days / most, 1)


def _across(day: date, span: tuple[date, date]) -> float:
    room = WIDTH - LEFT - RIGHT - 2 * ASIDE
    return LEFT + ASIDE + room * (day - span[0]).days / max((span[1] - span[0]).days, 1)
