"""What a figure in prose says: a record that rules weigh against facts."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Kind = Literal["number", "share", "money", "date", "span", "fraction", "multiple", "ordinal", "vague"]
Rounding = Literal["", "about", "nearly", "above", "at_least", "below", "at_most"]


@dataclass(frozen=True, slots=True)
class Day:
    """As much of a date as the words say; None where they do not.

    `third` is that of the month (early 1, mid 2, late 3). `weekday` counts from 0 for Monday.
    `shift` is in days from the as-of date (tomorrow: 1), `week_shift`, `month_shift`,
    `quarter_shift` and `year_shift` in those (next week: 1). A season or a time of day says nothing that a fact could hold.
    """

    year: int | None = None
    month: int | None = None
    day: int | None = None
    weekday: int | None = None
    week: int | None = None
    quarter: int | None = None
    shift: int | None = None
    week_shift: int | None = None
    month_shift: int | None = None
    quarter_shift: int | None = None
    year_shift: int | None = None
    third: int | None = None


@dataclass(frozen=True, slots=True)
class Number:
    """A bare number in a text, before anyone looked beside it."""

    start: int
    end: int
    value: Fraction
    decimals: int = 0
    spelled: bool = False
    ordinal: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure in a text, by offsets in characters; `text` is the stretch from `start` to `end`, unit and sign included.

    `value` is exact: a share as a fraction of one, money in major units of one of `currencies` (a bare $ may be several), a
    span in its `unit` (day, working day, week ...), the lower bound of a vague figure, whose upper one is `upto`; None for a
    date. `decimals` are those typed, of percent for shares; negative where a scale stands behind (1.3 million: -5).
    `rounding_start` is where the words begin that round it, `start` where none stand before it.
    """

    start: int
    end: int
    text: str
    kind: Kind
    value: Fraction | None = None
    decimals: int = 0
    rounding: Rounding = ""
    rounding_start: int = 0
    currencies: tuple[str, ...] = ()
    unit: str = ""
    day: Day | None = None
    upto: Fraction | None = None
    spelled: bool = False

    @property
    def currency(self) -> str:
        """The likeliest currency; empty where it is no money."""
        return self.currencies[0] if self.currencies else ""
