"""Dates in prose, by patterns built from CLDR's names of months and days; nothing is guessed from two bare numbers.

(The parsers of dates that are to be had take "We" for Wednesday and "2,5" for a day in May.)
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

from bulletin.formats.figures import Day
from bulletin.formats.levelled import level
from bulletin.formats.patterns import NEVER, alternatives, any_of, group, phrases
from bulletin.formats.told_days import THIRDS
from bulletin.formats.vocabulary import Vocabulary

if TYPE_CHECKING:
    from babel import Locale

YEAR = r"(?P<year>(?:19|20)\d\d)(?![\d\w]|[.,]\d)"
DAY = r"(?P<day>\d{1,2})"
MARK = r"(?:st|nd|rd|th|er|\.|º|°)?"
ISO = re.compile(r"(?<![\w.,/-])(?P<year>\d{4})[-/](?P<month>\d{1,2})[-/](?P<day>\d{1,2})(?![\w/-])")
ISO_WEEK = re.compile(r"(?<![\w.,/-])(?P<year>\d{4})-?w(?P<week>\d\d)(?![\w-])")
DOTTED = re.compile(r"(?<![\w.,/-])(?P<day>\d{1,2})\.[ ]?(?P<month>\d{1,2})\.(?:[ ]?(?P<year>\d{4}|\d\d)(?![\d\w]))?(?!\d)")
SLASHED = re.compile(r"(?<![\w.,/-])(?P<day>\d{1,2})[/.-](?P<month>\d{1,2})[/.-](?P<year>\d{4}|\d\d)(?![\w/-])")
CLOCK = re.compile(r"(?<![\w.,:])\d{1,2}(?::\d\d(?::\d\d)?(?: ?[ap]\.?m\b\.?| uhr\b)?| ?[ap]\.?m\b\.?| uhr\b)(?![\d:])")
CJK = re.compile(r"(?:(?P<year>\d{4})年)?(?P<month>\d{1,2})月(?:(?P<day>\d{1,2})日(?!間))?(?!間)")
CJK_YEAR = re.compile(r"(?P<year>(?:19|20)\d\d)年(?!間)")
CJK_LAST_DAY = re.compile(r"(?:から|～|-|–)(?P<day>\d{1,2})日(?!間)")
BARE_YEAR = re.compile(r"(?<![\w.,$€£¥-])(?P<year>(?:19|20)\d\d)(?![\w%]|[.,]\d)")
AND = "و"
"""The Arabic word for it, which is written onto the next one."""
DASH = r"[ ]?[–—-][ ]?"
SHIFTS: Mapping[str, str] = MappingProxyType(
    {
        "day": "shift", "week": "week_shift", "month": "month_shift", "quarter": "quarter_shift", "year": "year_shift",
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Found:
    """A date in a text."""

    start: int
    end: int
    day: Day


@dataclass(frozen=True)
class Calendar:
    """The dates of one locale as patterns over level text.

    Months are numbered (3月) or named, days may be `dotted` (5.3.), names may need a capital.
    """

    numbered_months: bool
    dotted: bool
    capital_names: bool
    months: Mapping[str, int]
    weekdays: Mapping[str, int]
    day_first: bool
    month_day: re.Pattern[str]
    day_month: re.Pattern[str]
    first_of_two: re.Pattern[str]
    second_of_two: re.Pattern[str]
    month: re.Pattern[str]
    month_part: re.Pattern[str]
    thirds: Mapping[str, int]
    weekday: re.Pattern[str]
    weeks: re.Pattern[str]
    quarters: re.Pattern[str]
    seasons: re.Pattern[str]
    relative: re.Pattern[str]
    shifts: Mapping[str, str]
    quarter_words: Mapping[str, int]


def calendar(locale: Locale, words: Vocabulary) -> Calendar:
    """The patterns of a locale, made once."""
    wide = {**_months(locale, ("wide",)), **words.words.get("months", {})}
    months = {**_months(locale, ("abbreviated",)), **wide}
    weekdays = {
        level(name): number for shape in ("format", "stand-alone") for number, name in locale.days[shape]["wide"].items()
    }  # fmt: skip
    listed, joints = alternatives(months), alternatives(words.words.get("intervals", ()))
    cjk = "年" in str(locale.date_formats["long"].pattern)
    month_day = rf"(?<!\w)(?P<month>{listed})\.? {DAY}(?:st|nd|rd|th)?(?![\d\w]|[.,]\d|:\d)(?:,? {YEAR})?"
    of = r"(?: of| de| del)?"
    day_month = rf"(?:(?<![\w.,])|(?<=\b{AND})){DAY}{MARK}{of} ?(?P<month>{listed})(?!\w)(?:\.(?= \d))?(?:,?{of} {YEAR})?"
    joint = rf"(?:{DASH}| (?:{joints}) )"
    return Calendar(
        numbered_months=cjk,
        dotted=re.search(r"d\.\s?M", str(locale.date_formats["short"].pattern)) is not None,
        capital_names=bool(words.words.get("capital_names")),
        months=months,
        weekdays=weekdays,
        day_first=_is_day_first(locale),
        month_day=NEVER if cjk or not words.words.get("month_before_day") else re.compile(month_day),
        day_month=NEVER if cjk else re.compile(day_month),
        first_of_two=NEVER if cjk else re.compile(rf"(?<![\w.,])(?P<first>\d{{1,2}}){MARK}{joint}(?:the )?$"),
        second_of_two=CJK_LAST_DAY if cjk else re.compile(rf"{joint}(?:the )?{DAY}{MARK}(?![\d\w]|[.,]\d)(?:,? {YEAR})?"),
        month=NEVER if cjk else re.compile(rf"(?<!\w)(?P<month>{alternatives(wide)})(?!\w)(?:,?(?: de| del| of)? {YEAR})?"),
        month_part=_month_part(words.words.get("month_parts", {}), wide, cjk=cjk),
        thirds=_thirds(words.words.get("month_parts", {})),
        weekday=re.compile(alternatives(weekdays)) if cjk else re.compile(rf"(?<!\w)(?:{alternatives(weekdays)})s?(?!\w)"),
        weeks=_bordered(words.words.get("week_patterns", ())),
        quarters=_bordered(words.words.get("quarter_patterns", ())),
        seasons=_bordered(words.words.get("season_patterns", ())),
        relative=phrases(words.words.get("relative", {}), not words.words.get("no_word_borders", False)),
        shifts=words.words.get("relative", {}),
        quarter_words=words.words.get("quarter_words", {}),
    )


def _months(locale: Locale, widths: Iterable[Literal["wide", "abbreviated"]]) -> dict[str, int]:
    """Names of months by level text; numerals ("3月") are none."""
    names = {
        level(name).rstrip("."): number
        for width in widths
        for shape in ("stand-alone", "format")
        for number, name in locale.months[shape][width].items()
    }
    return {name: number for name, number in names.items() if not name[0].isdigit()}


def _thirds(words: Mapping[str, list[str]]) -> dict[str, int]:
    """Words for the thirds of a month, numbered from 1."""
    return {level(word): third for third, part in enumerate(THIRDS, 1) for word in words.get(part, ())}


def _month_part(words: Mapping[str, list[str]], months: Iterable[str], *, cjk: bool) -> re.Pattern[str]:
    """Parts of a month; behind words like "until" they say no more than the month, since all days up to them are meant."""
    if not words:
        return NEVER
    part, upto = alternatives(_thirds(words)), alternatives(words["upto"])
    if cjk:
        return re.compile(
            rf"(?P<told>(?:(?P<year>\d{{4}})年)?(?P<month>\d{{1,2}})月の?(?P<part>{part}))(?P<upto>{upto})?"
        )
    month = rf"(?:[ -]| d[e'] ?| of )(?P<month>{alternatives(months)})(?!\w)(?:,?(?: de| del| of)? {YEAR})?"
    return re.compile(rf"(?<!\w)(?:(?P<upto>{upto}) )?{AND}?(?P<told>(?P<part>{part}){month})")


def _is_day_first(locale: Locale) -> bool:
    pattern = str(locale.date_formats["short"].pattern)
    return pattern.lower().index("d") < pattern.index("M")


def _bordered(patterns: Iterable[str]) -> re.Pattern[str]:
    joined = any_of(patterns)
    return joined if joined is NEVER else re.compile(rf"(?<!\w)(?:{joined.pattern})")


def dates(plain: str, text: str, calendar: Calendar, words: Vocabulary) -> Iterator[Found]:
    """All dates of a level text, the surest first; they may overlap, the first that was told holds. `text` is as written."""
    for pattern, dotted in ((ISO, False), (DOTTED, True), (SLASHED, False)):
        for match in pattern.finditer(plain):
            yield from _numeric(match, calendar, dotted=dotted)
    for match in ISO_WEEK.finditer(plain):
        yield Found(match.start(), match.end(), Day(year=int(match["year"]), week=int(match["week"])))
    for match in CLOCK.finditer(plain):
        yield Found(match.start(), match.end(), Day())
    yield from _month_parts(plain, text, calendar)
    yield from _named_days(plain, calendar)
    for match in calendar.month.finditer(plain):
        if _is_month(match, text, words):
            yield Found(match.start(), match.end(), Day(year=_number(match["year"]), month=calendar.months[match["month"]]))
    yield from _periods(plain, calendar)
    for match in calendar.relative.finditer(plain):
        unit, _, shift = calendar.shifts[" ".join(match[0].split())].partition(" ")
        yield Found(match.start(), match.end(), replace(Day(), **{SHIFTS[unit]: int(shift)}))
    for match in calendar.weekday.finditer(plain):
        name = match[0] if match[0] in calendar.weekdays else match[0][:-1]
        if name in calendar.weekdays and (not calendar.capital_names or text[match.start()].isupper()):
            yield Found(match.start(), match.end(), Day(weekday=calendar.weekdays[name]))
    for match in BARE_YEAR.finditer(plain):
        before = re.search(r"([^\W\d]+)[ -]$", plain[max(0, match.start() - 24) : match.start()])
        if before and before[1] in words.listed("before_year"):
            yield Found(match.start(), match.end(), Day(year=int(match["year"])))


def _numeric(match: re.Match[str], calendar: Calendar, *, dotted: bool) -> Iterator[Found]:
    day, month = int(match["day"]), int(match["month"])
    if match.re is SLASHED and not calendar.day_first:
        day, month = month, day
    year = _number(match["year"])
    if dotted and not calendar.dotted:
        return
    if 1 <= month <= 12 and 1 <= day <= 31:
        yield Found(match.start(), match.end(), Day(2000 + year if year is not None and year < 100 else year, month, day))


def _month_parts(plain: str, text: str, calendar: Calendar) -> Iterator[Found]:
    for match in calendar.month_part.finditer(plain):
        month = int(match["month"]) if calendar.numbered_months else calendar.months[match["month"]]
        named = not calendar.capital_names or text[match.start("month")].isupper()
        if named and 1 <= month <= 12:
            third = None if match["upto"] else calendar.thirds[match["part"]]
            yield Found(*match.span("told"), Day(_number(match["year"]), month, third=third))


def _named_days(plain: str, calendar: Calendar) -> Iterator[Found]:
    """Days with a month's name, and the other day of an interval, which has month or year of its neighbour."""
    for pattern in (CJK, CJK_YEAR) if calendar.numbered_months else (calendar.month_day, calendar.day_month):
        for match in pattern.finditer(plain):
            told = match.groupdict()
            month = _number(told.get("month")) if pattern is CJK else calendar.months.get(told.get("month") or "")
            day, year = _number(told.get("day")), _number(told.get("year"))
            if not (1 <= (month or 1) <= 12 and 1 <= (day or 1) <= 31):
                continue
            found = Found(match.start(), match.end(), Day(year, month, day))
            yield from _with_neighbours(plain, found, calendar)


def _with_neighbours(plain: str, found: Found, calendar: Calendar) -> Iterator[Found]:
    later = calendar.second_of_two.match(plain, found.end) if found.day.day and not _names_month(plain, found, calendar) else None
    if later and 1 <= int(later["day"]) <= 31:
        year = found.day.year or _number(later.groupdict().get("year"))
        found = Found(found.start, found.end, replace(found.day, year=year))
        yield found
        yield Found(later.start("day"), later.end(), Day(year, found.day.month, int(later["day"])))
        return
    earlier = calendar.first_of_two.search(plain[max(0, found.start - 24) : found.start])
    if earlier and 1 <= int(earlier["first"]) <= 31:
        start = max(0, found.start - 24) + earlier.start("first")
        yield Found(start, start + len(earlier["first"]), replace(found.day, day=int(earlier["first"])))
    yield found


def _names_month(plain: str, found: Found, calendar: Calendar) -> bool:
    """Whether behind a date another whole date follows ("5 March to 2 April"), so that 2 is no day of March."""
    later = calendar.second_of_two.match(plain, found.end)
    return later is not None and calendar.day_month.match(plain, later.start("day")) is not None


def _is_month(match: re.Match[str], text: str, words: Vocabulary) -> bool:
    """Whether a month's name alone is one: with a capital where names have one, May and March behind a word like `in`."""
    if match["year"]:
        return True
    if words.words.get("capital_names") and not text[match.start()].isupper():
        return False
    if match["month"] not in words.listed("lone_months_need_word"):
        return True
    before = re.search(r"([^\W\d]+)[ -]$", level(text[max(0, match.start() - 16) : match.start()]))
    return before is not None and before[1] in words.listed("before_lone_month")


def _periods(plain: str, calendar: Calendar) -> Iterator[Found]:
    for match in calendar.weeks.finditer(plain):
        yield Found(match.start(), match.end(), Day(week=int(group(match, "week") or 0)))
    for match in calendar.quarters.finditer(plain):
        numbered = group(match, "quarter")
        quarter = int(numbered) if numbered else calendar.quarter_words.get(group(match, "word") or "")
        yield Found(match.start(), match.end(), Day(year=_number(group(match, "year")), quarter=quarter))
    for match in calendar.seasons.finditer(plain):
        yield Found(match.start(), match.end(), Day(year=_number(group(match, "year"))))


def _number(text: str | None) -> int | None:
    return int(text) if text else None
