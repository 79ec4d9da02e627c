"""Caps on output, late deliveries, and lines that models share."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bulletin.forecast.lateness import UNKNOWN, PastLateness, arrivals
from bulletin.forecast.mix import Mix, Queues, mix_of, split
from bulletin.forecast.parts import Supply, capped

NONE = np.zeros(0)


@given(st.integers(0, 2**32 - 1))
def test_the_closed_form_is_the_line_day_by_day(seed: int) -> None:
    """C = O + min(0, running min (cap - O)) is what a line makes that takes from a shelf each day and never catches up."""
    random = np.random.default_rng(seed)
    free, arrived = random.integers(0, 9, 30), random.integers(0, 12, 30)
    made, shelf = [], 0
    for wanted, more in zip(free, arrived, strict=True):
        shelf += more
        made.append(min(wanted, shelf))
        shelf -= made[-1]

    found = capped(np.cumsum(free)[:, None].astype(np.float32), np.cumsum(arrived)[:, None].astype(np.float32))

    assert np.cumsum(made).tolist() == found[:, 0].tolist()


def test_a_delivery_is_as_late_as_past_ones() -> None:
    """Thirty deliveries, ten to fourteen days late, put the next one's day there, in nearly all futures."""
    past = PastLateness(np.repeat(np.arange(10.0, 15), 6), NONE)
    found = arrivals(np.array([100]), past, after=90, futures=2000, part="P-1")[0]

    assert found.mean() == pytest.approx(112, abs=0.5)
    assert np.mean((found >= 108) & (found <= 116)) > 0.98


def test_few_deliveries_are_eked_out_with_those_of_other_parts() -> None:
    """With one punctual delivery of its own, a part is believed to be about as late as all the others."""
    others = np.full(20, 30.0)
    pasts = [PastLateness(np.zeros(count), others) for count in (1, 40)]
    few, many = (arrivals(np.array([100]), past, after=90, futures=2000, part="P-1")[0] for past in pasts)

    assert few.mean() > 120
    assert many.mean() == pytest.approx(100, abs=0.5)


def test_an_overdue_delivery_is_still_to_come() -> None:
    """What was due 20 days ago and never came so late before arrives after today all the same."""
    found = arrivals(np.array([70]), PastLateness(np.zeros(30), NONE), after=90, futures=500, part="P-1")

    assert found.min() == 91
    assert found.mean() == pytest.approx(97, abs=1)


def test_nothing_is_known_of_the_first_delivery() -> None:
    """Without any delivery on record one may be on time or late, and never early by more than its scatter."""
    found = arrivals(np.array([100]), PastLateness(NONE, NONE), after=0, futures=2000, part="P-1")[0]

    assert found.mean() == pytest.approx(100 + np.mean(UNKNOWN), abs=1.5)


def test_a_cap_rises_when_deliveries_arrive() -> None:
    """Five units on the shelf and ten more from the day after the due day on."""
    supply = Supply("P-1", 5, np.array([11]), np.array([10.0]), PastLateness(np.ones(200), NONE))
    cap = supply.cap(np.array([10, 11, 12, 13]), after=9, futures=50)

    assert [[5, 5, 15, 15]] == np.unique(cap.T, axis=0).tolist()


def test_what_a_queue_does_not_need_goes_to_the_others() -> None:
    """Of ten a day, half each, the first model's queue of 20 takes 20, the second gets all the rest."""
    line = np.repeat(np.arange(10, 110, 10, dtype=np.float32)[:, None], 200, axis=1)
    first, second = split(line, Mix(np.array([500.0, 500.0]), 0.05), Queues(np.array([20.0, 500.0]), np.zeros(2)), "line")

    assert first[-1].max() == pytest.approx(20, abs=1e-3)
    assert (first + second) == pytest.approx(line, rel=1e-5)
    assert first[1].mean() == pytest.approx(10, abs=0.5)


def test_orders_that_still_come_keep_their_share() -> None:
    """A model whose queue is empty but for which five orders a day come gets its five."""
    line = np.repeat(np.arange(10, 110, 10, dtype=np.float32)[:, None], 200, axis=1)
    first, _ = split(line, Mix(np.array([500.0, 500.0]), 0.05), Queues(np.array([0.0, 500.0]), np.array([5.0, 0.0])), "line")

    assert first[-1].mean() == pytest.approx(49, abs=1)


def test_the_mix_is_that_of_recent_days() -> None:
    """After a change of the mix thirty working days ago, the new one counts for more than the old one."""
    units = np.array([[8, 2]] * 60 + [[2, 8]] * 30)
    mix = mix_of(units)

    assert mix.shapes[1] / mix.shapes.sum() > 0.55
