"""The line's output in place: points from week to week between the limits of an individuals chart, for an SVG.

Weeks outside the limits are marked by their form too, for those who print or do not tell colours apart.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bulletin.model import Fact, Output, OutputWeek

WIDTH, HEIGHT = 600, 200
MARGIN = 12
WEEKS_DRAWN = 52
"""A year fits the page; the limits are those of all weeks."""


@dataclass(frozen=True, slots=True)
class Point:
    """A week in place, rounded to tenths."""

    x: float
    y: float
    week: OutputWeek


@dataclass(frozen=True, slots=True)
class LineChart:
    """Points from left to right, and the heights of the limits and the centre; a low limit below zero is not drawn."""

    points: tuple[Point, ...]
    path: str
    high: float
    centre: float
    low: float | None


def line_chart(output: Output) -> LineChart:
    """Place the newest weeks between zero and the highest of rates and limit."""
    weeks = output.weeks[-WEEKS_DRAWN:]
    top = max(output.high, *(week.rate for week in weeks))
    points = tuple(_points(weeks, top))
    low = _height(output.low, top) if output.low > 0 else None
    path = " ".join(f"{point.x},{point.y}" for point in points)
    return LineChart(points, path, _height(output.high, top), _height(output.centre, top), low)


@dataclass(frozen=True, slots=True)
class Bar:
    """One rate, with its length in percent of the longest."""

    value: Fraction
    percent: int


@dataclass(frozen=True, slots=True)
class Compared:
    """A change with its rates, without it and with it."""

    name: str
    rates: tuple[Bar, ...]


def compared(changed: Sequence[tuple[Fact, Fact]]) -> list[Compared]:
    """The rates of each change as bars of one scale."""
    rates = [(pair[0].key.split(".")[1], [_exact(fact) for fact in pair]) for pair in changed]
    top = max((rate for _, pair in rates for rate in pair), default=Fraction(0)) or Fraction(1)
    return [Compared(name, tuple(Bar(rate, round(100 * rate / top)) for rate in pair)) for name, pair in rates]


def _exact(fact: Fact) -> Fraction:
    return Fraction(fact.value) if isinstance(fact.value, int | Fraction) else Fraction(0)


def _points(weeks: Sequence[OutputWeek], top: Fraction) -> list[Point]:
    step = (WIDTH - 2 * MARGIN) / max(len(weeks) - 1, 1)
    return [Point(round(MARGIN + step * at, 1), _height(week.rate, top), week) for at, week in enumerate(weeks)]


def _height(rate: Fraction, top: Fraction) -> float:
    share = float(rate / top) if top else 0.0
    return round(HEIGHT - MARGIN - (HEIGHT - 2 * MARGIN) * share, 1)
