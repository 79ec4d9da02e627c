"""What is known of a locale beside CLDR's data in Babel: its words for counted things, and where Babel departs from CLDR."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache, lru_cache
from importlib.resources import files

from babel import Locale, UnknownLocaleError

UNGROUPED_BELOW_FIVE_DIGITS = frozenset("be bg es et hu hy it ka lv pl pt_PT sl sq".split())
"""CLDR 48's minimumGroupingDigits of 2, as Node's Intl shows it; Babel 2.18 does not know it and would write 1.300."""
GROUPED_AGAIN = frozenset({"es_MX", "es_US", "es_419", "es_PR"})


@cache
def locale_of(tag: str) -> Locale:
    """The Babel locale of a BCP 47 tag, or of its language, or English where neither is known; read once."""
    for candidate in (tag, tag.split("-")[0]):
        try:
            return Locale.parse(candidate, sep="-")
        except (UnknownLocaleError, ValueError):
            continue
    return Locale("en")


def groups_four_digits(locale: Locale) -> bool:
    """Whether 1300 has a sign behind its first digit."""
    tag = str(locale)
    return tag in GROUPED_AGAIN or not ({tag, locale.language} & UNGROUPED_BELOW_FIVE_DIGITS)


@lru_cache(maxsize=1)
def nouns() -> Mapping[str, Mapping[str, Mapping[str, str]]]:
    """Names of counted things by language, noun (`working day`, `day dative`) and CLDR plural category; nouns.toml."""
    text = files("bulletin.formats").joinpath("nouns.toml").read_text("utf-8")
    loaded: Mapping[str, Mapping[str, Mapping[str, str]]] = tomllib.loads(text)
    return loaded
