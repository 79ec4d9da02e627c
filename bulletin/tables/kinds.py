"""How the text of one cell is read, kind by kind: the value, or what is wrong with it.

A column is read by its distinct texts, so these functions may take their time; what has a million distinct texts goes
through `moments.py` or is only looked over (`frames.py`). Days and moments have a module of their own (`days.py`).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from bulletin.settings.codes import currencies, locale_tag, markets, nearest, usual_currency, usual_locale
from bulletin.tables.days import read_day, read_moment
from bulletin.tables.faults import Wrong
from bulletin.tables.layouts import Column, KindName
from bulletin.tables.ways import SPACES, Ways

CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff]")
CONTROL_IN_TEXT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
LARGEST = Decimal(10) ** 15


def read_cell(column: Column, ways: Ways) -> Callable[[str], Any]:
    """The reader of a column's texts that are not empty: it gives the value or a `Wrong`."""
    read, pattern = READERS[column.kind], ways.number
    return lambda text: read(text, column, ways if column.kind in ("day", "moment") else (ways, pattern))


def _read_id(text: str, _column: Column, _ways: Any) -> str | Wrong:
    return Wrong("cell-has-control-character") if CONTROL.search(text) else text


def _read_text(text: str, _column: Column, _ways: Any) -> str | Wrong:
    return Wrong("cell-has-control-character") if CONTROL_IN_TEXT.search(text) else text


def _read_path(text: str, _column: Column, _ways: Any) -> str | Wrong:
    if CONTROL.search(text):
        return Wrong("cell-has-control-character")
    return text if is_inside(text) else Wrong("cell-path-outside")


def is_inside(path: str) -> bool:
    """Whether a path, written for any system, stays inside the folder it is relative to."""
    steps = re.split(r"[/\\]", path)
    return bool(steps[0]) and ":" not in steps[0] and not steps[0].startswith("~") and ".." not in steps


def _read_choice(text: str, column: Column, _ways: Any) -> str | Wrong:
    if text in column.choices:
        return text
    return Wrong("cell-not-a-choice", {"choices": ", ".join(column.choices)}, nearest(text, column.choices))


def _read_yes_or_no(text: str, _column: Column, _ways: Any) -> bool | Wrong:
    answers = {"yes": True, "no": False}
    return answers.get(text, Wrong("cell-not-a-choice", {"choices": "yes, no"}, nearest(text, answers)))


def _read_market(text: str, _column: Column, _ways: Any) -> str | Wrong:
    if text in markets():
        return text
    return Wrong("cell-not-a-market", offer={"UK": "GB", "EL": "GR"}.get(text.upper()) or _same(text, markets()))


def _read_currency(text: str, _column: Column, _ways: Any) -> str | Wrong:
    return text if text in currencies() else Wrong("cell-not-a-currency", offer=usual_currency(text))


def _read_locale(text: str, _column: Column, _ways: Any) -> str | Wrong:
    return locale_tag(text) or Wrong("cell-not-a-locale", offer=usual_locale(text))


def _same(text: str, known: frozenset[str]) -> str:
    return text.upper() if text.upper() in known else ""


def _read_day(text: str, _column: Column, ways: Any) -> date | Wrong:
    return read_day(text, ways)


def _read_moment(text: str, _column: Column, ways: Any) -> datetime | Wrong:
    return read_moment(text, ways)


def _read_number(text: str, column: Column, signs: Any) -> Decimal | Wrong:
    ways, pattern = signs
    plain = SPACES.sub(" ", text)
    if not pattern.fullmatch(plain):
        return Wrong("cell-not-a-number", {"example": f"1250{ways.decimal}5"}, _in_signs(text, ways))
    thousands = SPACES.sub(" ", ways.thousands)
    number = Decimal((plain.replace(thousands, "") if thousands else plain).replace(ways.decimal, "."))
    return _within_limits(number, column)


def _in_signs(text: str, ways: Ways) -> str:
    """A number that is written with other signs, as it should be written here; empty where it can be read in two ways."""
    found = re.fullmatch(r"([+-]?[0-9]{1,3}(?:[., ][0-9]{3})+)([.,])([0-9]{1,2})", SPACES.sub(" ", text))
    plain = re.fullmatch(r"([+-]?[0-9]+)([.,])([0-9]{1,2})", text)
    match = found or plain
    return f"{re.sub('[., ]', '', match[1])}{ways.decimal}{match[3]}" if match and match[2] not in match[1] else ""


def _within_limits(number: Decimal, column: Column) -> Decimal | Wrong:
    if abs(number) >= LARGEST:
        return Wrong("cell-too-large", {"limit": f"below {LARGEST:,}"})
    if column.least is not None and (number < column.least or (column.above_least and number == column.least)):
        return Wrong("cell-too-small", {"limit": f"{'above' if column.above_least else 'at least'} {column.least}"})
    if column.below is not None and number >= column.below:
        return Wrong("cell-too-large", {"limit": f"below {column.below}"})
    return number


def _read_whole(text: str, column: Column, signs: Any) -> int | Wrong:
    number = _read_number(text, column, signs)
    if isinstance(number, Wrong):
        return Wrong("cell-not-whole") if number.rule == "cell-not-a-number" else number
    return int(number) if number == number.to_integral_value() else Wrong("cell-not-whole")


READERS: Mapping[KindName, Callable[[str, Column, Any], Any]] = {
    "id": _read_id,
    "model": _read_id,
    "batch": _read_id,
    "text": _read_text,
    "path": _read_path,
    "choice": _read_choice,
    "yes or no": _read_yes_or_no,
    "market": _read_market,
    "currency": _read_currency,
    "locale": _read_locale,
    "day": _read_day,
    "moment": _read_moment,
    "decimal": _read_number,
    "money": _read_number,
    "whole": _read_whole,
}
