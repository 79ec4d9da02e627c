"""How a language tells figures: one data file a language under words/, made into patterns once a locale.

Patterns match text that was levelled first: lower case, plain spaces and digits, character for character.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any, cast

from bulletin.formats.figures import Rounding

NEVER = re.compile(r"(?!)")
SPACE = r"[ \t]*\n?[ \t]*"
SIGNS: Mapping[str, tuple[str, ...]] = {
    "us$": ("USD",), "$us": ("USD",), "a$": ("AUD",), "au$": ("AUD",), "$au": ("AUD",), "ca$": ("CAD",), "c$": ("CAD",),
    "$ca": ("CAD",), "nz$": ("NZD",), "hk$": ("HKD",), "$": ("USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN"), "€": ("EUR",),
    "£": ("GBP",), "¥": ("JPY", "CNY"), "jp¥": ("JPY",), "円": ("JPY",), "zł": ("PLN",), "chf": ("CHF",), "fr.": ("CHF",),
    "kr": ("SEK", "NOK", "DKK"), "د.ك": ("KWD",),
}  # fmt: skip
CODES = (
    "eur usd gbp jpy chf cad aud nzd sek nok dkk pln czk huf kwd bhd aed sar krw cny inr mxn brl sgd hkd ils try zar omr jod tnd"
).split()


@dataclass(frozen=True)
class Vocabulary:
    """The patterns of one language. Those that begin `before_` end where a figure begins, `after_` begin where one ends."""

    language: str
    words: Mapping[str, Any] = field(repr=False)
    before_rounding: re.Pattern[str]
    after_rounding: re.Pattern[str]
    rounding: Mapping[str, Rounding]
    rounding_after: Mapping[str, Rounding]
    percent: re.Pattern[str]
    scale: re.Pattern[str]
    scales: Mapping[str, int]
    dozen: re.Pattern[str]
    multiple: re.Pattern[str]
    half_more: re.Pattern[str]
    span: re.Pattern[str]
    span_units: Mapping[str, str]
    one_span: re.Pattern[str]
    one_of: re.Pattern[str]
    counted_part: re.Pattern[str]
    alone_part: re.Pattern[str]
    fractions: Mapping[str, Fraction]
    multiples: re.Pattern[str]
    multiple_values: Mapping[str, Fraction]
    vague: re.Pattern[str]
    vague_bounds: Mapping[str, tuple[int, int]]
    article_before: re.Pattern[str]
    told: re.Pattern[str]
    told_values: Mapping[str, int | str]
    told_about: frozenset[str]
    before_money: re.Pattern[str]
    after_money: re.Pattern[str]
    currencies: Mapping[str, tuple[str, ...]]
    ordinals: tuple[re.Pattern[str], ...]

    def listed(self, key: str) -> frozenset[str]:
        """A plain list of words of the data file; empty where it has none."""
        return frozenset(self.words.get(key, ()))


@lru_cache(maxsize=32)
def vocabulary(language: str) -> Vocabulary:
    """The vocabulary of a language; signs alone where it has no data file."""
    words = load(language)
    bordered = not words.get("no_word_borders", False)
    spans = {form: unit for unit, forms in words.get("spans", {}).items() for form in forms}
    currencies = _currencies(words.get("currencies", {}))
    told = {**words.get("told", {}), **words.get("told_about", {})}
    shapes = words.get("fraction_shapes", {})
    begin, border = (r"(?<!\w)", r"(?!\w)") if bordered else ("", "")
    one = alternatives(words.get("articles", ()))
    return Vocabulary(
        language=language,
        words=words,
        before_rounding=_before(words.get("rounding", {}), bordered),
        after_rounding=_after(words.get("rounding_after", {}), bordered),
        rounding=_kinds(words.get("rounding", {})),
        rounding_after=_kinds(words.get("rounding_after", {})),
        percent=re.compile(rf"{SPACE}(?:[%％٪]|(?:{alternatives(words.get('percent', ()))}){border})|-percent\b"),
        scale=re.compile(rf"[ -]?(?P<scale>{alternatives(words.get('scales', ()))})\.?{border}"),
        scales=words.get("scales", {}),
        dozen=re.compile(rf" (?:{alternatives(words.get('dozen', ()))}){border}"),
        multiple=any_of(words.get("multiple_patterns", ())),
        half_more=re.compile(rf"(?:{alternatives(words.get('half_more', ()))}){border}"),
        span=re.compile(rf"{SPACE}-?(?P<span>{alternatives(spans)}){border}"),
        span_units=spans,
        one_span=_one_span(words, spans, one),
        one_of=re.compile(rf"(?<!\w)(?:{alternatives(words.get('one_of', ()))}) \Z"),
        counted_part=any_of(shapes.get("counted", ())),
        alone_part=any_of(f"{begin}(?:{shape})" for shape in shapes.get("alone", ())),
        fractions={word: Fraction(ratio) for word, ratio in words.get("fractions", {}).items()},
        multiples=phrases(words.get("multiples", {}), bordered),
        multiple_values={word: Fraction(ratio) for word, ratio in words.get("multiples", {}).items()},
        vague=phrases(words.get("vague", {}), bordered),
        vague_bounds={word: (bounds[0], bounds[1]) for word, bounds in words.get("vague", {}).items()},
        article_before=re.compile(rf"(?<!\w)(?:{one}) \Z"),
        told=phrases(told, bordered),
        told_values=told,
        told_about=frozenset(words.get("told_about", ())),
        before_money=re.compile(rf"(?<![\w$])(?P<sign>{alternatives(_signs(currencies, before=True))}){SPACE}$"),
        after_money=re.compile(rf"{SPACE}-?(?P<sign>{alternatives(currencies)})(?![a-zà-ÿ])"),
        currencies=currencies,
        ordinals=tuple(re.compile(rf"(?<![\w.,])(?:{pattern})") for pattern in words.get("ordinal_patterns", ())),
    )


@cache
def load(language: str) -> Mapping[str, Any]:
    """The data file of a language, read once; empty where there is none."""
    file = files("bulletin.formats").joinpath("words", f"{language}.toml")
    return tomllib.loads(file.read_text("utf-8")) if file.is_file() else {}


def alternatives(words: Iterable[str]) -> str:
    """Words as one pattern, the longest first; a pattern that never matches where there are none."""
    listed = sorted(words, key=lambda word: (-len(word), word))
    return "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in listed) or "(?!)"


def any_of(patterns: Iterable[str]) -> re.Pattern[str]:
    """Patterns as one; `group` finds what their named groups matched."""
    joined = "|".join(f"(?:{_renumbered(pattern, number)})" for number, pattern in enumerate(patterns))
    return re.compile(joined) if joined else NEVER


def _renumbered(pattern: str, number: int) -> str:
    """Group names made unique, so that patterns can be joined."""
    return re.sub(r"\(\?P<(\w+)>", rf"(?P<\g<1>{number}>", pattern)


def group(match: re.Match[str], name: str) -> str | None:
    """The first group of that name that matched in a pattern made of several."""
    return next((text for key, text in match.groupdict().items() if text and key.rstrip("0123456789") == name), None)


def phrases(words: Iterable[str], bordered: bool) -> re.Pattern[str]:
    """Any of the phrases, as whole words where the language has borders between words."""
    listed = alternatives(words)
    return re.compile(rf"(?<!\w)(?:{listed})(?!\w)" if bordered else f"(?:{listed})")


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


def _currencies(words: Mapping[str, str]) -> Mapping[str, tuple[str, ...]]:
    return {**SIGNS, **{code: (code.upper(),) for code in CODES}, **{word: (code,) for word, code in words.items()}}


def _signs(currencies: Mapping[str, tuple[str, ...]], *, before: bool) -> list[str]:
    """Signs and codes that stand before an amount; words for currencies stand behind only."""
    return [sign for sign in currencies if not before or sign in SIGNS or sign in CODES]
