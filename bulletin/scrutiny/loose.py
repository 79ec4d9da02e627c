"""Loose figures: numbers and dates in prose that no form carries and that nothing frees."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bulletin.draft.language import number_words
from bulletin.draft.sentences import Span
from bulletin.formats.figures import Figure
from bulletin.formats.reading import find_figures
from bulletin.scrutiny.asides import DATE_KINDS, in_passing
from bulletin.scrutiny.free import free_names, free_shapes, is_of_as_of
from bulletin.scrutiny.quotations import without_quotations
from bulletin.scrutiny.romans import roman_figures

if TYPE_CHECKING:
    from datetime import date

    from bulletin.draft.language import Language, Words
    from bulletin.draft.prose import Block
    from bulletin.formats.figures import Kind
    from bulletin.scrutiny.known_names import KnownNames

LANGUAGES = ("en", "de", "fr", "es", "ja")
"""Whose number words are figures in any draft."""
NEXT_WORDS = re.compile(r"(?:[ -]+[\w'\u2019-]+){1,4}")


@dataclass(frozen=True, slots=True)
class Scene:
    """What decides whether a figure is free: the language, the day, the names; `products` finds what the maker makes."""

    locale: str
    as_of: date
    language: Language | None
    names: KnownNames
    products: Words


@dataclass(frozen=True, slots=True)
class Loose:
    """A figure that claims something, and the block it stands in."""

    figure: Figure
    block: Block

    @property
    def words(self) -> str:
        """The figure as a reader sees it."""
        return self.block.text[self.figure.start : self.figure.end]

    @property
    def at(self) -> int:
        """Its offset in the draft's source."""
        return self.block.origin(self.figure.start)

    @property
    def is_date(self) -> bool:
        """Whether it is a date or a span of time."""
        return self.figure.kind in DATE_KINDS


def loose_figures(block: Block, text: str, scene: Scene) -> list[Loose]:
    """The figures that the maker claims in a text as long as the block's (parts of it may be blotted out).

    What others are quoted with and what is told in passing claims nothing of the business.
    """
    language = scene.language
    if language is None:
        return [Loose(figure, block) for figure in claiming_figures(text, scene)]
    spoken = without_quotations(text, language)
    figures = claiming_figures(spoken, scene)
    passing = (figure for figure in figures if in_passing(figure, text, language, scene.locale))
    free = {figure.start for figure in passing if not _counts(figure, text, language, scene.products)}
    return [Loose(figure, block) for figure in figures if figure.start not in free]


def claiming_figures(text: str, scene: Scene) -> list[Figure]:
    """The figures of a text that claim something."""
    text = free_names(text, scene.names)
    figures = find_figures(text, scene.locale)
    figures += [*roman_figures(text), *_listed_figures(text, figures, scene.language)]
    figures.sort(key=lambda figure: figure.start)
    spans = free_shapes(text, scene.language, scene.locale) if figures and scene.language else []
    return [figure for figure in figures if not _is_within(figure, spans) and not _is_free(figure, text, scene)]


def _listed_figures(text: str, found: list[Figure], language: Language | None) -> list[Figure]:
    """Feasts and seasons ("since Easter") and ordinals that only the language's own lists know, where no figure stands yet."""
    kinds: tuple[tuple[str, Kind], ...] = (("times", "date"), ("ranks", "ordinal"))
    taken = [Span(figure.start, figure.end) for figure in found]
    listed = [
        Figure(*match.span(), match[0], kind, rounding_start=match.start())
        for name, kind in kinds if language is not None
        for match in language.classes[name].finditer(text)
    ]  # fmt: skip
    listed += _foreign_figures(text, language) if language else []
    return [figure for figure in listed if not _is_within(figure, taken)]


def _foreign_figures(text: str, language: Language) -> list[Figure]:
    """Numbers in the words of another language than the draft's, from thirteen on: shorter ones may be any word."""
    return [
        Figure(*match.span(), match[0], "number", rounding_start=match.start(), spelled=True)
        for tag in LANGUAGES if tag != language.tag
        for match in number_words(tag).finditer(text)
    ]  # fmt: skip


def _is_within(figure: Figure, spans: list[Span]) -> bool:
    return any(start < figure.end and figure.start < end for start, end in spans)


def _is_free(figure: Figure, text: str, scene: Scene) -> bool:
    if figure.day is not None:
        return is_of_as_of(figure.day, scene.as_of)
    return scene.language is not None and _is_weak(figure, text, scene.language, scene.products)


def _is_weak(figure: Figure, text: str, language: Language, products: Words) -> bool:
    """A small word such as "one" or "first" with nothing counted behind it."""
    if not language.classes["weak_numbers"].fullmatch(figure.text):
        return False
    return not _counts(figure, text, language, products)


def _counts(figure: Figure, text: str, language: Language, products: Words) -> bool:
    """Whether orders, parts or products stand behind a figure."""
    behind = NEXT_WORDS.match(text, figure.end)
    words = behind[0] if behind else ""
    return language.has("counted", words) or products.search(words) is not None
