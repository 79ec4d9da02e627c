"""The plan as a ceiling: no more is made of a model than is planned, up to the last day that the plan has for it.

Where the output of a model has exceeded its plan on more than one planned day in ten, the plan is a target and no ceiling.
"""

from __future__ import annotations

import numpy as np

from bulletin.facts.ahead.past_output import PastOutput
from bulletin.facts.counting.keys import Integers
from bulletin.facts.scopes.calendar import day_number
from bulletin.facts.scopes.day import Day
from bulletin.forecast.output import Reals

OFTEN = 0.1
UNBOUNDED = 1e9


def ceiling(day: Day, model: str, past: PastOutput, ahead: Integers) -> tuple[int, Reals] | None:
    """From which day ahead on a plan limits a model, and its cumulative units by day ahead; None where no plan does.

    There is no bound after the plan's last day; a plan that begins later than today does not say that nothing is made before.
    """
    if not day.has("plan"):
        return None
    frame = day.table("plan").frame
    rows = frame[frame["model"] == model]
    planned = rows["date"].to_numpy().astype("datetime64[D]").astype(np.int64)
    units = rows["units"].to_numpy(np.int64)
    coming = planned > day_number(day.as_of)
    if not coming.any() or _is_target(past, model, planned[~coming], units[~coming]):
        return None
    days, more = planned[coming], units[coming].astype(np.float64)
    order = np.argsort(days, kind="stable")
    total = np.concatenate([[0.0], np.cumsum(more[order])])
    bound = total[np.searchsorted(days[order], ahead, side="right")]
    begin = 0 if not coming.all() else int(np.searchsorted(ahead, days.min()))
    return begin, np.where(ahead <= days.max(), bound, UNBOUNDED)


def _is_target(past: PastOutput, model: str, planned: Integers, units: Integers) -> bool:
    at = np.searchsorted(past.days, planned)
    known = at < len(past.days)
    known[known] = past.days[at[known]] == planned[known]
    if not known.any() or model not in past.models:
        return False
    made = past.units[at[known], past.models.index(model)]
    return float(np.mean(made > units[known])) > OFTEN
