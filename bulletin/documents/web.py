"""The web page: one file without scripts or anything from elsewhere, readable narrow and wide, light and dark, printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from babel import Locale

from bulletin.documents.charts import GROUND, HEIGHT, WIDTH, Amount, bars
from bulletin.documents.letter import Letter
from bulletin.documents.pages import page, style, style_digest
from bulletin.model import Document

if TYPE_CHECKING:
    from collections.abc import Sequence


def documents(letter: Letter, locales: Sequence[str] = ()) -> list[Document]:
    """The page of a bulletin, with links to the same bulletin in the other `locales`."""
    locale = letter.reader.locale
    css = style("web/page.css")
    others = [(tag, _endonym(tag)) for tag in sorted(locales) if tag != locale]
    html = page(
        "web/page.html",
        locale,
        letter=letter,
        css=css,
        css_digest=style_digest(css),
        languages=others,
        bars=bars(_amounts(letter), letter.reader.direction),
        width=WIDTH,
        height=HEIGHT,
        ground=GROUND,
    )
    return [Document(f"{letter.folder}/index.html", "text/html", html.encode())]


def _amounts(letter: Letter) -> list[Amount]:
    return [Amount(week.labels, week.shown, week.size, week.current) for week in letter.weeks]


def _endonym(tag: str) -> str:
    """A language's name in itself, with a capital, as a list of links wants it."""
    name = Locale.parse(tag, sep="-").get_display_name() or tag
    return name[0].upper() + name[1:]
