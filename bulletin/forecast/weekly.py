"""The weekly pattern of a line: how much of an average working day's output each weekday has."""

from __future__ import annotations

import numpy as np

from bulletin.forecast.output import Chosen, Output, Reals

WEEKDAYS = 7


def weekly_pattern(output: Output, running: Chosen) -> Reals:
    """A factor for each weekday, mean 1 over the days that ran; 1 for a weekday on which none did.

    Each day is held against the mean of the nine days around it, so that a changing rate is no pattern, and what the days of one
    weekday have in common is believed as far as it exceeds the scatter within them (James and Stein).
    """
    units, weekday = output.units[running].astype(np.float64), output.weekday[running]
    around = _local_mean(units)
    excess = np.where(around > 0, units / np.maximum(around, 1e-9) - 1, 0.0)
    weight = around
    totals = np.bincount(weekday, weight, WEEKDAYS)
    means = np.bincount(weekday, weight * excess, WEEKDAYS) / np.maximum(totals, 1e-9)
    there = totals > 0
    if there.sum() < 2:
        return np.ones(WEEKDAYS)
    days = np.bincount(weekday, minlength=WEEKDAYS)
    freedom = max(len(units) - int(there.sum()), 1)
    scatter = (weight * (excess - means[weekday]) ** 2).sum() / freedom
    noise = scatter / np.maximum(totals, 1e-9)
    signal = float(np.mean(means[there] ** 2 - noise[there]))
    believed = np.where(there, max(signal, 0.0) / (max(signal, 0.0) + noise + 1e-12), 0.0)
    factors = np.maximum(1 + believed * means, 0.0)
    mean = (factors * days).sum() / max(days.sum(), 1)
    return np.where(there, factors / mean, 1.0) if mean > 0 else np.ones(WEEKDAYS)


def _local_mean(units: Reals, reach: int = 4) -> Reals:
    """The mean of each day and its neighbours, fewer at the ends."""
    total = np.concatenate([[0.0], np.cumsum(units)])
    at = np.arange(len(units))
    low, high = np.maximum(at - reach, 0), np.minimum(at + reach + 1, len(units))
    mean: Reals = (total[high] - total[low]) / (high - low)
    return mean
