"""Facts of one model, market, part, currency or promise beside "all" and "none": the readers must learn of which.

"Nobody is past the date we told" is not borne out by a zero in one market, unless the paragraph or the heading over it names it.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from babel import Locale
from babel.numbers import get_currency_name, get_currency_symbol

from bulletin.draft.expressions import parse_key
from bulletin.model import Fact, Step
from bulletin.scrutiny.nearby import text_around

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.scrutiny.case import Case, Reading

WORD = re.compile(r"[^\W\d_]{2,}")
STEM = 4
UNSPACED = re.compile(r"[\u3040-\u30ff\u3400-\u9fff]")


def unnamed(case: Case, reading: Reading) -> str:
    """What a condition speaks of alone (a model, a market ...), where the readers are not told so; empty where they are."""
    around = text_around(case, reading.claim).casefold()
    for fact in reading.facts:
        for names in _narrowed_to(case, fact):
            if names and not any(_is_told(name, around) for name in names):
                return names[0]
    return ""


def _narrowed_to(case: Case, fact: Fact) -> Iterator[list[str]]:
    """What a fact is of, by each of its names."""
    steps = [step.text for step in parse_key(fact.key)]
    for at, step in enumerate(steps[:-1]):
        narrowed = steps[at + 1]
        if step == "of":
            yield list(filter(None, [narrowed, case.run.names.find(("model", narrowed), case.draft.locale)]))
        elif step == "in_market":
            yield [_country(case.draft.locale, narrowed), narrowed]
        elif step == "part" and steps[0] == "coverage":
            yield _names_of_part(case, narrowed)
    if steps[0] == "credits" and len(steps) > 2 and steps[2].isupper():
        yield _names_of_currency(case.draft.locale, steps[2])
    if steps[0] == "promises" and len(steps) > 2:
        told = case.facts.find((Step("name", "promises"), Step("item", steps[1]), Step("name", "text")))
        yield [str(told.value)] if isinstance(told, Fact) and case.is_in_first_locale else []


def _country(locale: str, code: str) -> str:
    return str(Locale.parse(locale, sep="-" if "-" in locale else "_").territories.get(code, code))


def _names_of_currency(locale: str, code: str) -> list[str]:
    tag = locale.replace("-", "_")
    return [get_currency_name(code, locale=tag), code, get_currency_symbol(code, locale=tag)]


def _names_of_part(case: Case, part: str) -> list[str]:
    forms = case.run.names.forms.items()
    language = case.draft.locale.split("-")[0]
    told = [name for (kind, item, locale, *_), name in forms if kind == "part" and item == part and locale == language]
    row = case.facts.find((Step("name", "coverage"), Step("name", "part"), Step("item", part), Step("name", "name")))
    own = [getattr(row.value, "text", str(row.value))] if isinstance(row, Fact) else []
    return [*dict.fromkeys([*told, *own]), part]


def _is_told(name: str, around: str) -> bool:
    """Whether a text holds a name, or a word of it up to its ending."""
    name = name.casefold()
    if UNSPACED.search(name) or any(sign.isdigit() for sign in name) or len(name) < STEM:
        return re.search(rf"(?<![a-z0-9]){re.escape(name)}(?![a-z0-9])", around) is not None
    words = {word[0] for word in WORD.finditer(around)}
    stems = [word[0][:STEM] for word in WORD.finditer(name) if len(word[0]) >= STEM]
    return any(word.startswith(stem) for stem in stems for word in words)
