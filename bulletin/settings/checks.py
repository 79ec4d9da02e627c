"""Checks of bulletin.toml that need more than one key: waiting credit in whole minor units, tiers in order.

They work on the values as read, so that they tell of their faults beside those of the shape, all at once.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal, InvalidOperation
from typing import Any, NamedTuple

from bulletin.settings.codes import currencies, is_whole_minor_units, minor_digits, usual_currency
from bulletin.settings.toml_places import Keys


class Fault(NamedTuple):
    """A fault of the settings before it has a place: where, which rule, the value, what was expected, an offer."""

    path: Keys
    rule: str
    words: str
    expected: str
    offer: str = ""


def faults(raw: Mapping[str, Any]) -> Iterator[Fault]:
    """All faults between keys."""
    credit = raw.get("credit")
    if isinstance(credit, dict):
        yield from _credit_faults(credit)
    tables = raw.get("tables")
    for name, table in tables.items() if isinstance(tables, dict) else ():
        if isinstance(table, dict):
            yield from _sign_faults(name, table)


def _credit_faults(credit: Mapping[str, Any]) -> Iterator[Fault]:
    raw_tiers = credit.get("tiers")
    tiers = [tier if isinstance(tier, dict) else {} for tier in raw_tiers] if isinstance(raw_tiers, list) else []
    amounts = [tier["amount"] if isinstance(tier.get("amount"), dict) else {} for tier in tiers]
    for number, given in enumerate(amounts):
        yield from _amount_faults(("credit", "tiers", number, "amount"), given)
    yield from _order_faults([tier.get("from_month") for tier in tiers])
    yield from _currency_faults(amounts)
    cap = credit.get("cap")
    if isinstance(cap, dict):
        yield from _amount_faults(("credit", "cap"), cap)
        yield from _cap_faults(cap, frozenset(code for given in amounts for code in given))


def _amount_faults(path: Keys, amounts: Mapping[str, Any]) -> Iterator[Fault]:
    for code, text in amounts.items():
        if code not in currencies():
            yield Fault((*path, code), "setting-wrong", code, "an ISO 4217 currency code", usual_currency(code))
        elif isinstance(text, str) and not _is_whole(text, code):
            digits = minor_digits(code)
            expected = (
                f"an amount in whole minor units: {code} has {digits} decimals" if digits else f"no decimals: {code} has none"
            )
            yield Fault((*path, code), "setting-wrong", text, expected)


def _is_whole(text: str, code: str) -> bool:
    """Whether it is whole minor units; what is no number at all is the shape's fault to tell."""
    try:
        amount = Decimal(text)
    except InvalidOperation:
        return True
    return not amount.is_finite() or is_whole_minor_units(amount, code)


def _order_faults(months: list[Any]) -> Iterator[Fault]:
    for number in range(1, len(months)):
        before, month = months[number - 1], months[number]
        if isinstance(before, int) and isinstance(month, int) and month <= before:
            expected = f"a month after {before}: tiers stand in ascending order, each month once"
            yield Fault(("credit", "tiers", number, "from_month"), "setting-wrong", str(month), expected)


def _currency_faults(amounts: list[Mapping[str, Any]]) -> Iterator[Fault]:
    named = sorted({code for given in amounts for code in given if code in currencies()})
    for number, given in enumerate(amounts):
        missing = [code for code in named if code not in given]
        if given and missing:
            expected = f"an amount in {', '.join(missing)} too, as another tier has one"
            yield Fault(("credit", "tiers", number, "amount"), "setting-wrong", ", ".join(sorted(given)), expected)


def _cap_faults(cap: Mapping[str, Any], named: frozenset[str]) -> Iterator[Fault]:
    for code in cap:
        if code in currencies() and code not in named:
            yield Fault(("credit", "cap", code), "setting-wrong", code, "a currency that the tiers name")


def _sign_faults(name: str, table: Mapping[str, Any]) -> Iterator[Fault]:
    decimal, delimiter = table.get("decimal", "."), table.get("delimiter", ",")
    if table.get("thousands") == decimal:
        yield Fault(("tables", name, "thousands"), "setting-wrong", str(decimal), "another sign than that of the decimals")
    if decimal == delimiter and "decimal" in table:
        yield Fault(("tables", name, "decimal"), "setting-wrong", str(decimal), "another sign than the delimiter", "")
