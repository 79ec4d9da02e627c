"""Boxes that were opened again: the day of it for the lines of one order."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pandas as pd

from bulletin.tables.natural import natural_key

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from bulletin.facts.scopes.day import Day

KEEPS_UNIT = ("boxed", "shipped", "delivered")


def reopened_days(day: Day, order: str, positions: Sequence[int]) -> Mapping[int, date]:
    """For the lines of an order, by their positions in the frame of orders, the day their unit's box was opened last.

    A line that names its serial has that unit's. Units that stand open and that no line names go to the waiting lines of
    their model that name none, in turn: those opened first to the first lines.
    """
    orders, scans = day.table("orders").frame, day.table("boxing").frame
    lines = orders.iloc[list(positions)]
    serials = set(lines["serial"]) - {""}
    of_order = scans[((scans["order"] == order) | scans["serial"].isin(serials)) & (scans["purpose"] != "sample")]
    scanned = scans[scans["serial"].isin(set(of_order["serial"]))].sort_values("at", kind="stable")
    opened = scanned[scanned["event"] == "reopened"].groupby("serial", observed=True)["day"].last()
    found = {at: opened[serial] for at, serial in zip(positions, lines["serial"], strict=True) if serial in opened.index}
    latest = scanned.drop_duplicates("serial", keep="last")
    open_units = latest[(latest["event"] == "reopened") & ~latest["serial"].isin(serials)]
    for model, units in open_units.groupby("model", observed=True):
        found |= dict(zip(_unnamed(positions, lines, str(model)), units["day"], strict=False))
    return {at: pd.Timestamp(opened_on).date() for at, opened_on in found.items()}


def _unnamed(positions: Sequence[int], lines: pd.DataFrame, model: str) -> list[int]:
    """The positions of a model's lines that wait for their unit and name none, in turn."""
    waits = (lines["serial"] == "") & (lines["model"] == model) & ~lines["status"].isin(KEEPS_UNIT)
    chosen = [(natural_key(line), at) for line, at, fits in zip(lines["line"], positions, waits, strict=True) if fits]
    return [at for _, at in sorted(chosen)]
