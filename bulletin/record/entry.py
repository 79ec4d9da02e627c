"""What one bulletin puts on record, before it has a number: plain values, ready to be written or held against what was."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from bulletin.model import Document, Draft, Fact
from bulletin.record import digests
from bulletin.values import freeze


@dataclass(frozen=True, slots=True)
class Source:
    """A file that the facts came from. The salt is empty but for files that hold personal details."""

    file: str
    salt: str
    digest: str

    @staticmethod
    def plain(file: str, digest: str) -> Source:
        """A file without personal details."""
        return Source(file, "", digest)


@dataclass(frozen=True, slots=True)
class Pledge:
    """A commitment, or a forecast with a date, that a draft made: counted as a promise from now on."""

    promise: str
    text: str
    due: date
    basis: str
    condition: str


@dataclass(frozen=True, slots=True, order=True)
class Told:
    """A fact that a draft spoke of, in a claim or by printing it, with its frozen value."""

    locale: str
    key: str
    value: str


@dataclass(frozen=True, slots=True)
class OrderState:
    """What the bulletin knew of one line of an order; `state` is canonical JSON."""

    order: str
    line: str
    state: str


@dataclass(frozen=True, slots=True)
class Entry:
    """All that a bulletin freezes. Lists are sorted by their first field."""

    name: str
    as_of: date
    published: datetime
    sources: tuple[Source, ...]
    facts: tuple[Fact, ...]
    drafts: tuple[Draft, ...]
    documents: tuple[Document, ...]
    told: tuple[Told, ...]
    pledges: tuple[Pledge, ...]
    orders: tuple[OrderState, ...]
    corrects: int | None = None

    def contents(self) -> dict[str, bytes]:
        """The bytes of all drafts and documents under their digests."""
        texts = [draft.source.encode() for draft in self.drafts] + [document.content for document in self.documents]
        return {digests.of_bytes(text): text for text in texts}

    def rows(self) -> dict[str, list[tuple[Any, ...]]]:
        """The rows of the ledger's tables, without the bulletin's number."""
        return {
            "source": [(source.file, source.salt, source.digest) for source in self.sources],
            "fact": [fact_row(fact) for fact in self.facts],
            "draft": [draft_row(draft) for draft in self.drafts],
            "claim": [(told.locale, told.key, told.value) for told in self.told],
            "document": [(doc.path, doc.media_type, digests.of_bytes(doc.content)) for doc in self.documents],
            "promise": [(p.promise, p.text, p.due.isoformat(), p.basis, p.condition) for p in self.pledges],
        }


def draft_row(draft: Draft) -> tuple[str, ...]:
    """A draft as the ledger holds it: its text stands under its digest."""
    return draft.locale, draft.file, draft.header.readers, digests.of_bytes(draft.source.encode())


def fact_row(fact: Fact) -> tuple[Any, ...]:
    """A fact as the ledger holds it."""
    counts = json.dumps(fact.rows.counts(), ensure_ascii=False, sort_keys=True)
    shown = (fact.decimals, fact.rounding, int(fact.at_least))
    return fact.key, fact.spelling, freeze(fact.value), fact.unit, fact.basis.value, *shown, fact.how, counts


def bulletin_digest(head: dict[str, Any], rows: dict[str, list[tuple[Any, ...]]]) -> str:
    """The digest that chains a bulletin: over its head (number, name, days, orders, previous) and every row it holds."""
    return digests.of_json({"head": head, "rows": {table: sorted(map(list, rows[table])) for table in rows}})
