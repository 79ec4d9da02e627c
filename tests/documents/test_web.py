"""The web page."""

from __future__ import annotations

import re
from base64 import b64encode
from hashlib import sha256
from typing import Any

import pytest
from justhtml import JustHTML

from bulletin.documents import web
from bulletin.documents.letter import letter_of
from bulletin.documents.pages import style
from bulletin.documents.tree import Element, parse_fragment
from tests.documents.builders import bulletin


def page(locales: tuple[str, ...] = (), **options: Any) -> str:
    """A page as text."""
    return web.documents(letter_of(bulletin(**options)), locales)[0].content.decode()


def contrast(first: str, second: str) -> float:
    """The contrast ratio of two colours (WCAG 2.2, definition of contrast ratio and relative luminance)."""
    lighter, darker = sorted((luminance(first), luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def luminance(colour: str) -> float:
    """Relative luminance of #rrggbb."""
    if len(colour) == 4:
        colour = "#" + "".join(digit * 2 for digit in colour[1:])
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = [channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4 for channel in channels]
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_contrast_formula_gives_the_published_values() -> None:
    """#767676 on white has 4.5422, #777777 has 4.4781 (WCAG 2.2, as listed among the project's sources)."""
    assert (4.5422, 4.4781) == (round(contrast("#767676", "#ffffff"), 4), round(contrast("#777777", "#ffffff"), 4))


@pytest.mark.parametrize("sheet", ["web/page.css", "shared/maker.css"])
def test_every_palette_can_be_read(sheet: str) -> None:
    """In light, dark and print, each colour of words has 4.5 on both grounds (WCAG 2.2, 1.4.3)."""
    for palette in re.findall(r":root \{([^}]*)\}", style(sheet)):
        colours = dict(re.findall(r"--(\w+): (#\w+);", palette))
        words = [colours[name] for name in ("ink", "faint", "indigo", "madder") if name in colours]
        ratios = [contrast(word, colours[ground]) for word in words for ground in ("linen", "paper") if ground in colours]

        assert ratios
        assert 4.5 <= min(ratios)


def test_page_is_valid_html() -> None:
    """A strict parser of the HTML standard finds no fault."""
    actual = JustHTML(page(("en", "de")), strict=True)

    assert [] == actual.errors


def test_language_and_direction_are_set() -> None:
    """The page says its language and which way it is read."""
    assert '<html lang="en" dir="ltr">' in page()
    assert '<html lang="ar" dir="rtl">' in page(locale="ar")


def test_other_languages_are_linked() -> None:
    """Each other locale has a link for readers, under its own name, and one for machines."""
    actual = page(("en", "de", "ja"))

    assert '<a href="../de/index.html" hreflang="de" lang="de">Deutsch</a>' in actual
    assert '<link rel="alternate" hreflang="ja" href="../ja/index.html">' in actual
    assert 'href="../en/' not in actual


def test_nothing_runs_and_nothing_is_fetched() -> None:
    """No script, no style or font or picture from elsewhere; the policy lets the one style sheet in by its digest."""
    actual = page()
    found = re.search(r"<style>(.*?)</style>", actual, re.DOTALL)
    assert found
    digest = b64encode(sha256(found[1].encode()).digest()).decode()

    assert "<script" not in actual
    assert "url(" not in actual
    assert f"style-src 'sha256-{digest}'" in actual
    assert " style=" not in actual


def test_day_stands_above_the_letter() -> None:
    """The as-of date comes right below the title."""
    actual = page()

    assert (
        actual.index("</h1>") < actual.index('As of <time datetime="2026-03-27">March 27, 2026</time>') < actual.index("<main>")
    )


def svg_of(html: str) -> Element:
    """The drawing of a page."""
    found = re.search(r"<svg.*?</svg>", html, re.DOTALL)
    assert found
    return parse_fragment(found[0]).elements("svg")[0]


def test_figures_of_the_chart_stand_again_in_the_table() -> None:
    """Every figure above a bar stands in the table below with its value, and the chart has a title and a description."""
    actual = page()
    svg = svg_of(actual)
    figures = [text.text() for text in svg.elements("text") if text.attributes.get("class") == "figure"]

    assert 12 == len(figures)
    assert figures == re.findall(r'<td><data value="\d+">(\d+)</data></td>', actual)
    assert ["Units boxed each week"] == [title.text() for title in svg.elements("title")]
    assert svg.elements("desc")


def test_bars_are_mirrored_right_to_left() -> None:
    """In Arabic the oldest week stands at the right."""
    left = [float(bar.attributes["x"]) for bar in svg_of(page()).elements("rect")]
    right = [float(bar.attributes["x"]) for bar in svg_of(page(locale="ar")).elements("rect")]

    assert sorted(left) == left
    assert sorted(right, reverse=True) == right


def test_running_week_is_told_apart() -> None:
    """A week that is not over is drawn open and said to be running."""
    actual = page()

    assert 1 == actual.count('class="bar open"')
    assert 1 == actual.count("(not over yet)")


def test_without_weeks_there_is_no_chart() -> None:
    """A maker who has boxed nothing yet gets no empty chart."""
    actual = page(weeks=[])

    assert "<figure>" not in actual


def test_weeks_without_output_have_bars_of_no_height() -> None:
    """Nothing boxed at all divides nothing by zero."""
    heights = [bar.attributes["height"] for bar in svg_of(page(weeks=[0, 0])).elements("rect")]

    assert ["0.0", "0.0"] == heights
