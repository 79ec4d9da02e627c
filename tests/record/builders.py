"""Small entries for the record."""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal
from fractions import Fraction

from bulletin.model import Basis, Document, Draft, Fact, Header, Money, Name, Place, Range, Value, Window
from bulletin.record.entry import Entry, OrderState, Pledge, Source, Told
from bulletin.record.history import RecordedRows
from bulletin.values import freeze

VALUES: tuple[Value, ...] = (
    True,
    41,
    Decimal("12.50"),
    Fraction(29, 31),
    date(2026, 3, 27),
    Window(date(2026, 4, 6), date(2026, 4, 17)),
    Range(3, 9),
    Money((("EUR", Decimal("10.00")), ("KWD", Decimal("3.250")))),
    Name("part", "P-104", "warp beam"),
    "released",
    ("2026-W01", "2026-W09"),
    (Name("part", "P-104", "warp beam"), Name("part", "P-109", "pawl")),
)


def fact(key: str, value: Value) -> Fact:
    return Fact(key, key, value, "unit", Basis.RECORD, date(2026, 3, 27), "Counted.", RecordedRows({"boxing.csv": 4}), 0)


def entry(name: str = "2026-13", as_of: date = date(2026, 3, 27), orders: int = 3) -> Entry:
    draft = Draft(name, "en", f"drafts/{name}.en.md", f"Title: {name}\n\nHello.\n", 12, Header(name, Place("d")))
    return Entry(
        name=name,
        as_of=as_of,
        published=datetime(2026, 3, 27, 16, tzinfo=UTC),
        sources=(Source("boxing.csv", "", "aa"), Source("contacts.csv", "salt", "bb")),
        facts=tuple(fact(f"fact.{number}", value) for number, value in enumerate(VALUES)),
        drafts=(draft,),
        documents=(Document(f"{name}/en/index.html", "text/html", b"<p>Hello</p>"),),
        told=(Told("en", "fact.1", freeze(VALUES[1])),),
        pledges=(Pledge(f"{name}.1", "We will send the kits.", date(2026, 4, 30), "commitment", "promises..."),),
        orders=tuple(OrderState(f"F-{number}", "1", '{"status": "waiting"}') for number in range(orders)),
    )
