"""From columns of text to a frame of typed columns: each distinct text is read once, the values are spread by code.

`table.py` says how each kind stands in the frame.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.settings.codes import minor_digits
from bulletin.tables.faults import CellFault, Wrong
from bulletin.tables.kinds import read_cell
from bulletin.tables.layouts import Column, Layout
from bulletin.tables.moments import local_days, utc_moments
from bulletin.tables.other_words import with_other_words
from bulletin.tables.texts import Coded, Plain, Texts
from bulletin.tables.ways import Ways

MISSING = Wrong("cell-missing")
NO_DAY = np.datetime64("NaT", "s")


@dataclass(frozen=True, eq=False)
class Typed:
    """A column's values (anything a frame takes) and the cells of it that are wrong, as (position, text, what is wrong)."""

    values: Any
    wrong: list[tuple[int, str, Wrong]]


def make_frame(
    layout: Layout, texts: Mapping[str, Texts], records: NDArray[np.int64], ways: Ways
) -> tuple[pd.DataFrame, list[CellFault]]:
    """The frame of a table from the texts of the columns that the file gives, and every cell that is not as it must be."""
    columns: dict[str, Any] = {}
    faults: list[CellFault] = []
    for column in layout.columns:
        given = texts.get(column.name)
        typed = _typed(column, Coded.same("", len(records)) if given is None else given, ways)
        columns[column.name] = typed.values
        if given is not None:
            faults += [CellFault(int(records[at]), column.name, text, wrong) for at, text, wrong in typed.wrong]
        if column.kind == "moment":
            columns["day"] = local_days(typed.values, ways.zone)
    for column in layout.columns:
        if column.kind == "money":
            amounts, too_fine = _minor_units(columns[column.name], columns["currency"], column)
            columns[column.name] = amounts
            faults += [CellFault(int(records[at]), column.name, str(text), wrong) for at, text, wrong in too_fine]
    return pd.DataFrame(columns, index=pd.Index(records, name="record"), copy=False), faults


def _typed(column: Column, texts: Texts, ways: Ways) -> Typed:
    if column.kind == "moment":
        return _moments(column, texts.one_by_one(), ways)
    return _coded(column, texts, ways) if isinstance(texts, Coded) else _plain(column, texts, ways)


def _plain(column: Column, plain: Plain, ways: Ways) -> Typed:
    """Ids and free text: only suspicious ones are read one by one."""
    read, texts = read_cell(column, ways), plain.texts
    wrong: list[tuple[int, str, Wrong]] = []
    if not column.optional:
        wrong += [(int(at), "", MISSING) for at in np.flatnonzero(texts == "")]
    for at, text in () if plain.printable else _suspicious(texts):
        value = read(text)
        if isinstance(value, Wrong):
            wrong.append((at, text, value))
    return Typed(texts, wrong)


def _suspicious(texts: Iterable[str]) -> Iterator[tuple[int, str]]:
    """Texts that hold anything but printable ASCII."""
    return ((at, text) for at, text in enumerate(texts) if not (text.isascii() and text.isprintable()))


def _coded(column: Column, texts: Coded, ways: Ways) -> Typed:
    """A column by its distinct texts."""
    read = read_cell(column, ways)
    distinct, codes = texts.distinct, texts.codes
    values = [read(text) if text else (None if column.optional else MISSING) for text in distinct]
    wrong_codes = [code for code, value in enumerate(values) if isinstance(value, Wrong)]
    places = np.flatnonzero(np.isin(codes, wrong_codes)) if wrong_codes else np.empty(0, dtype=np.int64)
    values = with_other_words(column, texts, values) if wrong_codes else values
    wrong = [(int(at), distinct[codes[at]], values[codes[at]]) for at in places]
    good = [None if isinstance(value, Wrong) else value for value in values]
    return Typed(SPREADS[column.kind](column, good, codes), wrong)


def _moments(column: Column, texts: Any, ways: Ways) -> Typed:
    """Seconds or finer in UTC; what is not written in the usual way goes text by text."""
    moments = utc_moments(texts, ways.zone).astype("datetime64[us]")
    wrong: list[tuple[int, str, Wrong]] = []
    read = read_cell(column, ways)
    for at in np.flatnonzero(np.isnat(moments)).tolist():
        value = read(texts[at]) if texts[at] else MISSING
        if isinstance(value, Wrong):
            wrong.append((at, texts[at], value))
        else:
            moments[at] = np.datetime64(value.replace(tzinfo=None) - value.utcoffset(), "us")
    return Typed(moments, wrong)


def _spread_category(column: Column, values: list[Any], codes: NDArray[Any]) -> pd.Categorical:
    named = list(column.choices) or sorted({value for value in values if value is not None})
    categories = [*named, ""] if column.optional and "" not in named else named
    numbers = {category: number for number, category in enumerate(categories)}
    empty = numbers.get("", -1)
    recoded = np.array([empty if value is None else numbers[value] for value in values] or [0], dtype=np.int32)
    return pd.Categorical.from_codes(recoded[codes], categories=pd.Index(categories, dtype="str"), validate=False)


def _spread_day(_column: Column, values: list[Any], codes: NDArray[Any]) -> NDArray[np.datetime64]:
    days = np.array([NO_DAY if value is None else np.datetime64(value, "s") for value in values] or [NO_DAY])
    return np.asarray(days.astype("datetime64[s]")[codes])


def _spread_whole(column: Column, values: list[Any], codes: NDArray[Any]) -> Any:
    return _integers(values, codes, column)


def _integers(values: list[Any], codes: NDArray[Any], column: Column) -> Any:
    """`int64` where the column always has a number, else `Int64`."""
    known = np.array([value is not None for value in values] or [False])
    empty = int(column.empty or 0)
    numbers = np.array([empty if value is None else int(value) for value in values] or [0], dtype=np.int64)
    if column.optional and column.empty is None:
        return pd.arrays.IntegerArray(numbers[codes], ~known[codes])
    return numbers[codes]


def _spread_decimal(column: Column, values: list[Any], codes: NDArray[Any]) -> NDArray[np.object_]:
    numbers = np.empty(max(len(values), 1), dtype=object)
    numbers[: len(values)] = [column.empty if value is None else value for value in values]
    return np.asarray(numbers[codes])


def _spread_yes(_column: Column, values: list[Any], codes: NDArray[Any]) -> NDArray[np.bool_]:
    return np.asarray(np.array([bool(value) for value in values] or [False])[codes])


def _spread_text(_column: Column, values: list[Any], codes: NDArray[Any]) -> Any:
    texts = np.empty(max(len(values), 1), dtype=object)
    texts[: len(values)] = ["" if value is None else value for value in values]
    return pd.array(texts[codes], dtype="str")


@dataclass(frozen=True, eq=False)
class Amounts:
    """Amounts by their distinct values, before the currency of the row says how many minor units they are."""

    values: list[Decimal | None]
    codes: NDArray[Any]


def _spread_money(_column: Column, values: list[Any], codes: NDArray[Any]) -> Amounts:
    return Amounts(values, codes)


def _minor_units(amounts: Amounts, currency: pd.Categorical, column: Column) -> tuple[Any, list[tuple[int, Decimal, Wrong]]]:
    """Amounts in minor units of each row's currency, and those that no coin can pay. A wrong currency counts as two digits."""
    digits = [minor_digits(str(code)) for code in currency.categories] or [2]
    row_digits: Any = digits[0] if len(set(digits)) == 1 else np.array(digits)[np.asarray(currency.codes)]
    pairs = np.asarray(amounts.codes, dtype=np.int64) * 4 + row_digits
    used = np.zeros(len(amounts.values) * 4, dtype=bool)
    used[pairs] = True
    scaled = [_scaled(amounts.values[pair // 4], pair % 4) if used[pair] else None for pair in range(len(used))]
    fine = [int(number) if number is not None and number == number.to_integral_value() else None for number in scaled]
    too_fine = [pair for pair in range(len(used)) if scaled[pair] is not None and fine[pair] is None]
    wrong = []
    for at in np.flatnonzero(np.isin(pairs, too_fine)).tolist() if too_fine else ():
        details = {"currency": str(currency[at]), "digits": str(pairs[at] % 4)}
        wrong.append((at, amounts.values[amounts.codes[at]] or Decimal(0), Wrong("amount-not-in-minor-units", details)))
    return _integers(fine, pairs, column), wrong


def _scaled(amount: Decimal | None, digits: int) -> Decimal | None:
    return None if amount is None else amount.scaleb(digits)


SPREADS: Mapping[str, Callable[[Column, list[Any], NDArray[Any]], Any]] = {
    "id": _spread_text,
    "text": _spread_text,
    "path": _spread_text,
    "model": _spread_category,
    "batch": _spread_category,
    "choice": _spread_category,
    "market": _spread_category,
    "locale": _spread_category,
    "currency": _spread_category,
    "day": _spread_day,
    "whole": _spread_whole,
    "decimal": _spread_decimal,
    "money": _spread_money,
    "yes or no": _spread_yes,
}
