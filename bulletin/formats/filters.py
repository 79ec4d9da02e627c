"""Which filters fit a printed fact, and why others do not: a filter that changes nothing hides what its author meant.

`units` puts the noun behind a count, `words` and `short` write its number another way, `share` a part of a whole in per cent,
`date` a day with its weekday, or at one of CLDR's lengths.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType
from typing import Literal, cast, get_args

from bulletin.formats.locales import nouns
from bulletin.model import Call, Fact, Names, Range

Length = Literal["short", "medium", "long", "full"]
FORMS = ("words", "short", "share")
"""Filters that say how the number is written: one of them at a time."""
REASONS: Mapping[str, str] = MappingProxyType(
    {
        "date": "`date` is for a single day, and {fact} is {kind}",
        "share": "`share` is for a part of a whole, and {fact} is {kind}",
        "words": "`words` is for a whole number, and {fact} is {kind}",
        "short": "`short` is for a count, and {fact} is {kind}",
        "units": "`units` is for what is counted, and {fact} is {kind}",
    }
)


def misfit(fact: Fact, filters: tuple[Call, ...], names: Names) -> str:
    """Why filters do not fit a fact, as a clause; empty where all of them do."""
    for call in filters:
        if unfitting(fact, call, names):
            return REASONS[call.name].format(fact=fact.spelling, kind=_kind(fact))
        if call.name == "date" and call.arguments and call.arguments[0] not in get_args(Length):
            return f"`date` is {', '.join(get_args(Length))}, not {call.arguments[0]}"
    forms = [call.name for call in filters if call.name in FORMS]
    if len(forms) > 1:
        return f"`{forms[0]}` and `{forms[1]}` both say how the number is written"
    repeated = next((call.name for at, call in enumerate(filters) if call.name in {other.name for other in filters[:at]}), "")
    return f"`{repeated}` stands there twice" if repeated else ""


def unfitting(fact: Fact, call: Call, names: Names) -> bool:
    """Whether a filter has nothing to say about such a value."""
    value = fact.value
    if call.name == "date":
        return not isinstance(value, date)
    if isinstance(value, Range):
        return call.name != "units" or not _has_noun(fact.unit, names)
    if isinstance(value, bool) or not isinstance(value, int | Decimal | Fraction):
        return True
    match call.name:
        case "share":
            return fact.unit != "share"
        case "units":
            return not _has_noun(fact.unit, names)
        case "words":
            return fact.unit == "share" or fact.decimals > 0
        case _:
            return fact.unit == "share"


def length_of(call: Call) -> Length:
    """The length that `date` asks for: full where it names none of CLDR's."""
    asked = call.arguments[0] if call.arguments else ""
    return cast("Length", asked) if asked in get_args(Length) else "full"


def _has_noun(unit: str, names: Names) -> bool:
    return unit in nouns()["en"] or any(key[:2] == ("unit", unit) for key in names.forms)


def _kind(fact: Fact) -> str:
    """What a fact is, as messages say it: by its value where the unit says less."""
    if fact.unit in nouns()["en"]:
        return f"a number of {nouns()['en'][fact.unit]['other']}"
    return {"yes/no": "a yes/no", "name": "a name", "money": "money"}.get(fact.unit, f"a {fact.unit}")
