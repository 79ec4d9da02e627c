"""The order of the stages: tables -> facts -> draft -> verdict -> bulletin -> documents -> record.

Each step returns its result and the problems it found. A bulletin in several locales goes out in all of them or in none.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from bulletin.documents.press import press
from bulletin.draft.expressions import parse_key
from bulletin.draft.reading import read_draft
from bulletin.facts.book import Book
from bulletin.facts.order_lines import all_order_lines
from bulletin.model import Bulletin, Document, Fact, Problem, Verdict
from bulletin.record.entries import entry_of, personal_source
from bulletin.record.entry import OrderState, Source
from bulletin.record.ledger import add
from bulletin.scrutiny.case import Run
from bulletin.verdict.gate import pass_gate
from bulletin.verdict.judging import judge
from bulletin.workshop import Clock, Workshop, book_of, find_drafts

CHART_WEEKS = 12


@dataclass(frozen=True)
class Built:
    """What became of a draft in all its locales: verdicts, and documents where every one of them passed."""

    verdicts: tuple[Verdict, ...] = ()
    bulletins: tuple[Bulletin, ...] = ()
    documents: tuple[Document, ...] = ()

    @property
    def blocked(self) -> bool:
        """Whether anything in any locale must not go out."""
        return any(verdict.blocked for verdict in self.verdicts)


def check(workshop: Workshop, name: str, clock: Clock, *, issuing: bool = False) -> tuple[Built, list[Problem]]:
    """Hold every locale of a draft against the facts of its day. What is wrong with a draft's form is a finding."""
    files, problems = find_drafts(workshop, name)
    verdicts = []
    for file in files:
        draft, faults = read_draft(file)
        problems += [fault for fault in faults if draft is None or fault.level == "error"]
        if draft is not None:
            book, damaged = book_of(workshop, clock.day(workshop, draft))
            problems += damaged
            verdicts.append(judge(draft, book, Run(clock.published, workshop.settings, workshop.names, issuing), faults))
    return Built(tuple(verdicts)), problems


def build(workshop: Workshop, name: str, clock: Clock, *, issuing: bool = False) -> tuple[Built, list[Problem]]:
    """From a draft's name to the documents of all its locales; none where one of them is blocked."""
    built, problems = check(workshop, name, clock, issuing=issuing)
    if problems or built.blocked:
        return built, problems
    bulletins = tuple(bulletin for verdict in built.verdicts if (bulletin := let_through(workshop, verdict, clock)))
    documents, faults = press(bulletins)
    return Built(built.verdicts, bulletins, tuple(documents)), faults


def let_through(workshop: Workshop, verdict: Verdict, clock: Clock) -> Bulletin | None:
    """A bulletin of a draft that passed the gate, None of one that did not."""
    book, _ = book_of(workshop, verdict.as_of)
    weeks = boxed_by_week(book)
    return pass_gate(verdict, clock.published, workshop.maker, workshop.names, boxed_by_week=weeks)


def boxed_by_week(book: Book) -> tuple[Fact, ...]:
    """Units boxed in each of the last weeks up to the as-of date, oldest first, from the first week with any."""
    weeks = [book.day.calendar.week(book.as_of, -back) for back in reversed(range(CHART_WEEKS))]
    found = [book.find(parse_key(f"boxed.between.{week.first}.{min(week.last, book.as_of)}")) for week in weeks]
    facts = [fact for fact in found if isinstance(fact, Fact)]
    first = next((at for at, fact in enumerate(facts) if fact.value), len(facts))
    return tuple(facts[first:])


def issue(workshop: Workshop, name: str, clock: Clock, corrects: int | None) -> tuple[Built, int | None, list[Problem]]:
    """Build a draft and put it on record; the number is None where it was blocked or the record refused it."""
    built, problems = build(workshop, name, clock, issuing=True)
    if problems or built.blocked:
        return built, None, problems
    book, _ = book_of(workshop, built.bulletins[0].as_of)
    entry = entry_of(book, built.bulletins, built.documents, sources_of(workshop), states_of(book), corrects)
    number, faults = add(workshop.ledger, entry)
    return built, number, faults


def sources_of(workshop: Workshop) -> list[Source]:
    """The digests of all tables."""
    tables = workshop.tables.values()
    return [(personal_source if table.layout.personal else Source.plain)(table.file, table.digest) for table in tables]


def states_of(book: Book) -> Iterator[OrderState]:
    """How every order stands that day, each as canonical JSON of its state."""
    for row in all_order_lines(book.day).astype("str").to_dict("records"):
        told = {column: text for column, text in row.items() if text not in ("", "NaT") and column not in ("order", "line")}
        yield OrderState(row["order"], row["line"], json.dumps(told, sort_keys=True, ensure_ascii=False))


def write_documents(documents: tuple[Document, ...], out: Path) -> list[Path]:
    """Write every document below a folder, each whole or not at all; return where they lie."""
    written = []
    for document in documents:
        path = out / document.path
        path.parent.mkdir(parents=True, exist_ok=True)
        unfinished = path.with_name(f".{path.name}.part")
        unfinished.write_bytes(document.content)
        unfinished.replace(path)
        written.append(path)
    return written
