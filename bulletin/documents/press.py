"""All channels of a bulletin in all its locales, and the last check over what came out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.documents import blog, email, evidence, web
from bulletin.documents.letter import letter_of
from bulletin.documents.marks import bare_figures
from bulletin.model import Place, Problem

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bulletin.model import Bulletin, Document, Names

BARE = "{words} stands without its exact value beside it: {around}"


def press(bulletins: Sequence[Bulletin]) -> tuple[list[Document], list[Problem]]:
    """Every document of one bulletin, given once for each locale; sorted by path.

    A figure without its exact value beside it is a problem that blocks, and then nothing is handed out.
    """
    made: list[Document] = []
    problems: list[Problem] = []
    locales = [bulletin.draft.locale for bulletin in bulletins]
    for bulletin in bulletins:
        letter = letter_of(bulletin)
        documents = [
            *email.documents(letter),
            *web.documents(letter, locales),
            *blog.documents(letter),
            *evidence.documents(letter),
        ]
        pages = [(document.path, document.content.decode()) for document in documents if document.media_type == "text/html"]
        mail = (documents[0].path, email.html_part(letter))
        problems += [fault for path, html in [mail, *pages] for fault in last_check(path, html, bulletin.names)]
        made += documents
    return ([] if problems else sorted(made, key=lambda document: document.path)), problems


def last_check(path: str, html: str, names: Names) -> list[Problem]:
    """A problem for every bare figure of an HTML document."""
    return [
        Problem("bare-figure", "block", Place(path), bare.figure, {"around": bare.around}, sentence=BARE)
        for bare in bare_figures(html, names)
    ]
