"""What a bulletin says, put into words once: every channel lays out the same letter."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from bulletin.documents.body import Body, render
from bulletin.documents.marks import moment
from bulletin.documents.reader import Reader, reader_of
from bulletin.documents.weeks import Week, weeks

if TYPE_CHECKING:
    from bulletin.model import Bulletin, Maker


@dataclass(frozen=True, slots=True)
class Letter:
    """A bulletin for one reader: the body in its forms, the as-of date shown and marked, the weeks boxed."""

    bulletin: Bulletin
    reader: Reader
    body: Body
    day: str
    day_marked: Markup
    weeks: tuple[Week, ...]

    @property
    def maker(self) -> Maker:
        """Who speaks."""
        return self.bulletin.maker

    @property
    def folder(self) -> str:
        """Where its documents lie, below the output folder."""
        return f"{self.bulletin.draft.name}/{self.bulletin.draft.locale}"

    @property
    def private_folder(self) -> str:
        """Where lies what is for the maker only, apart from all that may be published."""
        return f"{self.bulletin.draft.name}/for-the-maker/{self.bulletin.draft.locale}"

    @property
    def contact_link(self) -> Markup:
        """The maker's address as a link where it is one for mail."""
        contact = self.maker.contact
        return Markup('<a href="mailto:{0}">{0}</a>').format(contact) if "@" in contact else escape(contact)


def letter_of(bulletin: Bulletin) -> Letter:
    """Write the letter of a bulletin in the locale of its draft."""
    reader = reader_of(bulletin)
    day = reader.format.day(bulletin.as_of)
    marked = moment(day, bulletin.as_of.isoformat())
    return Letter(bulletin, reader, render(bulletin), day, marked, tuple(weeks(bulletin, reader)))
