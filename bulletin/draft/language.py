"""The words of a language as data: classes of words, free shapes, periods, states and nouns, one file a language.

Everything here is read from `words/<language>.toml`, compiled once and shared; a language without a file is None, and its
prose is held to figures and dates alone. An entry is a word or several (case does not matter, a trailing `*` stands for any
ending); between slashes it is a regular expression.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

Words = re.Pattern[str]


@dataclass(frozen=True, slots=True)
class FreeShape:
    """Words with figures that claim nothing: an idiom, an address, a version. `near` must stand in the same clause, if given."""

    why: str
    pattern: Words
    near: Words | None = None


@dataclass(frozen=True, slots=True)
class Language:
    """One language's words.

    `classes` are named sets of words that rules ask for; `periods` name a period of facts (`last_week`), `states` a state of
    an order (`shipped`), `nouns` a unit of facts (`order`): all map a name to a pattern that finds any of its words.
    """

    tag: str
    classes: Mapping[str, Words]
    periods: Mapping[str, Words]
    states: Mapping[str, Words]
    nouns: Mapping[str, Words]
    free: tuple[FreeShape, ...]

    def has(self, name: str, text: str) -> bool:
        """Whether a text holds a word of a class."""
        return self.classes[name].search(text) is not None


@cache
def read_language(locale: str) -> Language | None:
    """The words of a locale's language; None where there is no list for it."""
    tag = re.split("[-_]", locale)[0].lower()
    file = resources.files("bulletin.draft") / "words" / f"{tag}.toml"
    if not tag.isalpha() or not file.is_file():
        return None
    data = tomllib.loads(file.read_text(encoding="utf-8"))
    return Language(
        tag=tag,
        classes=_patterns(data["classes"]),
        periods=_patterns(data["periods"]),
        states=_patterns(data["states"]),
        nouns=_patterns(data["nouns"]),
        free=tuple(FreeShape(shape["why"], any_of(shape["words"]), _near(shape)) for shape in data["free"]),
    )


def any_of(entries: Iterable[str]) -> Words:
    """A pattern that finds any of the entries as whole words, the longest first; without entries it finds nothing."""
    ordered = sorted(entries, key=lambda entry: (-len(entry), entry))
    shapes = [f"(?:{entry[1:-1]})" for entry in ordered if _is_expression(entry)]
    plain = "|".join(_plain(entry) for entry in ordered if not _is_expression(entry))
    words = [rf"(?<!\w)(?:{plain})(?!\w)"] if plain else []
    return re.compile("|".join([*words, *shapes]) or r"(?!)", re.IGNORECASE)


def _is_expression(entry: str) -> bool:
    return len(entry) > 2 and entry.startswith("/") and entry.endswith("/")


def _plain(entry: str) -> str:
    words = (re.escape(word.removesuffix("*")) + (r"\w*" if word.endswith("*") else "") for word in entry.split())
    return r"\s+".join(words)


def _patterns(section: Mapping[str, list[str]]) -> Mapping[str, Words]:
    return MappingProxyType({name: any_of(entries) for name, entries in section.items()})


def _near(shape: Mapping[str, Any]) -> Words | None:
    return any_of(shape["near"]) if "near" in shape else None
