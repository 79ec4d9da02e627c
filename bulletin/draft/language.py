"""The words of a language as data: classes of words, claims and what releases them, periods, states and nouns.

A language is a folder of `languages/`: `words.toml` (what drafts may say), `candour.toml` (what must be said of a fault, and what
may not soften it) and `warrants.toml` (what words of a claim call for), compiled once and shared; a language without one is None,
and its prose is held to figures and dates alone. word_patterns.py says what an entry of a list may be.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from bulletin.draft.word_patterns import Words, any_of

if TYPE_CHECKING:
    from collections.abc import Mapping
    from importlib.resources.abc import Traversable

MACRO = re.compile(r"(?<!\(\?)(?<!\(\?P)<([a-z_]+)>")
FURTHER = ("candour.toml", "warrants.toml")
"""Folders with further classes of words and claims, a file a language."""
__all__ = ["ClaimWords", "FreeShape", "Language", "Words", "any_of", "number_words", "read_language"]


@dataclass(frozen=True, slots=True)
class FreeShape:
    """Words with figures that claim nothing if one of `near` stands in the same sentence: hours of business."""

    why: str
    pattern: Words
    near: Words


@dataclass(frozen=True, slots=True)
class ClaimWords:
    """Words that claim something wherever they stand, of one kind (`state`, `future` ...).

    `released_by` names what ends a claim: of an order, a person, another topic, a denial, a supposition. `unless` are words of
    the same clause that end it too; `borne_by` are families of facts that bear the words out when one stands in the clause.
    `where` are the kinds of blocks in which the words claim, all of them where it is empty.
    """

    kind: str
    words: Words
    released_by: frozenset[str]
    unless: Words | None
    borne_by: frozenset[str]
    where: frozenset[str]


@dataclass(frozen=True, slots=True)
class Language:
    """One language's words.

    `classes` are named sets of words that rules ask for; `periods` name a period of facts (`last_week`), `states` a state of
    an order (`shipped`), `nouns` a unit of facts (`order`): all map a name to a pattern that finds any of its words.
    `free` are shapes that claim nothing where a word stands near, `idioms` all that claim nothing anywhere, as one pattern.
    `releases` are the words by which a clause shows that it is about something else, `claims` the words that claim.
    """

    tag: str
    spaced: bool
    classes: Mapping[str, Words]
    periods: Mapping[str, Words]
    states: Mapping[str, Words]
    nouns: Mapping[str, Words]
    free: tuple[FreeShape, ...]
    idioms: Words
    releases: Mapping[str, Words]
    claims: tuple[ClaimWords, ...]

    def has(self, name: str, text: str) -> bool:
        """Whether a text holds a word of a class."""
        return self.classes[name].search(text) is not None

    def first(self, name: str, text: str) -> str:
        """The first word of a class that a text holds; empty without one."""
        found = self.classes[name].search(text)
        return found[0] if found else ""


@cache
def read_language(locale: str) -> Language | None:
    """The words of a locale's language; None where there is no list for it."""
    tag = re.split("[-_]", locale)[0].lower()
    if not tag.isalpha() or not _file(tag, "words.toml").is_file():
        return None
    data = _expanded(_read(tag, "words.toml"))
    for name in FURTHER:
        read = _read(tag, name)
        data["classes"] |= read["classes"]
        data["claims"] += read.get("claims", [])
    spaced = data.get("spaced", True)
    return Language(
        tag=tag,
        spaced=spaced,
        classes=_patterns(data["classes"], spaced),
        periods=_patterns(data["periods"], spaced),
        states=_patterns(data["states"], spaced),
        nouns=_patterns(data["nouns"], spaced),
        free=tuple(_free_shape(shape, spaced) for shape in data["free"] if "near" in shape),
        idioms=any_of((word for shape in data["free"] if "near" not in shape for word in shape["words"]), spaced=spaced),
        releases=_patterns(data["releases"], spaced),
        claims=tuple(_claim_words(group, spaced) for group in data["claims"]),
    )


@cache
def number_words(tag: str) -> Words:
    """The numbers of a language in words, from thirteen on, alone: no draft should wait for all the words of other languages."""
    return any_of(_read(tag, "warrants.toml")["classes"]["teens_and_tens"])


def _file(tag: str, name: str) -> Traversable:
    return resources.files("bulletin.draft") / "languages" / tag / name


def _read(tag: str, name: str) -> dict[str, Any]:
    return tomllib.loads(_file(tag, name).read_text(encoding="utf-8"))


def _expanded(data: dict[str, Any]) -> dict[str, Any]:
    """The data with every `<macro>` in its expressions as what the section `macros` says; one may use those above it."""
    macros: dict[str, str] = {}

    def expand(entry: Any) -> Any:
        if isinstance(entry, dict):
            return {name: expand(value) for name, value in entry.items()}
        if isinstance(entry, list):
            return [expand(value) for value in entry]
        return MACRO.sub(lambda macro: macros.get(macro[1], macro[0]), entry) if isinstance(entry, str) else entry

    for name, text in data.get("macros", {}).items():
        macros[name] = expand(text)
    return {name: expand(section) for name, section in data.items()}


def _patterns(section: Mapping[str, list[str]], spaced: bool) -> Mapping[str, Words]:
    return MappingProxyType({name: any_of(entries, spaced=spaced) for name, entries in section.items()})


def _free_shape(shape: Mapping[str, Any], spaced: bool) -> FreeShape:
    return FreeShape(shape["why"], any_of(shape["words"], spaced=spaced), any_of(shape["near"], spaced=spaced))


def _claim_words(group: Mapping[str, Any], spaced: bool) -> ClaimWords:
    unless = any_of(group["unless"], spaced=spaced) if "unless" in group else None
    released_by, borne_by, where = (frozenset(group.get(name, ())) for name in ("released_by", "borne_by", "where"))
    return ClaimWords(group["kind"], any_of(group["words"], spaced=spaced), released_by, unless, borne_by, where)
