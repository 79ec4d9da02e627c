"""Windows against factories with known truth: they hold it as often as they say, and are hardly wider than they must be."""

from __future__ import annotations

import numpy as np
import pytest

from tests.forecast.factories import KINDS, factory
from tests.forecast.judging import Judged, judge, summary


def judged(seeds: range) -> list[Judged]:
    return [judge(factory(kind, seed)) for kind in KINDS for seed in seeds]


def test_a_few_factories_of_each_kind() -> None:
    """Three factories of each kind: 76 to 92 % of the truth is held, at most 12 % comes later than the window's end."""
    found = summary(judged(range(3)))

    assert 0.76 <= found.held <= 0.92
    assert found.late <= 0.12
    assert found.to_oracle <= 1.6
    assert found.to_bootstrap <= 0.65


@pytest.mark.long
def test_two_hundred_factories() -> None:
    """Twenty of each kind, each followed by 200 true futures: the bounds that the forecast must keep."""
    found = summary(judged(range(20)))

    assert 0.76 <= found.held <= 0.9
    assert found.least_held >= 0.6
    assert found.late <= 0.12
    assert found.to_oracle <= 1.5
    assert found.to_bootstrap <= 0.55


def test_the_factories_are_equally_true() -> None:
    """One who knows the process holds 80 to 90 % of the truth: whole days lift the 80 % of its windows."""
    held = []
    for kind in KINDS:
        one = factory(kind, 1)
        known = np.sort(one.known, axis=1)
        low, high = known[:, 39:40], known[:, 359:360]
        held.append(float(((one.truths >= low) & (one.truths <= high)).mean()))

    assert 0.8 <= np.mean(held) <= 0.9
