"""Every table a data folder may hold, as data: a new table is one entry in `LAYOUTS`.

A layout says which columns there are and of which kind (`kinds.py` reads them, `table.py` says how they stand in a frame),
what is unique, what refers to what, what may not come before what, and how rows stood on an earlier day (`as_of.py`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType
from typing import Literal

KindName = Literal[
    "id",
    "text",
    "path",
    "model",
    "batch",
    "choice",
    "market",
    "locale",
    "currency",
    "day",
    "moment",
    "whole",
    "decimal",
    "money",
    "yes or no",
]


@dataclass(frozen=True, slots=True)
class Column:
    """One column. `optional`: cells may be empty and the column missing; `empty` is then what an empty number stands for.

    Numbers lie in `least` <= number < `below`, without `least` itself where `above_least`. `refers` names tables and columns of
    which one must hold the cell; `loosely` makes a cell that leads nowhere a warning.
    """

    name: str
    kind: KindName = "id"
    optional: bool = False
    choices: tuple[str, ...] = ()
    empty: Decimal | None = None
    least: Decimal | None = None
    above_least: bool = False
    below: Decimal | None = None
    refers: tuple[tuple[str, str], ...] = ()
    loosely: bool = False


@dataclass(frozen=True, slots=True)
class Layout:
    """One table.

    `ordered` are pairs of columns of which the first may not exceed the second; the cell at fault is that of the second, or of
    the first in `at_most`. `own` is the date from which a row exists, `later` are second dates with the state they are read
    back to (empty: no state), `emptied` further columns that are empty without that date.
    """

    name: str
    columns: tuple[Column, ...]
    unique: tuple[str, ...] = ()
    required: bool = False
    personal: bool = False
    ordered: tuple[tuple[str, str], ...] = ()
    at_most: tuple[tuple[str, str], ...] = ()
    own: str = ""
    later: Mapping[str, str] = field(default_factory=dict)
    emptied: Mapping[str, str] = field(default_factory=dict)

    def column(self, name: str) -> Column:
        """The column of a name; LookupError where there is none."""
        for column in self.columns:
            if column.name == name:
                return column
        raise LookupError(f"{self.name} has no column {name}")

    def names(self) -> list[str]:
        """The columns' names in order."""
        return [column.name for column in self.columns]


ZERO, ONE = Decimal(0), Decimal(1)
TO_ORDERS = (("orders", "order"),)
TO_BOXING = (("boxing", "serial"),)
TO_PARTS = (("parts", "part"),)
TO_DEFECTS = (("defects", "defect"),)
TO_MODELS = (("orders", "model"), ("boxing", "model"))
PLURALS = ("zero", "one", "two", "few", "many", "other")


def _optional(name: str, kind: KindName = "id", refers: tuple[tuple[str, str], ...] = ()) -> Column:
    return Column(name, kind, optional=True, refers=refers)


def _choice(name: str, choices: str, *, optional: bool = False) -> Column:
    return Column(name, "choice", optional=optional, choices=tuple(choices.split()))


def _days(*names: str) -> tuple[Column, ...]:
    """Days that a row always has."""
    return tuple(Column(name, "day") for name in names)


def _optional_days(*names: str) -> tuple[Column, ...]:
    return tuple(_optional(name, "day") for name in names)


def _quantity(name: str = "quantity") -> Column:
    return Column(name, "decimal", least=ZERO, above_least=True)


def _whole(name: str, least: Decimal = ZERO, *, optional: bool = False) -> Column:
    return Column(name, "whole", least=least, optional=optional)


def _money(name: str = "amount", *, least: Decimal | None = ZERO, optional: bool = False) -> Column:
    return Column(name, "money", least=least, optional=optional)


ORDER = Column("order", refers=TO_ORDERS)
PART = Column("part", refers=TO_PARTS)
MAYBE_PART = _optional("part", refers=TO_PARTS)

_LAYOUTS = (
    Layout(
        "orders",
        (
            Column("order"),
            _optional("line"),
            *_days("placed"),
            Column("model", "model"),
            Column("market", "market"),
            Column("locale", "locale"),
            Column("currency", "currency"),
            _money(optional=True),
            _choice("status", "waiting boxed shipped delivered cancelled"),
            *_optional_days("promised"),
            Column("priority", "whole", optional=True, empty=ZERO),
            _optional("batch", "batch"),
            _optional("serial", refers=TO_BOXING),
            *_optional_days("closed", "delivered"),
        ),
        unique=("order", "line"),
        required=True,
        ordered=(("placed", "closed"), ("closed", "delivered")),
        own="placed",
        later=MappingProxyType({"closed": "", "delivered": ""}),
    ),
    Layout(
        "boxing",
        (
            Column("serial"),
            Column("model", "model"),
            _optional("revision"),
            _choice("event", "boxed reopened"),
            Column("at", "moment"),
            _optional("order", refers=TO_ORDERS),
            _choice("purpose", "order replacement stock sample", optional=True),
        ),
        unique=("serial", "event", "at"),
        required=True,
        own="day",
    ),
    Layout(
        "told",
        (
            ORDER,
            *_days("told"),
            *_optional_days("due"),
            _choice("kind", "order notice renewed"),
            _choice("answer", "consent cancel", optional=True),
            *_optional_days("answered"),
        ),
        unique=("order", "told"),
        ordered=(("told", "answered"),),
        own="told",
        later=MappingProxyType({"answered": ""}),
        emptied=MappingProxyType({"answered": "answer"}),
    ),
    Layout(
        "parts",
        (
            Column("part"),
            Column("name", "text"),
            _whole("lead_days", optional=True),
            Column("safety_stock", "decimal", optional=True, empty=ZERO, least=ZERO),
        ),
        unique=("part",),
    ),
    Layout(
        "structure",
        (
            Column("parent", refers=(*TO_PARTS, *TO_MODELS), loosely=True),
            Column("component", refers=TO_PARTS),
            _quantity(),
            Column("scrap", "decimal", optional=True, empty=ZERO, least=ZERO, below=ONE),
            *_optional_days("from", "until"),
        ),
        unique=("parent", "component", "from"),
        ordered=(("from", "until"),),
    ),
    Layout(
        "stock",
        (
            PART,
            _optional("lot"),
            _choice("state", "usable inspection quarantine"),
            Column("quantity", "decimal", least=ZERO),
            *_days("counted"),
        ),
        unique=("part", "lot", "state", "counted"),
        own="counted",
    ),
    Layout(
        "supply",
        (
            Column("purchase"),
            PART,
            _quantity(),
            *_days("due"),
            _choice("state", "ordered confirmed in_transit received cancelled"),
            *_optional_days("ordered", "received"),
            _optional("reason", "text"),
        ),
        unique=("purchase", "part", "due"),
        ordered=(("ordered", "received"),),
        own="ordered",
        later=MappingProxyType({"received": "ordered"}),
    ),
    Layout("reserved", (PART, _choice("use", "shop service retrofit"), _quantity()), unique=("part", "use")),
    Layout("plan", (*_days("date"), Column("model", "model", refers=TO_MODELS), _whole("units")), unique=("date", "model")),
    Layout(
        "stops",
        (*_days("from"), *_optional_days("until"), Column("cause", "text")),
        unique=("from",),
        ordered=(("from", "until"),),
    ),
    Layout(
        "defects",
        (
            Column("defect"),
            Column("title", "text"),
            _choice("severity", "safety function cosmetic"),
            MAYBE_PART,
            _optional("lot"),
            *_days("opened"),
            _choice("state", "open contained fixed closed"),
            *_optional_days("closed"),
            _choice("remedy", "retrofit replace repair refund none", optional=True),
            _optional("remedy_part", refers=TO_PARTS),
            _choice("traced", "no partly complete", optional=True),
            _optional("hazard", "text"),
            _optional("do_now", "text"),
        ),
        unique=("defect",),
        ordered=(("opened", "closed"),),
        own="opened",
        later=MappingProxyType({"closed": "open"}),
    ),
    Layout(
        "affected",
        (
            Column("defect", refers=TO_DEFECTS),
            Column("serial", refers=TO_BOXING),
            _optional("order", refers=TO_ORDERS),
            *_optional_days("address_confirmed", "kit_sent", "remedied"),
        ),
        unique=("defect", "serial"),
        later=MappingProxyType({"address_confirmed": "", "kit_sent": "", "remedied": ""}),
    ),
    Layout(
        "inspections",
        (
            Column("inspection"),
            Column("title", "text"),
            MAYBE_PART,
            _optional("lot"),
            _whole("checked", ONE),
            _whole("failed"),
            Column("at", "moment"),
            _whole("lot_size", ONE, optional=True),
            Column("quality_limit", "decimal", optional=True, least=ZERO, above_least=True),
        ),
        unique=("inspection",),
        at_most=(("failed", "checked"),),
        own="day",
    ),
    Layout(
        "changes",
        (
            Column("change"),
            Column("title", "text"),
            Column("model", "model", refers=TO_MODELS),
            _optional("from_serial"),
            *_optional_days("from_date"),
            _optional("defect", refers=TO_DEFECTS),
            _choice("state", "planned released"),
        ),
        unique=("change",),
    ),
    Layout(
        "credits",
        (
            ORDER,
            *_days("date"),
            _choice("kind", "credit redemption expiry correction"),
            _money(least=None),
            Column("currency", "currency"),
        ),
        own="date",
    ),
    Layout(
        "promises",
        (
            Column("promise"),
            *_days("made"),
            Column("text", "text"),
            *_days("due"),
            _choice("state", "open kept withdrawn"),
            *_optional_days("done", "withdrawn"),
        ),
        unique=("promise",),
        ordered=(("made", "done"), ("made", "withdrawn")),
        own="made",
        later=MappingProxyType({"done": "open", "withdrawn": "open"}),
    ),
    Layout(
        "policies",
        (Column("policy"), Column("title", "text"), _choice("state", "idea planned decided in_force"), *_optional_days("from")),
        unique=("policy",),
    ),
    Layout(
        "attested",
        (
            Column("statement"),
            Column("text", "text"),
            Column("by", "text"),
            *_days("on"),
            _optional("file", "path"),
            *_optional_days("expires"),
        ),
        unique=("statement",),
        own="on",
    ),
    Layout(
        "holds",
        (ORDER, Column("reason", "text"), *_days("from"), *_optional_days("until")),
        unique=("order", "from"),
        ordered=(("from", "until"),),
        own="from",
    ),
    Layout(
        "refunds",
        (ORDER, *_days("asked"), *_optional_days("paid"), _money(), Column("currency", "currency")),
        unique=("order", "asked"),
        ordered=(("asked", "paid"),),
        own="asked",
        later=MappingProxyType({"paid": ""}),
    ),
    Layout(
        "lanes",
        (Column("market", "market"), _whole("days_low"), _whole("days_high")),
        unique=("market",),
        ordered=(("days_low", "days_high"),),
    ),
    Layout(
        "contacts",
        (ORDER, _optional("name", "text"), _optional("email", "text"), Column("bulletins", "yes or no")),
        unique=("order",),
        personal=True,
    ),
    Layout(
        "names",
        (
            Column("kind"),
            Column("id"),
            Column("locale", "locale"),
            Column("form", "choice", optional=True, choices=PLURALS),
            _optional("case"),
            Column("name", "text"),
        ),
        unique=("kind", "id", "locale", "form", "case"),
    ),
)

LAYOUTS: Mapping[str, Layout] = MappingProxyType({layout.name: layout for layout in _LAYOUTS})
