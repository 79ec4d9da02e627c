"""Whom a document speaks to: a locale, what things are called in it, and the day everything is told for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING

from bulletin.documents.phrases import catalogue, direction
from bulletin.formats.printing import Format
from bulletin.model import Names

if TYPE_CHECKING:
    from gettext import GNUTranslations

    from bulletin.model import Bulletin


@dataclass(frozen=True)
class Reader:
    """A reader's locale (BCP 47), the names of things, and the as-of date."""

    locale: str
    as_of: date
    names: Names

    @cached_property
    def known(self) -> frozenset[str]:
        """Every name that tables and settings know, in any locale."""
        return known_names(self.names)

    @cached_property
    def format(self) -> Format:
        """Figures in this locale."""
        return Format(self.locale, self.names)

    @property
    def phrases(self) -> GNUTranslations:
        """Phrases in this locale."""
        return catalogue(self.locale)

    @property
    def direction(self) -> str:
        """`ltr` or `rtl`."""
        return direction(self.locale)


def known_names(names: Names) -> frozenset[str]:
    """Every name that tables and settings know, in any locale."""
    return names.plain | frozenset(names.forms.values())


def reader_of(bulletin: Bulletin) -> Reader:
    """The reader for whom a bulletin was written."""
    return Reader(bulletin.draft.locale, bulletin.as_of, bulletin.names)
