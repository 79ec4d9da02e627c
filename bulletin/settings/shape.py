"""What bulletin.toml may hold: each key with its kind and its default, as frozen records.

A check that needs one key alone stands here; those that need several at once, or the place of an inner key, in `checks.py`.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from functools import cached_property
from typing import Annotated, Any, Literal
from zoneinfo import ZoneInfo

from pydantic import AfterValidator, BeforeValidator, Field, PrivateAttr

from bulletin.settings.codes import markets
from bulletin.settings.holiday import is_holiday, is_holiday_code
from bulletin.settings.notice_texts import NoticeTerms
from bulletin.settings.section import LocaleTag, Section, Several, Text

Weekday = Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
WEEKDAYS: tuple[Weekday, ...] = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
DATE_PARTS = ({"%Y", "%y"}, {"%m", "%b", "%B"}, {"%d"})


def _zone(name: str) -> str:
    try:
        ZoneInfo(name)
    except (LookupError, ValueError, OSError):
        raise ValueError("a time zone of the IANA database, such as Europe/Vienna") from None
    return name


def _market(code: str) -> str:
    if code not in markets():
        raise ValueError("an ISO 3166-1 country code, such as US")
    return code


def _holidays(given: Any) -> Any:
    if isinstance(given, list):
        if all(type(day) is date for day in given):
            return tuple(given)
    elif isinstance(given, str) and is_holiday_code(given):
        return given
    raise ValueError("an ISO 3166 code of a country whose holidays are known, such as AT or DE-BY, or a list of dates")


def _encoding(name: str) -> str:
    try:
        "a".encode(name)
    except (LookupError, ValueError):
        raise ValueError("an encoding of text, such as utf-8 or cp1252") from None
    return name


def _delimiter(sign: str) -> str:
    if len(sign) != 1 or sign in '"\r\n\0':
        raise ValueError('one character, such as "," or ";" or "\\t"')
    return sign


def _thousands(sign: str) -> str:
    if len(sign) > 1 or sign.isdigit() or sign in ("-", "+"):
        raise ValueError('one character, such as "." or " ", or nothing')
    return sign


def _pattern(pattern: str) -> str:
    parts = {pattern[at : at + 2] for at in range(len(pattern) - 1) if pattern[at] == "%"}
    if not all(parts & wanted for wanted in DATE_PARTS):
        raise ValueError("a pattern with year, month and day, such as %d.%m.%Y")
    return pattern


def _exact_amount(given: Any) -> Any:
    if isinstance(given, str):
        try:
            amount = Decimal(given)
        except ArithmeticError:
            amount = Decimal("NaN")
        if amount.is_finite() and amount >= 0:
            return amount
        if amount.is_finite():
            raise ValueError("an amount of 0 or more")
    raise ValueError('an amount in quotation marks, such as "10.00"')


Amount = Annotated[Decimal, BeforeValidator(_exact_amount)]
Share = Annotated[Decimal, Field(gt=0, lt=1)]
Days = Annotated[int, Field(ge=0, le=3650)]
"""Ten years of days are more than any maker means."""


class Maker(Section):
    """`[maker]`: who speaks, where and when they work."""

    name: Text
    contact: str = ""
    time_zone: Annotated[str, AfterValidator(_zone)] = "UTC"
    week_starts: Weekday = "monday"
    working_days: Annotated[Several[Weekday], Field(min_length=1)] = WEEKDAYS[:5]
    holidays: Annotated[str | tuple[date, ...] | None, BeforeValidator(_holidays)] = None
    locales: Annotated[Several[LocaleTag], Field(min_length=1)] = ("en",)
    names: Several[Text] = ()

    @cached_property
    def zone(self) -> ZoneInfo:
        """The maker's time zone."""
        return ZoneInfo(self.time_zone)

    @property
    def week_start(self) -> int:
        """The weekday on which a week begins, from Monday 0 to Sunday 6."""
        return WEEKDAYS.index(self.week_starts)

    @property
    def working_weekdays(self) -> frozenset[int]:
        """The weekdays of work, from Monday 0 to Sunday 6."""
        return frozenset(WEEKDAYS.index(day) for day in self.working_days)

    def is_holiday(self, day: date) -> bool:
        """Whether a day is a holiday by the settings' list or the country's calendar."""
        return is_holiday(self.holidays, day)


class Tier(Section):
    """One step of waiting credit: what each month earns from a month on, by currency."""

    from_month: Annotated[int, Field(ge=1)]
    amount: Annotated[Mapping[str, Amount], Field(min_length=1)]


class Credit(Section):
    """`[credit]`: what orders that wait earn."""

    months_from: Literal["promised", "placed"] = "promised"
    until: Literal["boxed", "shipped"] = "boxed"
    tiers: Annotated[Several[Tier], Field(min_length=1)]
    cap: Mapping[str, Amount] = {}


class Checks(Section):
    """`[checks]`: the limits of rules and samples."""

    forecast_chance: Share = Decimal("0.8")
    confidence: Share = Decimal("0.95")
    stale_after_days: Days = 3
    window_moved_days: Days = 7


class Notice(Section):
    """`[[notice]]`: markets whose rule asks for a notice with a choice when a date is not kept."""

    markets: Annotated[Several[Annotated[str, AfterValidator(_market)]], Field(min_length=1)]
    rule: Text
    days: Annotated[int, Field(ge=1)] | None = None
    texts: Text | None = None
    _terms: NoticeTerms = PrivateAttr()

    @property
    def terms(self) -> NoticeTerms:
        """What the rule says, by the maker's own file or the shipped one; the reader of the settings has bound it."""
        return self._terms

    @property
    def limit(self) -> int:
        """The days after the order within which one is to leave that was never told a date."""
        return self.days or self.terms.rule.days

    def under(self, terms: NoticeTerms) -> Notice:
        """The same markets under these terms."""
        bound = self.model_copy()
        bound._terms = terms
        return bound


class TableSettings(Section):
    """`[tables.<name>]`: where a file is not as the list of tables says."""

    file: Text | None = None
    encoding: Annotated[str, AfterValidator(_encoding)] = "utf-8"
    delimiter: Annotated[str, AfterValidator(_delimiter)] = ","
    decimal: Literal[".", ","] = "."
    thousands: Annotated[str, AfterValidator(_thousands)] = ""
    dates: Annotated[Several[Annotated[str, AfterValidator(_pattern)]], Field(min_length=1)] = ("%Y-%m-%d",)
    columns: Mapping[str, Text] = {}
    values: Mapping[str, Mapping[str, str]] = {}
    fill: Mapping[str, str] = {}
    leave_out: Mapping[str, Several[str]] = {}


class Settings(Section):
    """bulletin.toml as a whole."""

    maker: Maker
    credit: Credit | None = None
    checks: Checks = Checks()
    notice: Several[Notice] = ()
    tables: Mapping[str, TableSettings] = {}
