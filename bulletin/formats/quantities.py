"""What stands beside a number (percent, money, spans of time, multiples, parts, rounding) and figures told in words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from bulletin.formats.figures import Figure, Number
from bulletin.formats.levelled import Taken
from bulletin.formats.patterns import group
from bulletin.formats.vocabulary import Vocabulary

RATIO = re.compile(r"(?<![\w./,-])(?P<part>\d{1,3})/(?P<whole>\d{1,3})(?![\w/]|[.,]\d)")
BEFORE = 44


def beside(number: Number, plain: str, vocabulary: Vocabulary) -> Figure:
    """The figure that a number is, by what stands behind and before it; rounding words not yet."""
    figure = _scaled(number, plain, vocabulary)
    value, end = figure.value or Fraction(0), figure.end
    if number.ordinal:
        return replace(figure, kind="ordinal")
    part = vocabulary.parts.counted.match(plain, end)
    if part:
        ratio = vocabulary.parts.values[(group(part, "part") or "").strip()]
        return replace(figure, kind="fraction", value=value * ratio, end=part.end(), decimals=0)
    percent = vocabulary.percent.match(plain, end)
    if percent:
        return replace(figure, kind="share", value=value / 100, end=percent.end())
    if vocabulary.begins("tenths", plain, end):
        return replace(figure, kind="share", value=value / 10, end=end + 1, decimals=figure.decimals - 1)
    return _money(figure, plain, vocabulary) or _counted(figure, plain, vocabulary)


def _scaled(number: Number, plain: str, vocabulary: Vocabulary) -> Figure:
    """The number with its scale, half or dozen: 1.3 million, two and a half, two dozen."""
    value, decimals, end = number.value, number.decimals, number.end
    has_scale = number.spelled and vocabulary.words.get("number_words") == "text2num"
    scale = None if has_scale else vocabulary.scales.pattern.match(plain, end)
    half, dozen = vocabulary.scales.half_more.match(plain, end), vocabulary.scales.dozen.match(plain, end)
    if scale:
        factor = vocabulary.scales.factors[scale["scale"]]
        value, decimals, end = value * factor, decimals - (len(str(factor)) - 1), scale.end("scale")
    elif half:
        value, decimals, end = value + Fraction(1, 2), max(decimals, 1), half.end()
    elif dozen:
        value, end = value * 12, dozen.end()
    return Figure(number.start, end, "", "number", value, decimals, spelled=number.spelled)


def _money(figure: Figure, plain: str, vocabulary: Vocabulary) -> Figure | None:
    behind = vocabulary.money.behind.match(plain, figure.end)
    if behind:
        return replace(figure, kind="money", end=behind.end(), currencies=vocabulary.money.currencies[behind["sign"]])
    window = max(0, figure.start - 6)
    before = vocabulary.money.before.search(plain[window : figure.start])
    if before:
        return replace(
            figure, kind="money", start=window + before.start(), currencies=vocabulary.money.currencies[before["sign"]]
        )
    return None


def _counted(figure: Figure, plain: str, vocabulary: Vocabulary) -> Figure:
    """A span of time or a multiple, where one follows."""
    span = vocabulary.spans.pattern.match(plain, figure.end)
    if span:
        unit = vocabulary.spans.units[" ".join(span["span"].split())]
        value, unit = ((figure.value or Fraction(0)) * 2, "week") if unit == "fortnight" else (figure.value, unit)
        return replace(figure, kind="span", unit=unit, value=value, end=span.end())
    multiple = vocabulary.multiples.behind.match(plain, figure.end)
    if multiple:
        return replace(figure, kind="multiple", end=multiple.end())
    return figure


def told_in_words(plain: str, vocabulary: Vocabulary, taken: Taken) -> Iterator[Figure]:
    """Figures that no number word stands for: half, a third, twice, a dozen, dozens, within a week."""
    for match in vocabulary.told.vague.finditer(plain):
        low, high = vocabulary.told.bounds[" ".join(match[0].split())]
        yield _told(match, "vague", Fraction(low), upto=Fraction(high))
    for match in vocabulary.told.exact.finditer(plain):
        phrase = " ".join(match[0].split())
        value = Fraction(vocabulary.told.values[phrase])
        told = beside(Number(*match.span(), value, int(value.denominator > 1), spelled=True), plain, vocabulary)
        yield replace(told, rounding="about" if phrase in vocabulary.told.about else "")
    for match in vocabulary.parts.alone.finditer(plain):
        part = group(match, "part")
        yield _told(match, "fraction", vocabulary.parts.values[part] if part else Fraction(1, 2))
    for match in vocabulary.multiples.alone.finditer(plain):
        yield _told(match, "multiple", vocabulary.multiples.values[" ".join(match[0].split())])
    for match in vocabulary.spans.one.finditer(plain):
        one, span = ("one", "span") if match["one"] else ("one_before", "span_before")
        if taken.free(*match.span(one)):
            unit = vocabulary.spans.units[" ".join(match[span].split())]
            count, unit = (Fraction(2), "week") if unit == "fortnight" else (Fraction(1), unit)
            yield Figure(match.start(one), match.end(one), "", "span", count, unit=unit, spelled=True)
    for match in RATIO.finditer(plain):
        if 0 < int(match["part"]) < int(match["whole"]):
            ratio = Fraction(int(match["part"]), int(match["whole"]))
            yield Figure(match.start(), match.end(), "", "fraction", ratio)


def _told(match: re.Match[str], kind: str, value: Fraction, upto: Fraction | None = None) -> Figure:
    return Figure(match.start(), match.end(), "", kind, value, upto=upto, spelled=True)  # type: ignore[arg-type]


def rounded(figure: Figure, plain: str, vocabulary: Vocabulary) -> Figure:
    """The figure with the words that round it, before or behind; the article of "a thousand" is one of its own."""
    large = figure.spelled and figure.value is not None and figure.value >= 100
    article = vocabulary.rounding.article.search(plain, max(0, figure.start - BEFORE), figure.start) if large else None
    figure = replace(figure, start=article.start()) if article else figure
    window = max(0, figure.start - BEFORE)
    before = vocabulary.rounding.before.search(plain[window : figure.start])
    if before:
        word = " ".join(before["word"].split())
        return replace(figure, rounding=vocabulary.rounding.kinds[word], rounding_start=window + before.start())
    after = vocabulary.rounding.behind.match(plain, figure.end)
    if after:
        word = "+" if after.groupdict().get("plus") else " ".join(after["word"].split())
        return replace(figure, rounding=vocabulary.rounding.kinds_behind[word], rounding_start=figure.start)
    return replace(figure, rounding_start=figure.start)
