"""Open safety defects of the units in one order: what its customer must hear before anything pleasant."""

from __future__ import annotations

import pandas as pd

from bulletin.facts.defects import OPEN
from bulletin.facts.scopes.day import Day
from bulletin.model import Hazard, Name


def hazards_of(day: Day, order: str, serial: str) -> tuple[Hazard, ...]:
    """Safety defects that are open or contained and not remedied on a unit, by id; none without defects.csv, affected.csv.

    A row of affected.csv touches a unit by its serial or, where the unit has none, by its order.
    """
    if not (day.has("defects") and day.has("affected")):
        return ()
    affected = day.table("affected").frame
    same = affected["serial"] == serial if serial else affected["order"] == order
    touched = set(affected.loc[same & affected["remedied"].isna(), "defect"])
    defects = day.table("defects").frame
    open_safety = defects[defects["state"].isin(OPEN) & (defects["severity"] == "safety") & defects["defect"].isin(touched)]
    return tuple(hazard(row) for _, row in open_safety.sort_values("defect").iterrows())


def hazard(row: pd.Series[str]) -> Hazard:
    """A row of defects.csv in the maker's own words."""
    return Hazard(Name("defect", row["defect"], row["title"] or row["defect"]), row["hazard"], row["do_now"])
