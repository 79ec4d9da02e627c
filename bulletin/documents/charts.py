"""Our own charts as SVG: few elements, repeatable bytes, titles for those who can't see them, mirrored for right-to-left.

Figures in a chart stand again in the table below it; the chart's own text is short marks only.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

WIDTH, HEIGHT = 400, 190
"""Small in its own units, so that its texts can still be read on a narrow screen."""
LEFT, TOP, BOTTOM = 4, 20, 36
GROUND = HEIGHT - BOTTOM
LINE = 15
FILLED = 0.64
"""The share of a bar's step that the bar fills."""


@dataclass(frozen=True, slots=True)
class Amount:
    """One bar's content: its lines of label below, its figure above, its size; `current` where the period isn't over."""

    labels: tuple[str, ...]
    figure: str
    size: int
    current: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar in place: corner, width and height, the middle of its texts and their base lines, rounded to tenths."""

    x: float
    y: float
    width: float
    height: float
    middle: float
    figure_y: float
    labels: tuple[tuple[float, str], ...]
    amount: Amount


def bars(amounts: Sequence[Amount], direction: str = "ltr") -> list[Bar]:
    """Place bars side by side on a common ground line, the first where reading begins. Nothing gives no bars."""
    if not amounts:
        return []
    step = (WIDTH - 2 * LEFT) / len(amounts)
    room = GROUND - TOP
    top = max(1, *(amount.size for amount in amounts))
    return [
        _bar(amount, LEFT + step * (seat + 0.5), step, room * amount.size / top) for seat, amount in _seats(amounts, direction)
    ]


def _seats(amounts: Sequence[Amount], direction: str) -> list[tuple[int, Amount]]:
    ordered = list(enumerate(amounts))
    return [(len(amounts) - 1 - seat, amount) for seat, amount in ordered] if direction == "rtl" else ordered


def _bar(amount: Amount, middle: float, step: float, height: float) -> Bar:
    y = round(GROUND - height, 1)
    return Bar(
        x=round(middle - step * FILLED / 2, 1),
        y=y,
        width=round(step * FILLED, 1),
        height=round(height, 1),
        middle=round(middle, 1),
        figure_y=round(y - 5, 1),
        labels=tuple((GROUND + LINE * line, label) for line, label in enumerate(amount.labels, start=1)),
        amount=amount,
    )
