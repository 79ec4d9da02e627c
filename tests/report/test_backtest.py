"""The backtest in words, as a page and as a chart."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import date
from xml.etree import ElementTree

import pytest
from justhtml import JustHTML

from bulletin.documents.marks import bare_figures
from bulletin.documents.pages import style_digest
from bulletin.facts.ahead.as_told import PastWindow, ToldBand
from bulletin.facts.ahead.backtest import Backtest
from bulletin.forecast.tally import Score, Tally
from bulletin.model import Names
from bulletin.report.backtest import NOTHING_TOLD, backtest_text
from bulletin.report.backtest_page import backtest_documents

WAYS = ("forecast", "remaining by rate", "normal approximation", "day bootstrap")
SCORES = tuple(Score(way, 0.8, 0.125, 4.25 + at, 0.5) for at, way in enumerate(WAYS))
MARCH = (
    PastWindow(date(2026, 3, 6), 40, date(2026, 3, 10), date(2026, 3, 13), date(2026, 3, 12)),
    PastWindow(date(2026, 3, 13), 40, date(2026, 3, 17), date(2026, 3, 20), date(2026, 3, 24)),
)
BAND = ToldBand(1, 40, 2, 75, 1, 2, 1, (0, 2), Score("forecast", 0.76, 0.2, 6.0, 0.4), (replace(MARCH[0], place=38),))
FURTHER = replace(BAND, first_place=41, last_place=None, shown=(replace(MARCH[0], place=99, came=None),))
BACKTEST = Backtest(date(2026, 3, 27), (Tally(40, 24, 12, 9, (7, 12), SCORES),), MARCH, 0)
BOTH = replace(BACKTEST, told=(BAND, FURTHER), widening=3)


def documents(backtest: Backtest = BOTH) -> dict[str, str]:
    return {one.path: one.content.decode() for one in backtest_documents(backtest, "Fennmoor Looms")}


def test_the_table_has_every_way_and_every_share() -> None:
    """Each place has a row a way, with shares in percent and losses with one decimal, and the verdict on separate windows."""
    told = backtest_text(BACKTEST)

    assert ["40     forecast              24       80%   12%    4.2             0.5"] == re.findall("^40 .*", told, re.MULTILINE)
    assert [*WAYS] == [way for way in WAYS if re.search(rf"^(40)? +{way} ", told, re.MULTILINE)]
    assert "place 40: 9 of 12 windows that do not overlap held; 7 to 12 do if 80 % is right" in told
    assert "output alone is replayed: what parts allowed can't be told from one count of stock" in told
    assert told.endswith(NOTHING_TOLD)


def test_what_bulletins_told_stands_apart() -> None:
    """Told windows have a table of their own with their number, and the page and the text say by how much windows are widened."""
    told = backtest_text(BOTH)

    assert "As told: 150 windows of up to 2 bulletins on record, parts and all; those not over are left out." in told
    assert re.search(r"^1-40 +2 +75 +1 +76% +20% +6\.0 +0\.4$", told, re.MULTILINE)
    assert re.search(r"^41 on ", told, re.MULTILINE)
    assert "Windows are put out by 3 working days at both ends." in told
    assert 'put out by <data value="3">3</data> working days' in documents()["backtest/index.html"]


def test_without_a_replay_what_was_told_stands_alone() -> None:
    """Where no past week can be replayed, the text begins with what bulletins told."""
    alone = replace(BOTH, tallies=(), windows=())

    assert backtest_text(alone).startswith("As told: ")
    assert "No place was reached yet" in documents(alone)["backtest/index.html"]


def test_the_page_is_sound_html_without_bare_figures() -> None:
    """The page has no error of form, every figure of it has its exact value, and only its own style is let in."""
    html = documents()["backtest/index.html"]
    css = re.search("<style>(.*?)</style>", html, re.DOTALL)
    parsed = JustHTML(html, strict=False, collect_errors=True)

    assert [] == [error.code for error in parsed.errors]
    assert [] == bare_figures(html, Names())
    assert css is not None
    assert "script" not in html
    assert style_digest(css[1]) in html


def test_the_chart_stands_alone() -> None:
    """The chart is well-formed, has a title and a description, and one bar a window, framed where a bulletin told it."""
    svg = documents()["backtest/windows.svg"]
    root = ElementTree.fromstring(svg)
    kinds = [element.get("class") for element in root.iter("{http://www.w3.org/2000/svg}rect")]

    assert ["paper", "replayed", "replayed", "told", "told"] == kinds
    assert [1, 1] == [len(list(root.iter(f"{{http://www.w3.org/2000/svg}}{name}"))) for name in ("title", "desc")]
    assert "prefers-color-scheme: dark" in svg


@pytest.mark.parametrize("mark", ['class="held"', 'class="late"'])
def test_marks_are_drawn_by_what_came(mark: str) -> None:
    """A window that held and one that did not have their own marks."""
    assert mark in documents(BACKTEST)["backtest/windows.svg"]


def test_every_window_of_the_chart_stands_in_a_table() -> None:
    """What the chart draws can be read below it, each day with its date for machines."""
    html = documents()["backtest/index.html"]
    rows = re.findall(r'<tr><th scope="row"><time datetime="([^"]*)">', html)

    assert ["2026-03-06", "2026-03-13", "2026-03-06", "2026-03-06"] == rows
    assert "not yet" in html


def test_the_data_are_those_of_the_command() -> None:
    """The file of data holds what `--json` prints."""
    assert json.loads(json.dumps(BOTH.as_json())) == json.loads(documents()["backtest/backtest.json"])
