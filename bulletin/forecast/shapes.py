"""Shapes that the rate of a line may follow: steady, drifting, learning. Each is the log of the rate relative to that of today.

A drift dies down, since nothing grows for ever at the pace of one spring. Learning follows Wright's law (Journal of the
Aeronautical Sciences 3 (1936) 122-128: every doubling of what was made saves the same share of the time, so that the rate grows
as a power of the time since the start) or closes the gap to a ceiling by the same share each day.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bulletin.forecast.output import Reals

DRIFTS = np.linspace(-0.015, 0.015, 25)
"""Growth of the log rate a working day."""
DAMPING = 40.0
"""Working days after which a drift has died down to 1/e."""
POWERS = np.linspace(0.04, 0.9, 22)
HEAD_STARTS = np.geomspace(1, 90, 8)
"""Working days of learning that lay before the first one on record."""
GAPS = np.linspace(0.15, 0.92, 14)
"""The share of the final rate that was missing on the first day on record."""
CLOSINGS = np.geomspace(12, 130, 10)
"""Working days in which the gap shrinks to 1/e."""


@dataclass(frozen=True, eq=False)
class Shapes:
    """One row a shape: `past` one column a day of history (0 on the last one), `ahead` one a day to come."""

    past: Reals
    ahead: Reals


def steady(days: int, ahead: int) -> Shapes:
    """The rate of today, always."""
    return Shapes(np.zeros((1, days)), np.zeros((1, ahead)))


def drifting(days: int, ahead: int) -> Shapes:
    """The same growth or decline a day, dying down from today on."""
    slopes = DRIFTS[:, None]
    before = np.arange(days - 1, -1, -1.0)
    after = DAMPING * -np.expm1(-np.arange(1.0, ahead + 1) / DAMPING)
    return Shapes(-slopes * before, slopes * after)


def learning(days: int, ahead: int) -> Shapes:
    """Powers of the time since the start, and gaps that close."""
    day = np.arange(1.0, days + ahead + 1)
    powers = [power * np.log(day + start) for start in HEAD_STARTS for power in POWERS]
    closings = [np.log1p(-gap * np.exp(-day / closing)) for closing in CLOSINGS for gap in GAPS]
    whole = np.array([*powers, *closings])
    whole -= whole[:, days - 1 : days]
    return Shapes(whole[:, :days], whole[:, days:])
