"""A data folder, opened: what every command begins with. Settings, tables, names, facts of a day, drafts by name."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from difflib import get_close_matches
from functools import cached_property
from pathlib import Path

from bulletin.draft.expressions import Reference, parse_key
from bulletin.draft.parsing import parse
from bulletin.facts.book import Book
from bulletin.facts.names import names_of
from bulletin.facts.order_lines import order_lines
from bulletin.facts.private import private_of
from bulletin.facts.scopes.day import Day
from bulletin.model import Absent, Draft, Fact, Issued, Maker, Names, OrderLine, Place, Private, Problem, TableRead, WindowsTold
from bulletin.record.history import last_before, read_facts, read_record
from bulletin.record.promises import read_promises
from bulletin.record.told_windows import read_told_windows
from bulletin.settings import Settings, read_settings
from bulletin.tables.as_of import as_of
from bulletin.tables.reading import read_tables
from bulletin.tables.table import Tables

LEDGER = "issued.db"
"""The record's name in the data folder."""


@dataclass(frozen=True)
class Workshop:
    """A data folder that was read: the maker's settings, tables and names, and where the record of it is kept."""

    folder: Path
    ledger: Path
    settings: Settings
    tables: Tables
    names: Names
    books: dict[tuple[date, str], tuple[Book, list[Problem]]] = field(default_factory=dict, repr=False, compare=False)

    @property
    def maker(self) -> Maker:
        """What documents need of the settings."""
        return Maker(self.settings.maker.name, self.settings.maker.contact, self.settings.maker.locales)

    @cached_property
    def tables_read(self) -> tuple[TableRead, ...]:
        """The tables that facts come from as they were read, for the evidence: file, digest, rows that settings leave out."""
        rows = self.tables.left_out
        return tuple(
            TableRead(
                table.file,
                table.digest,
                tuple((row.line, tuple(sorted(row.cells.items()))) for row in rows if row.file == table.file),
            )
            for table in sorted(self.tables.values(), key=lambda table: table.file)
            if not table.layout.personal
        )

    @cached_property
    def private(self) -> Private:
        """What no public text may hold."""
        return private_of(self.tables)


@dataclass(frozen=True)
class Clock:
    """When this is published, and the day the facts are of where the command line names one."""

    published: datetime
    as_of: date | None = None

    def day(self, workshop: Workshop, draft: Draft | None = None) -> date:
        """The day of the facts: the command line's, else the draft's, else the day of publishing in the maker's zone."""
        asked = self.as_of or (draft.header.as_of if draft else None)
        return asked or self.published.astimezone(workshop.settings.maker.zone).date()


def open_workshop(folder: Path, ledger: Path | None = None) -> tuple[Workshop | None, list[Problem]]:
    """Read and check a data folder; None where anything in it is an error."""
    settings, problems = read_settings(folder)
    if settings is None:
        return None, problems
    tables, faults = read_tables(folder, settings)
    problems = [*problems, *faults]
    if any(problem.level == "error" for problem in problems):
        return None, problems
    return Workshop(folder, ledger or folder / LEDGER, settings, tables, names_of(tables, settings)), problems


def book_of(workshop: Workshop, day: date, draft: str = "") -> tuple[Book, list[Problem]]:
    """The facts of a day, one book for whoever asks; `last.` are those of the bulletin recorded before it.

    Where a draft is asked for by its name, they are those on which it was or will be judged: without what it promised itself.
    """
    key = (day, draft)
    if key not in workshop.books:
        issued, problems = read_record(workshop.ledger)
        others = tuple(one for one in issued if one.name != draft)
        if draft and others == issued:
            return book_of(workshop, day)
        book, faults = open_book(workshop, day, issued, others)
        workshop.books[key] = book, [*problems, *faults]
    return workshop.books[key]


def open_book(
    workshop: Workshop, day: date, issued: tuple[Issued, ...], promising: tuple[Issued, ...]
) -> tuple[Book, list[Problem]]:
    """A new book of a day, beside what was issued, some of which promised what counts."""
    problems: list[Problem] = []
    last = last_before(issued, day)
    facts: dict[str, Fact] = {}
    if last is not None:
        facts, faults = read_facts(workshop.ledger, last.number)
        problems = [*problems, *faults]
    promised, faults = read_promises(workshop.ledger, promising, day, workshop.settings.maker.zone)
    problems = [*problems, *faults]
    return Book(Day(day, as_of(workshop.tables, day), workshop.settings, facts, promised)), problems


def windows_told(workshop: Workshop, day: date) -> tuple[tuple[WindowsTold, ...], list[Problem]]:
    """The windows that bulletins on record told of orders and that were over by a day."""
    issued, problems = read_record(workshop.ledger)
    told, faults = read_told_windows(workshop.ledger, issued, day)
    return told, [*problems, *faults]


def named_facts(book: Book, keys: list[str]) -> tuple[list[Fact | Absent], list[Problem]]:
    """The facts of these keys, a family or an item standing for all its own; all countable ones where none is named."""
    if not keys:
        return [book.find(path) for path in book.countable()], []
    found: list[Fact | Absent] = []
    problems = []
    for key in keys:
        one = find_named(book, key)
        below = [] if isinstance(one, Fact) else [book.find(path) for path in book.below(one.key)]
        if isinstance(one, Absent) and not one.known and not below:
            problems.append(unknown_fact(book, key))
        found += below or [one]
    return found, problems


def find_named(book: Book, key: str) -> Fact | Absent:
    """The fact of a key, or of the name that a draft knows it by (`boxed.of("Heron 8").week`)."""
    written, faults = parse(key)
    as_draft = book.find(written.path) if isinstance(written, Reference) and not faults else None
    return as_draft if isinstance(as_draft, Fact) else book.find(parse_key(key))


def unknown_fact(book: Book, key: str) -> Problem:
    """The problem of a key that names nothing, with the nearest ones there are."""
    offer = ", ".join(get_close_matches(key, book.keyed(), n=3, cutoff=0.5))
    return Problem("key-unknown", "error", Place("command line"), key, offer=offer)


def lines_of_order(workshop: Workshop, number: str, clock: Clock) -> tuple[tuple[OrderLine, ...], list[Problem]]:
    """Where the lines of one order stand. An unknown order is told nothing about others."""
    book, problems = book_of(workshop, clock.day(workshop))
    lines = order_lines(book.day, as_written(book.day, number))
    if not lines:
        problems = [*problems, Problem("order-unknown", "error", Place(workshop.tables.file("orders")), number)]
    return lines, problems


def as_written(day: Day, number: str) -> str:
    """The order's number as the table writes it, where it was typed in other letters or with spaces around it."""
    orders = day.table("orders").frame["order"]
    if (orders == number).any():
        return number
    alike = orders[orders.str.casefold() == number.strip().casefold()].unique()
    return str(alike[0]) if len(alike) == 1 else number


def find_drafts(workshop: Workshop, name: str) -> tuple[list[Path], list[Problem]]:
    """The files of a draft: the one that a path names, else every locale of `drafts/NAME`, the first locale first."""
    drafts = workshop.folder / "drafts"
    if name.endswith(".md"):
        return [drafts / name if (drafts / name).exists() and not Path(name).exists() else Path(name)], []
    order = {locale: rank for rank, locale in enumerate(workshop.settings.maker.locales)}
    files = sorted(drafts.glob("*.*.md"))
    found = [file for file in files if name_of(file) == name]
    if not found:
        known = ", ".join(sorted({name_of(file) for file in files})) or "none"
        return [], [Problem("draft-missing", "error", Place(str(drafts)), name, {"known": known})]
    return sorted(found, key=lambda file: (order.get(locale_of(file), len(order)), file.name)), []


def name_of(file: Path) -> str:
    """The draft's name in that of its file, `NAME.LOCALE.md`."""
    return file.name.rsplit(".", 2)[0]


def locale_of(file: Path) -> str:
    """The locale in the name of a draft's file."""
    return file.name.rsplit(".", 2)[1]
