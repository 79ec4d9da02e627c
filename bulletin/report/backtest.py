"""The backtest as a table: how often windows held, by place in the line, beside three plain ways of forecasting."""

from __future__ import annotations

from bulletin.facts.ahead.backtest import Backtest
from bulletin.forecast.tally import Score, Tally
from bulletin.report.columns import columns

HEAD = ("place", "way", "windows", "held", "later", "interval score", "pinball loss")


def backtest_text(backtest: Backtest) -> str:
    """Windows as of past weeks held against what came; losses in working days, less is better."""
    rows = [row for tally in backtest.tallies for row in rows_of(tally)]
    apart = [verdict(tally) for tally in backtest.tallies]
    widened = f"Windows are put out by {backtest.widening} working days at both ends." if backtest.widening else ""
    head = f"Windows of 80 % as of each past week up to {backtest.as_of}; {backtest.note}."
    return "\n".join(filter(None, [head, "", columns([HEAD, *rows]), "", *apart, widened]))


def rows_of(tally: Tally) -> list[tuple[str, ...]]:
    """One row a way of forecasting; the place stands on the first."""
    return [row_of(score, tally, str(tally.place) if at == 0 else "") for at, score in enumerate(tally.scores)]


def row_of(score: Score, tally: Tally, place: str) -> tuple[str, ...]:
    """A way's figures: shares in percent, losses with one decimal."""
    shares = (f"{score.held:.0%}", f"{score.late:.0%}")
    return place, score.way, str(tally.windows), *shares, f"{score.interval_score:.1f}", f"{score.pinball_loss:.1f}"


def verdict(tally: Tally) -> str:
    """Whether the windows of a place that do not overlap came true as often as they say."""
    low, high = tally.band
    told = f"{tally.separate_held} of {tally.separate} windows that do not overlap held; {low} to {high} do if 80 % is right"
    return f"place {tally.place}: {told}"
