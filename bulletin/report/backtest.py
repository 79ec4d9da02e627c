"""The backtest as a table: how often windows held, by place in the line, beside three plain ways of forecasting."""

from __future__ import annotations

from bulletin.facts.ahead.as_told import ToldBand
from bulletin.facts.ahead.backtest import Backtest
from bulletin.forecast.tally import Score, Tally
from bulletin.report.columns import columns

HEAD = ("place", "way", "windows", "held", "later", "interval score", "pinball loss")
TOLD_HEAD = ("places", "bulletins", "windows", "not yet", "held", "later", "interval score", "pinball loss")
NOTHING_TOLD = "As told: no bulletin on record told an order a window that is over."


def backtest_text(backtest: Backtest) -> str:
    """Windows as of past weeks held against what came; losses in working days, less is better."""
    rows = [row for tally in backtest.tallies for row in rows_of(tally)]
    head = f"Windows of 80 % as of each past week up to {backtest.as_of}; {backtest.note}."
    replayed = [head, "", columns([HEAD, *rows]), "", *map(verdict, backtest.tallies), widened(backtest)] if rows else []
    return "\n".join([*replayed, "", *told_lines(backtest.told)]).lstrip("\n")


def told_lines(bands: tuple[ToldBand, ...]) -> list[str]:
    """What bulletins told, apart from the replay."""
    if not bands:
        return [NOTHING_TOLD]
    told, bulletins = sum(band.windows for band in bands), max(band.bulletins for band in bands)
    head = f"As told: {told} windows of up to {bulletins} bulletins on record, parts and all; those not over are left out."
    return [head, "", columns([TOLD_HEAD, *map(told_row, bands)]), "", *map(told_verdict, bands)]


def widened(backtest: Backtest) -> str:
    """By how much windows are put out."""
    if not backtest.widening:
        return "Windows are told as they are simulated: nothing proves them too narrow."
    return f"Windows are put out by {backtest.widening} working days at both ends."


def rows_of(tally: Tally) -> list[tuple[str, ...]]:
    """One row a way of forecasting; the place stands on the first."""
    shown = (str(tally.place), *[""] * (len(tally.scores) - 1))
    rows = zip(shown, tally.scores, strict=True)
    return [(place, score.way, str(tally.windows), *figures(score)) for place, score in rows]


def told_row(band: ToldBand) -> tuple[str, ...]:
    """The figures of one band."""
    return places(band), str(band.bulletins), str(band.windows), str(band.outstanding), *figures(band.score)


def figures(score: Score) -> tuple[str, ...]:
    """Shares in percent, losses with one decimal."""
    return f"{score.held:.0%}", f"{score.late:.0%}", f"{score.interval_score:.1f}", f"{score.pinball_loss:.1f}"


def places(band: ToldBand) -> str:
    """The places of a band."""
    return f"{band.first_place}-{band.last_place}" if band.last_place else f"{band.first_place} on"


def verdict(tally: Tally) -> str:
    """Whether the windows of a place that do not overlap came true as often as they say."""
    return f"place {tally.place}: {apart(tally)}"


def told_verdict(band: ToldBand) -> str:
    """The same for what bulletins told."""
    return f"places {places(band)}: {apart(band)}"


def apart(counted: Tally | ToldBand) -> str:
    """How many of the windows that do not overlap held, and how many should."""
    low, high = counted.band
    told = f"{counted.separate_held} of {counted.separate} windows that do not overlap held"
    return f"{told}; {low} to {high} do if 80 % is right"
