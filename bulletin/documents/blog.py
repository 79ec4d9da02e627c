"""The blog post: Markdown with front matter for a site generator, and an HTML fragment to paste."""

from __future__ import annotations

import json
from sys import maxsize
from typing import TYPE_CHECKING

from bulletin.documents.letter import letter_of
from bulletin.documents.pages import page
from bulletin.documents.plain import plain_text
from bulletin.model import Document

if TYPE_CHECKING:
    from bulletin.model import Bulletin

LONGEST_DESCRIPTION = 155
"""Characters that search engines and feeds show of a description: common practice, no source."""


def documents(bulletin: Bulletin) -> list[Document]:
    """The post as Markdown and as an HTML fragment."""
    letter, draft = letter_of(bulletin), bulletin.draft
    folder = f"{draft.name}/{draft.locale}"
    fragment = page("blog/post.html", draft.locale, letter=letter)
    front = {
        "title": letter.body.title,
        "date": bulletin.published.isoformat(),
        "as_of": bulletin.as_of.isoformat(),
        "locale": draft.locale,
        "author": bulletin.maker.name,
        "description": description(plain_text(letter.body.html, maxsize)),
    }
    quoted = {key: json.dumps(text, ensure_ascii=False) for key, text in front.items()}
    markdown = page("blog/post.md", draft.locale, letter=letter, front=quoted)
    return [
        Document(f"{folder}/post.md", "text/markdown", markdown.encode()),
        Document(f"{folder}/post.html", "text/html", fragment.encode()),
    ]


def description(text: str) -> str:
    """The first words of a letter, whole, as many as a description shows."""
    words = text.split("\n\n")[0].replace("\n", " ")
    if len(words) <= LONGEST_DESCRIPTION:
        return words
    cut = words[: LONGEST_DESCRIPTION - 1]
    return (cut.rsplit(" ", 1)[0] if " " in cut else cut) + "…"
