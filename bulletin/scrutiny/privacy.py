"""Private details in a text: numbers of orders and units, people by their full names, addresses, telephone numbers.

A draft's own words are looked up among what the tables know, not the other way round, so that a million orders cost no more than
ten. A number that is digits alone counts only behind a word that says what it is, or from five digits on.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Container, Iterator

    from bulletin.draft.language import Language
    from bulletin.model import Private

IDS = tuple(re.compile(shape) for shape in (r"\w+(?:[./_-]\w+)*", r"\w+(?:[_-]\w+)*", r"[A-Za-z0-9]+(?:[./_-][A-Za-z0-9]+)*"))
"""Words with what joins their parts; an address glues others to them, and so does a language without spaces."""
NAME_WORD = re.compile(r"[^\W\d_](?:[\w'\u2019.-]*[^\W_])?")
EMAIL = re.compile(r"[\w.+-]+@[\w-]+(?:\.[\w-]+)+")
PHONE = re.compile(
    r"(?<![\w./-])(?:\+|00)\d{1,3}(?:[ ()/.-]{0,2}\d){6,13}(?![\w-])"
    r"|(?<![\w./,+-])(?:\(0\d{1,5}\) ?|0\d{2,5}[ /-])\d{3,}(?:[ -]\d{2,}){0,4}(?![\w-])"
    r"|(?<![\w./,+-])0\d[ /]\d{3,}[ -]?\d{3,}(?![\w-])"
    r"|(?<![\w./,+-])(?:\(\d{3}\) ?|\d{3}[-.])\d{3}[-.]\d{4}(?![\w-])"
)
LONG_ENOUGH = 5
LONGEST_NAME = 4
REACH = 24
ROLES = frozenset(
    "help info support contact hello hallo hi service press shop office team care mail orders sales kontakt hilfe presse bonjour "
    "hola ayuda contacto aide recall safety privacy post letters workshop".split()
)
"""Who an address may be without being a person."""


@dataclass(frozen=True, slots=True)
class Detail:
    """What was found, where in the text, and of which kind."""

    start: int
    end: int
    kind: str


def mask(words: str) -> str:
    """The words as a message may tell them: where they begin, and no more."""
    return f"{words[:1]}\u2026"


def details_in(text: str, private: Private, language: Language | None) -> Iterator[Detail]:
    """Every order, serial and person of the tables that a text names."""
    labels = language.classes if language else {}
    for kind, known, label in (("order", private.orders, "order_labels"), ("serial", private.serials, "serial_labels")):
        for start, end in sorted({match.span() for pattern in IDS for match in pattern.finditer(text)}):
            word = text[start:end]
            if _is_known(word, known) and (_is_telling(word) or _is_labelled(text, start, labels.get(label))):
                yield Detail(start, end, kind)
    yield from _people(text, private.people)


def addresses_in(text: str) -> Iterator[Detail]:
    """Everything in a text that looks like an e-mail address or a telephone number."""
    yield from (Detail(*found.span(), "e-mail") for found in EMAIL.finditer(text))
    yield from (Detail(*found.span(), "telephone") for found in PHONE.finditer(text))


def _is_known(word: str, known: Container[str]) -> bool:
    return any(sign.isdigit() for sign in word) and (word in known or word.upper() in known)


def _is_telling(word: str) -> bool:
    """Whether a number says by itself that it is one of the tables'."""
    return not word.isdigit() or len(word) >= LONG_ENOUGH


def _is_labelled(text: str, start: int, label: re.Pattern[str] | None) -> bool:
    before = text[max(0, start - REACH) : start].rstrip(" :#")
    return text[:start].rstrip().endswith("#") or (
        label is not None and any(found.end() == len(before) for found in label.finditer(before))
    )


def _people(text: str, people: Container[str]) -> Iterator[Detail]:
    """Full names, as the tables have them or the family's name first."""
    words = list(NAME_WORD.finditer(text))
    for first in range(len(words)):
        for last in range(first + 1, min(first + LONGEST_NAME, len(words))):
            gap = text[words[last - 1].end() : words[last].start()]
            if gap.strip() not in ("", ","):
                break
            name = [word[0].lower() for word in words[first : last + 1]]
            if " ".join(name) in people or " ".join([*name[1:], name[0]]) in people or " ".join([name[-1], *name[:-1]]) in people:
                yield Detail(words[first].start(), words[last].end(), "name")
