"""How a language tells figures: one data file a language under words/, made into patterns once a locale.

Patterns match text that was levelled first: lower case (codes of currencies apart), plain spaces and digits, character for
character.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache, lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, cast

from bulletin.formats.figures import Rounding
from bulletin.formats.patterns import NEVER, SPACE, alternatives, any_of, phrases
from bulletin.settings.codes import currencies

SIGNS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "us$": ("USD",), "$us": ("USD",), "a$": ("AUD",), "au$": ("AUD",), "$au": ("AUD",), "ca$": ("CAD",), "c$": ("CAD",),
        "$ca": ("CAD",), "nz$": ("NZD",), "hk$": ("HKD",), "$": ("USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN"), "€": ("EUR",),
        "£": ("GBP",), "¥": ("JPY", "CNY"), "jp¥": ("JPY",), "円": ("JPY",), "zł": ("PLN",), "chf": ("CHF",), "fr.": ("CHF",),
        "kr": ("SEK", "NOK", "DKK"), "د.ك": ("KWD",),
    }
)  # fmt: skip
ANY_CASE = frozenset({"EUR", "USD", "GBP", "JPY", "CHF", "PLN"})
"""Codes that are no word of a language read here, so that they are understood in small letters too."""
CODE = re.compile(r"(?<![^\W\d_])[A-Z]{3}(?![^\W\d_])")


@dataclass(frozen=True)
class RoundingWords:
    """Words that round a figure: `before` ends where it begins, `behind` begins where it ends."""

    before: re.Pattern[str]
    behind: re.Pattern[str]
    kinds: Mapping[str, Rounding]
    kinds_behind: Mapping[str, Rounding]
    article: re.Pattern[str]


@dataclass(frozen=True)
class Scales:
    """What makes a number larger behind it: million, a half more, a dozen."""

    pattern: re.Pattern[str]
    factors: Mapping[str, int]
    half_more: re.Pattern[str]
    dozen: re.Pattern[str]


@dataclass(frozen=True)
class Spans:
    """Units of time by the words for them, behind a number or with an article (`within a week`)."""

    pattern: re.Pattern[str]
    units: Mapping[str, str]
    one: re.Pattern[str]


@dataclass(frozen=True)
class Parts:
    """Fractions, counted (two thirds) or alone (half), and ratios of two numbers (one in ten, nine in ten)."""

    counted: re.Pattern[str]
    alone: re.Pattern[str]
    values: Mapping[str, Fraction]
    one_of: re.Pattern[str]
    joint: re.Pattern[str]
    spelled_joint: re.Pattern[str]


@dataclass(frozen=True)
class Multiples:
    """Multiples behind a number (three times) and alone (doubled)."""

    behind: re.Pattern[str]
    alone: re.Pattern[str]
    values: Mapping[str, Fraction]


@dataclass(frozen=True)
class Told:
    """Figures that no number word stands for: dozens, half a dozen."""

    vague: re.Pattern[str]
    bounds: Mapping[str, tuple[int, int]]
    exact: re.Pattern[str]
    values: Mapping[str, int | str]
    about: frozenset[str]


@dataclass(frozen=True)
class MoneyWords:
    """Signs, codes and words of currencies before and behind an amount."""

    before: re.Pattern[str]
    behind: re.Pattern[str]
    currencies: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class Vocabulary:
    """The patterns of one language."""

    language: str
    words: Mapping[str, Any] = field(repr=False)
    percent: re.Pattern[str]
    ordinals: tuple[re.Pattern[str], ...]
    rounding: RoundingWords
    scales: Scales
    spans: Spans
    parts: Parts
    multiples: Multiples
    told: Told
    money: MoneyWords

    def listed(self, key: str) -> frozenset[str]:
        """A plain list of words of the data file; empty where it has none."""
        return frozenset(self.words.get(key, ()))

    def begins(self, key: str, plain: str, at: int) -> bool:
        """Whether one of a list of words begins at an offset."""
        return plain.startswith(tuple(self.words.get(key, ())), at)


@lru_cache(maxsize=32)
def vocabulary(language: str) -> Vocabulary:
    """The vocabulary of a language; signs alone where it has no data file."""
    words = load(language)
    border = _border(words)
    return Vocabulary(
        language=language,
        words=words,
        percent=re.compile(rf"{SPACE}(?:[%％٪]|(?:{alternatives(words.get('percent', ()))}){border})|-percent\b"),
        ordinals=tuple(re.compile(rf"(?<![\w.,])(?:{pattern})") for pattern in words.get("ordinal_patterns", ())),
        rounding=_rounding(words),
        scales=_scales(words),
        spans=_spans(words),
        parts=_parts(words),
        multiples=_multiples(words),
        told=_told(words),
        money=_money(words.get("currencies", {})),
    )


def _is_bordered(words: Mapping[str, Any]) -> bool:
    return not words.get("no_word_borders", False)


def _border(words: Mapping[str, Any]) -> str:
    return r"(?!\w)" if _is_bordered(words) else ""


def _rounding(words: Mapping[str, Any]) -> RoundingWords:
    before, behind, bordered = words.get("rounding", {}), words.get("rounding_after", {}), _is_bordered(words)
    article = re.compile(rf"(?<!\w)(?:{alternatives(words.get('articles', ()))}) \Z")
    return RoundingWords(_before(before, bordered), _after(behind, bordered), _kinds(before), _kinds(behind), article)


def _scales(words: Mapping[str, Any]) -> Scales:
    border = _border(words)
    return Scales(
        re.compile(rf"[ -]?(?P<scale>{alternatives(words.get('scales', ()))})\.?{border}"),
        words.get("scales", {}),
        re.compile(rf"(?:{alternatives(words.get('half_more', ()))}){border}"),
        re.compile(rf" (?:{alternatives(words.get('dozen', ()))}){border}"),
    )


def _spans(words: Mapping[str, Any]) -> Spans:
    units = {form: unit for unit, forms in words.get("spans", {}).items() for form in forms}
    pattern = re.compile(rf"{SPACE}-?(?P<span>{alternatives(units)}){_border(words)}")
    return Spans(pattern, units, _one_span(words, units, alternatives(words.get("articles", ()))))


def _parts(words: Mapping[str, Any]) -> Parts:
    shapes, begin = words.get("fraction_shapes", {}), r"(?<!\w)" if _is_bordered(words) else ""
    return Parts(
        any_of(shapes.get("counted", ())),
        any_of(f"{begin}(?:{shape})" for shape in shapes.get("alone", ())),
        {word: Fraction(ratio) for word, ratio in words.get("fractions", {}).items()},
        re.compile(rf"(?<!\w)(?:{alternatives(words.get('one_of', ()))}) \Z"),
        re.compile(rf" (?:{alternatives(words.get('ratio_joints', ()))}) "),
        re.compile(rf" (?:{alternatives(words.get('spelled_ratio_joints', ()))}) "),
    )


def _multiples(words: Mapping[str, Any]) -> Multiples:
    values = {word: Fraction(ratio) for word, ratio in words.get("multiples", {}).items()}
    return Multiples(any_of(words.get("multiple_patterns", ())), phrases(values, _is_bordered(words)), values)


def _told(words: Mapping[str, Any]) -> Told:
    vague, values = words.get("vague", {}), {**words.get("told", {}), **words.get("told_about", {})}
    return Told(
        phrases(vague, _is_bordered(words)),
        {word: (low, high) for word, (low, high) in vague.items()},
        phrases(values, _is_bordered(words)),
        values,
        frozenset(words.get("told_about", ())),
    )


def _money(words: Mapping[str, str]) -> MoneyWords:
    codes = {code: (code,) for code in currencies()} | {code.lower(): (code,) for code in ANY_CASE}
    known = {**SIGNS, **codes, **{word: (code,) for word, code in words.items()}}
    before = re.compile(rf"(?<![\w$])(?P<sign>{alternatives((*SIGNS, *codes))}){SPACE}$")
    return MoneyWords(before, re.compile(rf"{SPACE}-?(?P<sign>{alternatives(known)})(?![a-zà-ÿ])"), known)


def with_codes(plain: str, text: str) -> str:
    """A level text with the codes of currencies in capitals as they are written: TRY is money, a word to try is none."""
    for code in CODE.finditer(text):
        if code[0] in currencies():
            plain = plain[: code.start()] + code[0] + plain[code.end() :]
    return plain


@cache
def load(language: str) -> Mapping[str, Any]:
    """The data file of a language, read once; empty where there is none."""
    file = files("bulletin.formats").joinpath("words", f"{language}.toml")
    return tomllib.loads(file.read_text("utf-8")) if file.is_file() else {}


def _kinds(table: Mapping[str, list[str]]) -> Mapping[str, Rounding]:
    return {" ".join(word.split()): cast("Rounding", kind) for kind, words in table.items() for word in words}


def _before(table: Mapping[str, list[str]], bordered: bool) -> re.Pattern[str]:
    words = [word for kind in table.values() for word in kind]
    border = r"(?<!\w)" if bordered else ""
    return re.compile(rf"{border}(?P<word>{alternatives(words)})(?P<gap>{SPACE})$")


def _after(table: Mapping[str, list[str]], bordered: bool) -> re.Pattern[str]:
    words = [word for kind in table.values() for word in kind]
    if not bordered:
        return re.compile(rf"[^\W\d]{{0,3}}?(?P<word>{alternatives(words)})")
    plus = r"(?P<plus>\+)(?![\w+])|" if any("+" in kind for kind in table.values()) else ""
    return re.compile(rf"{plus}(?:[ -][\w’'-]+)?{SPACE}(?P<word>{alternatives(word for word in words if word != '+')})(?!\w)")


def _one_span(words: Mapping[str, Any], spans: Mapping[str, str], one: str) -> re.Pattern[str]:
    if not words.get("span_one_after"):
        return NEVER
    before, after = alternatives(words["span_one_after"]), alternatives(words.get("span_one_before", ()))
    unit = alternatives(spans)
    return re.compile(
        rf"(?<!\w)(?:{before}) (?P<one>(?:(?:{one}) )?(?:full )?(?P<span>{unit}))(?!\w)"
        rf"|(?<!\w)(?P<one_before>(?:{one}) (?:full )?(?P<span_before>{unit})) (?:{after})(?!\w)"
    )
