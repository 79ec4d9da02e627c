"""Windows read off paths of output: the same as those of orders simulated one by one."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from bulletin.forecast.windows import HALF, curves_of, days_reached


@given(st.integers(0, 2**32 - 1), st.integers(1, 40), st.integers(1, 60))
def test_a_look_up_is_what_each_order_would_give(seed: int, days: int, futures: int) -> None:
    """For every place the window is the 10th and 90th percentile of the days on which futures reach it."""
    random = np.random.default_rng(seed)
    paths = np.cumsum(random.poisson(1.5, (days, futures)), axis=0).astype(np.float32)
    places = np.arange(1, int(paths.max()) + 3)
    reached = np.array([np.searchsorted(future, places - HALF) for future in paths.T])
    expected = np.percentile(reached, (10, 90), axis=0, method="inverted_cdf").astype(np.int64)

    found = curves_of(paths).windows(places)

    assert expected.tolist() == [end.tolist() for end in found]


def test_the_day_a_place_is_reached() -> None:
    """A future reaches place 3 on the day its output comes to two and a half, or never within what is simulated."""
    paths = np.array([[1, 0], [2.6, 1], [4, 2]], np.float32)

    assert [1, 3] == days_reached(paths, 3).tolist()
