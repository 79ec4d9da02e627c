"""Where the rows of each id stand in a frame, found once for all ids."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from bulletin.tables.categories import narrowest

if TYPE_CHECKING:
    from bulletin.facts.counting.keys import Integers


def positions_by(column: pd.Series[str]) -> dict[str, Integers]:
    """The positions of the rows of each id, ascending; ids in the order of their first rows."""
    code, ids = pd.factorize(column)
    if not len(ids):
        return {}
    ends = np.cumsum(np.bincount(code))
    return dict(zip(map(str, ids), np.split(np.argsort(code.astype(narrowest(len(ids))), kind="stable"), ends[:-1]), strict=True))
