"""Values of facts as JSON: the readable form for people's programs, and an exact one that comes back as it went in.

Readable: numbers as numbers, shares as fractions of one, dates as ISO 8601, windows and ranges as `[first, last]`, money as
`{"EUR": "12.50"}`. Exact: a pair of the type's name and its text, for the record.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

from bulletin.model import Money, Name, Range, Value, Window

JsonValue = bool | int | float | str | list[Any] | dict[str, Any]


def to_json(value: Value) -> JsonValue:
    """The readable form. Decimals and fractions that are whole become ints, others the nearest float."""
    match value:
        case bool() | int() | str():
            return value
        case Decimal() | Fraction():
            return int(value) if value == int(value) else float(value)
        case date():
            return value.isoformat()
        case Window():
            return [value.first.isoformat(), value.last.isoformat()]
        case Range():
            return [value.low, value.high]
        case Money():
            return {currency: str(amount) for currency, amount in value.amounts if amount or len(value.amounts) == 1}
        case Name():
            return value.text
        case _:
            return [item.text if isinstance(item, Name) else item for item in value]


def freeze(value: Value) -> str:
    """The exact form, as canonical JSON text."""
    parts: list[Any]
    match value:
        case bool() | int() | str():
            kind, parts = type(value).__name__, [value]
        case Decimal() | Fraction():
            kind, parts = type(value).__name__, [str(value)]
        case date():
            kind, parts = "date", [value.isoformat()]
        case Window():
            kind, parts = "Window", [value.first.isoformat(), value.last.isoformat()]
        case Range():
            kind, parts = "Range", [value.low, value.high]
        case Money():
            kind, parts = "Money", [[currency, str(amount)] for currency, amount in value.amounts]
        case Name():
            kind, parts = "Name", [value.kind, value.id, value.text]
        case _:
            kind, parts = "list", [json.loads(freeze(item)) for item in value]
    return json.dumps([kind, *parts], ensure_ascii=False, separators=(",", ":"))


def thaw(text: str) -> Value:
    """What `freeze` was given. Raises ValueError for a text that it did not write."""
    kind, *parts = json.loads(text)
    return thawed(kind, parts)


def thawed(kind: str, parts: list[Any]) -> Value:
    """The value of a type's name and its parts."""
    if kind not in THAWED:
        raise ValueError(f"{kind!r} is no type of value")
    return THAWED[kind](parts)


THAWED: dict[str, Callable[[list[Any]], Value]] = {
    "bool": lambda parts: bool(parts[0]),
    "int": lambda parts: int(parts[0]),
    "str": lambda parts: str(parts[0]),
    "Decimal": lambda parts: Decimal(parts[0]),
    "Fraction": lambda parts: Fraction(parts[0]),
    "date": lambda parts: date.fromisoformat(parts[0]),
    "Window": lambda parts: Window(*map(date.fromisoformat, parts)),
    "Range": lambda parts: Range(*parts),
    "Money": lambda parts: Money(tuple((currency, Decimal(amount)) for currency, amount in parts)),
    "Name": lambda parts: Name(*parts),
    "list": lambda parts: tuple(item for kind, *inner in parts if isinstance(item := thawed(kind, inner), str | Name)),
}
