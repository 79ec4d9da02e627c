"""The phrases around a maker's own words, from gettext catalogues that are read as they are written (`.po`).

A catalogue is compiled in memory, so that what translators edit is what readers see, without a step in between.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from gettext import GNUTranslations
from io import BytesIO
from typing import TYPE_CHECKING

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from markupsafe import Markup

from bulletin.places import PACKAGE

if TYPE_CHECKING:
    from collections.abc import Sequence

CATALOGUES = PACKAGE / "locale"
LAST_RESORT = "en"
"""The language of the message ids: what a reader gets whose language has no catalogue."""

RIGHT_TO_LEFT = frozenset({"ar", "arc", "ckb", "dv", "fa", "he", "ks", "ps", "sd", "ug", "ur", "yi"})
"""Languages written from right to left (CLDR `characterOrder`)."""


def languages() -> list[str]:
    """The languages that have a catalogue, sorted."""
    return sorted(path.stem for path in CATALOGUES.glob("*.po"))


@cache
def catalogue(locale: str) -> GNUTranslations:
    """The phrases for a BCP 47 locale: its own catalogue, else its language's, else English."""
    tags = (locale, locale.split("-")[0], LAST_RESORT)
    path = next(path for path in (CATALOGUES / f"{tag}.po" for tag in tags) if path.is_file())
    compiled = BytesIO()
    with path.open("rb") as file:
        write_mo(compiled, read_po(file, locale=path.stem.replace("-", "_")))
    compiled.seek(0)
    return GNUTranslations(compiled)


def direction(locale: str) -> str:
    """`rtl` or `ltr`, as the `dir` attribute wants it."""
    return "rtl" if locale.split("-")[0] in RIGHT_TO_LEFT else "ltr"


def has_catalogue(locale: str) -> bool:
    """Whether phrases can be said in a locale's language."""
    return bool({locale, locale.split("-")[0]} & set(languages()))


def spoken_locale(locale: str, maker: Sequence[str] = ()) -> str:
    """The locale to speak in: the reader's own, else the first of the maker's with phrases, so that words and figures agree."""
    return next((tag for tag in (locale, *maker) if has_catalogue(tag)), LAST_RESORT)


@dataclass(frozen=True, slots=True)
class Speaker:
    """Says phrases in one locale. A phrase is markup that translators wrote; what fills it is escaped."""

    locale: str

    def say(self, phrase: str, /, **fill: object) -> Markup:
        """A phrase by its English words."""
        return Markup(catalogue(self.locale).gettext(phrase)) % fill

    def say_count(self, one: str, several: str, count: int, /, **fill: object) -> Markup:
        """A phrase whose form follows a count."""
        return Markup(catalogue(self.locale).ngettext(one, several, count)) % fill
