"""The blog post: Markdown with front matter for a site generator, and an HTML fragment to paste."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from bulletin.documents.pages import page
from bulletin.documents.plain import plain_line
from bulletin.model import Document

if TYPE_CHECKING:
    from bulletin.documents.letter import Letter

LONGEST_DESCRIPTION = 155
"""Characters that search engines and feeds show of a description: common practice, no source."""


def documents(letter: Letter) -> list[Document]:
    """The post as Markdown and as an HTML fragment."""
    bulletin, locale = letter.bulletin, letter.reader.locale
    fragment = page("blog/post.html", locale, letter=letter)
    front = {
        "title": letter.body.title,
        "date": bulletin.published.isoformat(),
        "as_of": bulletin.as_of.isoformat(),
        "locale": locale,
        "author": bulletin.maker.name,
        "description": description(plain_line(letter.body.html)),
    }
    quoted = {key: json.dumps(text, ensure_ascii=False) for key, text in front.items()}
    markdown = page("blog/post.md", locale, letter=letter, front=quoted)
    return [
        Document(f"{letter.folder}/post.md", "text/markdown", markdown.encode()),
        Document(f"{letter.folder}/post.html", "text/html", fragment.encode()),
    ]


def description(words: str) -> str:
    """The first words of a letter, as many whole ones as a description shows."""
    if len(words) <= LONGEST_DESCRIPTION:
        return words
    cut = words[: LONGEST_DESCRIPTION - 1]
    return (cut.rsplit(" ", 1)[0] if " " in cut else cut) + "…"
