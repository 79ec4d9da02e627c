"""The web page: one file without scripts or anything from elsewhere, readable narrow and wide, light and dark, printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from babel import Locale

from bulletin.documents.charts import GROUND, HEIGHT, WIDTH, Amount, bars
from bulletin.documents.letter import Letter, letter_of
from bulletin.documents.pages import page, style, style_digest
from bulletin.model import Document

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bulletin.model import Bulletin


def documents(bulletin: Bulletin, locales: Sequence[str] = ()) -> list[Document]:
    """The page of a bulletin, with links to the same bulletin in the other `locales`."""
    letter, draft = letter_of(bulletin), bulletin.draft
    css = style("web/page.css")
    others = [(tag, _endonym(tag)) for tag in sorted(locales) if tag != draft.locale]
    html = page(
        "web/page.html",
        draft.locale,
        letter=letter,
        css=css,
        css_digest=style_digest(css),
        languages=others,
        bars=bars(_amounts(letter), letter.reader.direction),
        width=WIDTH,
        height=HEIGHT,
        ground=GROUND,
    )
    return [Document(f"{draft.name}/{draft.locale}/index.html", "text/html", html.encode())]


def _amounts(letter: Letter) -> list[Amount]:
    return [Amount(week.labels, week.shown, week.size, week.current) for week in letter.weeks]


def _endonym(tag: str) -> str:
    """A language's name in itself, with a capital, as a list of links wants it."""
    name = Locale.parse(tag, sep="-").get_display_name() or tag
    return name[0].upper() + name[1:]
