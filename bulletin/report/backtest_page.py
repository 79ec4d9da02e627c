"""The backtest as a page and as a chart to pass on: every window with what came of it, and the tables below."""

from __future__ import annotations

import json
import re
from datetime import date

from markupsafe import Markup

from bulletin.documents.pages import page, style, style_digest
from bulletin.documents.window_chart import GROUND, HEIGHT, LEFT, RIGHT, WIDTH, Drawn, panels
from bulletin.facts.ahead.as_told import PastWindow
from bulletin.facts.ahead.backtest import Backtest
from bulletin.model import Document
from bulletin.report.backtest import places

FOLDER = "backtest"
LANGUAGE = "en"
"""The page is for the maker, and written like the messages of the command line."""

Series = list[tuple[str, list[Drawn]]]


def backtest_documents(backtest: Backtest, maker: str) -> list[Document]:
    """The page, the chart alone, and all of it as data."""
    told = json.dumps(backtest.as_json(), ensure_ascii=False, indent=1) + "\n"
    return [
        Document(f"{FOLDER}/index.html", "text/html", page_of(backtest, maker).encode()),
        Document(f"{FOLDER}/windows.svg", "image/svg+xml", chart_of(backtest, style("backtest/chart.css")).encode()),
        Document(f"{FOLDER}/backtest.json", "application/json", told.encode()),
    ]


def page_of(backtest: Backtest, maker: str) -> str:
    """The page: chart, tables, and every window."""
    css = style("backtest/chart.css", "shared/maker.css", "backtest/page.css")
    return page(
        "backtest/page.html",
        LANGUAGE,
        maker=maker,
        backtest=backtest,
        chart=Markup(chart_of(backtest)),
        series=series_of(backtest),
        css=css,
        css_digest=style_digest(css),
        percent=percent,
        decimal=decimal,
        number=number,
        day=day,
        words=words,
    )


def chart_of(backtest: Backtest, css: Markup | None = None) -> str:
    """The chart as SVG; with its own style where it stands alone."""
    drawn = panels(series_of(backtest))
    frame = {"width": WIDTH, "height": HEIGHT * len(drawn), "left": LEFT, "right": WIDTH - RIGHT, "ground": GROUND}
    return page("backtest/chart.svg", LANGUAGE, panels=drawn, css=css, **frame)


def series_of(backtest: Backtest) -> Series:
    """The windows of each place: those of past weeks, and those that bulletins told of places up to it."""
    told = {band.last_place: band for band in backtest.told}
    found: Series = []
    for tally in backtest.tallies:
        band = told.pop(tally.place, None)
        windows = [drawn(window) for window in backtest.series(tally.place)]
        framed = [drawn(window, told=True) for window in (band.shown if band else ())]
        beside = "; framed: as told" if framed else ""
        found.append((f"Place {tally.place}{beside}", windows + framed))
    further = [(f"Places {places(band)}: as told", [drawn(window, told=True) for window in band.shown]) for band in told.values()]
    return found + further


def drawn(window: PastWindow, *, told: bool = False) -> Drawn:
    """A window as the chart draws it."""
    return Drawn(window.as_of, window.first, window.last, window.came, told)


def percent(share: float) -> Markup:
    """A share with its exact value."""
    return Markup('<data value="{}">{}</data>').format(share, f"{share:.0%}")


def decimal(loss: float) -> Markup:
    """A loss with its exact value."""
    return Markup('<data value="{}">{}</data>').format(loss, f"{loss:.1f}")


def number(count: int) -> Markup:
    """A count."""
    return Markup('<data value="{0}">{0}</data>').format(count)


def words(text: str) -> Markup:
    """Words with the exact value of each figure in them."""
    parts = re.split(r"(\d+)", text)
    return Markup("").join(number(int(part)) if at % 2 else part for at, part in enumerate(parts))


def day(told: date) -> Markup:
    """A day."""
    return Markup('<time datetime="{0}">{0}</time>').format(told.isoformat())
