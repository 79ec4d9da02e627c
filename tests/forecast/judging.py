"""How a forecast does on factories with known truth, beside one who knows the process and the day bootstrap."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bulletin.forecast.lateness import PastLateness
from bulletin.forecast.line import Paths, draw_paths, line_of
from bulletin.forecast.mix import Queues, mix_of, split
from bulletin.forecast.output import Output
from bulletin.forecast.parts import Supply, capped
from bulletin.forecast.references import day_bootstrap
from bulletin.forecast.scoring import interval_score
from bulletin.forecast.windows import curves_of
from tests.forecast.factories import Factory, weekdays, working_days
from tests.forecast.processes import Counts

FUTURES = 1000


def windows_for(factory: Factory) -> tuple[Counts, Counts]:
    """First and last working day ahead of the window of each place, from what may be seen of a factory."""
    line = line_of(Output(factory.past + factory.other, weekdays(factory.past_days)), len(factory.days))
    if line is None:
        raise ValueError(f"{factory.kind} {factory.seed} has too little history")
    paths = _disturbed(factory, draw_paths(line, weekdays(factory.days), FUTURES))
    return curves_of(paths).windows(factory.places)


def _disturbed(factory: Factory, paths: Paths) -> Paths:
    if factory.shelf:
        shelf = factory.shelf
        past = PastLateness(shelf.past.astype(np.float64), np.zeros(0))
        supply = Supply("P-1", float(shelf.free), shelf.due, shelf.units.astype(np.float64), past)
        return capped(paths, supply.cap(factory.days, after=0, futures=FUTURES))
    if factory.sharing:
        mix = mix_of(np.column_stack([factory.past, factory.other]))
        queues = Queues(np.array([1e9, factory.sharing.waiting]), np.zeros(2))
        return split(paths, mix, queues, "line")[0]
    return paths


@dataclass(frozen=True)
class Judged:
    """Shares of the true futures, over all places, and mean interval scores in working days."""

    kind: str
    held: float
    late: float
    score: float
    oracle: float
    bootstrap: float


def judge(factory: Factory) -> Judged:
    """The windows of one factory against its true futures."""
    low, high = windows_for(factory)
    known = np.sort(factory.known, axis=1)
    tenth = known.shape[1] // 10
    truth = factory.truths
    inside = (truth >= low[:, None]) & (truth <= high[:, None])
    return Judged(
        factory.kind,
        float(inside.mean()),
        float((truth > high[:, None]).mean()),
        _score(low, high, truth),
        _score(known[:, tenth - 1], known[:, -tenth - 1], truth),
        _score(*_plain(factory), truth),
    )


def _plain(factory: Factory) -> tuple[NDArray[np.generic], NDArray[np.generic]]:
    """The day bootstrap of the last 60 working days. It knows weekends, but no closure that lies ahead."""
    weekdays_ahead = working_days(1, int(factory.days[-1]))
    ends = day_bootstrap(factory.past, factory.places, len(weekdays_ahead))
    told = [weekdays_ahead[np.minimum(end.astype(np.int64), len(weekdays_ahead) - 1)] for end in ends]
    low, high = (np.searchsorted(factory.days, day) for day in told)
    return low, high


def _score(low: NDArray[np.generic], high: NDArray[np.generic], truth: Counts) -> float:
    return float(interval_score(low[:, None], high[:, None], truth).mean())


@dataclass(frozen=True)
class Summary:
    """Over all factories; the ratios are geometric means over the kinds of ratios of mean scores."""

    held: float
    least_held: float
    late: float
    to_oracle: float
    to_bootstrap: float


def summary(judged: list[Judged]) -> Summary:
    """All factories together, each kind weighing the same."""
    kinds = {kind: [one for one in judged if one.kind == kind] for kind in sorted({one.kind for one in judged})}
    held = [np.mean([one.held for one in ones]) for ones in kinds.values()]
    ratios = [
        [np.log(sum(one.score for one in ones) / sum(getattr(one, other) for one in ones)) for other in ("oracle", "bootstrap")]
        for ones in kinds.values()
    ]
    to_oracle, to_bootstrap = np.exp(np.mean(ratios, axis=0))
    late = float(np.mean([one.late for one in judged]))
    return Summary(float(np.mean(held)), float(min(held)), late, float(to_oracle), float(to_bootstrap))
