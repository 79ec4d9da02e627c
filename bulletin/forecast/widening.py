"""Windows put out because those of past weeks proved too narrow: never on a whim, never from a handful of them.

Only separate windows count, of which each begins when the one before had come. Those of one place must be ten at least, and fewer
of them must have held than the exact binomial band allows (`scoring.coverage_band`): what is not proven wrong is left alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache

import numpy as np

from bulletin.forecast.backtest import Hindsight
from bulletin.forecast.scoring import coverage_band
from bulletin.forecast.windows import HIGH, LOW

FEWEST = 10
"""Separate windows without which nothing is widened."""
SHARE = HIGH - LOW


def widening(hindsight: Hindsight) -> int:
    """Open days by which both ends of windows must be put out to hold as often as they say; 0 where nothing proves them wrong."""
    apart = [hindsight.separate(number) for number in range(len(hindsight.places))]
    near = [number for number, weeks in enumerate(apart) if len(weeks) >= FEWEST]
    if not near:
        return 0
    told = cache(lambda at: hindsight.told(at, hindsight.places[: near[-1] + 1]))

    def outside(number: int) -> Iterator[int]:
        for at, came in apart[number]:
            ends = told(at)
            if ends is not None:
                yield max(int(ends[0][number]) - came, came - int(ends[1][number]))

    return max(asked_for(outside(number), len(apart[number])) for number in near)


def asked_for(outside: Iterable[int], windows: int) -> int:
    """What up to so many separate windows of one place ask for, given by how many days what came lay outside (else 0 or below).

    Windows are looked at until enough have held. Where too few did, it is the conformal quantile of those days (Vovk, Gammerman
    and Shafer, Algorithmic Learning in a Random World (2005), 2.2).
    """
    seen: list[int] = []
    held, enough = 0, coverage_band(windows, SHARE)[0]
    for days in outside:
        seen.append(days)
        held += days <= 0
        if held >= enough:
            return 0
    if len(seen) < FEWEST or held >= coverage_band(len(seen), SHARE)[0]:
        return 0
    rank = min(int(np.ceil((len(seen) + 1) * SHARE)), len(seen))
    return max(sorted(seen)[rank - 1], 0)
