"""The order of the stages: tables -> facts -> draft -> verdict -> bulletin -> documents -> record.

Each step returns its result and the problems it found. A bulletin in several locales goes out in all of them or in none.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from bulletin.circumstances import run_of
from bulletin.delivery import Delivery, lay_out
from bulletin.documents import notices
from bulletin.documents.press import press
from bulletin.draft.expressions import parse_key
from bulletin.draft.reading import read_draft
from bulletin.facts.book import Book
from bulletin.facts.order_lines import all_order_lines
from bulletin.facts.output import changed_rates, output_of
from bulletin.late_orders import press_notices
from bulletin.model import Bulletin, Document, Fact, Place, Problem, Verdict, Window
from bulletin.record.digests import of_bytes
from bulletin.record.entries import entry_of, personal_source
from bulletin.record.entry import OrderState, Source
from bulletin.record.history import read_record
from bulletin.record.ledger import add
from bulletin.verdict.gate import pass_gate
from bulletin.verdict.judging import judge
from bulletin.workshop import Clock, Workshop, book_of, find_drafts, name_of

CHART_WEEKS = 12
SETTINGS = "bulletin.toml"


@dataclass(frozen=True)
class Built:
    """What became of a draft in all its locales: verdicts, and documents where every one of them passed.

    `notices` are the documents of delays on that day: they lie beside the bulletin's and are none of it, since they name
    customers and are no longer right once the notices are sent.
    """

    verdicts: tuple[Verdict, ...] = ()
    bulletins: tuple[Bulletin, ...] = ()
    documents: tuple[Document, ...] = ()
    notices: tuple[Document, ...] = ()
    bare: tuple[Problem, ...] = ()

    @property
    def blocked(self) -> bool:
        """Whether anything in any locale must not go out, in the drafts or in the documents that were made of them."""
        return bool(self.bare) or any(verdict.blocked for verdict in self.verdicts)

    @property
    def findings(self) -> list[Problem]:
        """All that was found in the drafts and in the documents."""
        return [*(finding for verdict in self.verdicts for finding in verdict.findings), *self.bare]


def check(workshop: Workshop, name: str, clock: Clock, *, issuing: bool = False) -> tuple[Built, list[Problem]]:
    """Hold every locale of a draft against the facts of its day. What is wrong with a draft's form is a finding."""
    files, problems = find_drafts(workshop, name)
    verdicts = []
    for file in files:
        draft, faults = read_draft(file)
        problems += [fault for fault in faults if draft is None or fault.level == "error"]
        if draft is not None:
            book, damaged = book_of(workshop, clock.day(workshop, draft), draft.name)
            run, lost = run_of(workshop, draft, book, clock, issuing=issuing)
            problems += damaged + lost
            verdicts.append(judge(draft, book, run, faults))
    return Built(tuple(verdicts)), problems


def build(workshop: Workshop, name: str, clock: Clock, *, issuing: bool = False) -> tuple[Built, list[Problem]]:
    """From a draft's name to the documents of all its locales; none where one of them is blocked."""
    built, problems = check(workshop, name, clock, issuing=issuing)
    problems += days_apart(built.verdicts)
    if problems or built.blocked:
        return built, problems
    bulletins = tuple(bulletin for verdict in built.verdicts if (bulletin := let_through(workshop, verdict, clock)))
    documents, bare = press(bulletins)
    late, found = press_notices(workshop, bulletins[0].draft.name, bulletins[0].as_of, clock)
    bare += [problem for problem in found if problem.level == "block"]
    unpaid = [problem for problem in found if problem.level == "warn"]
    built = Built(built.verdicts, bulletins, tuple(documents), tuple(late), tuple(bare))
    return built, on_record(workshop, name) + unpaid


def days_apart(verdicts: tuple[Verdict, ...]) -> list[Problem]:
    """The problem of locales of one bulletin that speak of different days."""
    days = {verdict.as_of for verdict in verdicts}
    told = ", ".join(f"{verdict.draft.locale} of {verdict.as_of}" for verdict in verdicts)
    return [Problem("days-apart", "error", Place(verdicts[0].draft.file), "", {"days": told})] * (len(days) > 1)


def on_record(workshop: Workshop, name: str) -> list[Problem]:
    """A warning where a bulletin of this name was issued: what is built now is no longer that."""
    issued, problems = read_record(workshop.ledger)
    numbers = [bulletin.number for bulletin in issued if bulletin.name == name]
    details = {"number": str(max(numbers, default=0))}
    return problems + [Problem("built-after-issue", "warn", Place(str(workshop.ledger)), name, details)] * bool(numbers)


def let_through(workshop: Workshop, verdict: Verdict, clock: Clock) -> Bulletin | None:
    """A bulletin of a draft that passed the gate, None of one that did not."""
    book, _ = book_of(workshop, verdict.as_of, verdict.draft.name)
    weeks = boxed_by_week(book)
    read = workshop.tables_read
    return pass_gate(
        verdict,
        clock.published,
        workshop.maker,
        workshop.names,
        boxed_by_week=weeks,
        tables=read,
        output=output_of(book.day),
        changed=changed_rates(book),
        widened=widened(book, verdict),
    )


def widened(book: Book, verdict: Verdict) -> int | None:
    """By how many working days the windows that a draft tells are put out; None where it tells none."""
    told = any(isinstance(fact.value, Window) for judged in verdict.judged for fact in judged.facts)
    fact = book.find(parse_key("forecast.widened")) if told else None
    return fact.value if isinstance(fact, Fact) and isinstance(fact.value, int) else None


def boxed_by_week(book: Book) -> tuple[Fact, ...]:
    """Units boxed in each of the last weeks up to the as-of date, oldest first, from the first week with any."""
    weeks = [book.day.calendar.week(book.as_of, -back) for back in reversed(range(CHART_WEEKS))]
    found = [book.find(parse_key(f"boxed.between.{week.first}.{min(week.last, book.as_of)}")) for week in weeks]
    facts = [fact for fact in found if isinstance(fact, Fact)]
    first = next((at for at, fact in enumerate(facts) if fact.value), len(facts))
    return tuple(facts[first:])


def deliver(built: Built, out: Path) -> tuple[list[Path], list[Problem]]:
    """Write the documents below a folder, all or none; return where they lie, the mails of notices as their folder."""
    delivery, problems = spread(built, out)
    return (told_apart(delivery.put()) if delivery else []), problems


def spread(built: Built, out: Path) -> tuple[Delivery | None, list[Problem]]:
    """Lay out the documents of a bulletin and those of the day's delays."""
    swept = f"{built.bulletins[0].draft.name}/{notices.MAILS}" if built.bulletins else ""
    return lay_out([*built.documents, *built.notices], out, swept=swept)


def told_apart(paths: list[Path]) -> list[Path]:
    """Places as they are shown: a folder of mails as one."""
    return list(dict.fromkeys(path.parent if path.parent.name == Path(notices.MAILS).name else path for path in paths))


@dataclass(frozen=True)
class Receipt:
    """What came of issuing: the number on record and where the documents lie."""

    number: int
    paths: tuple[Path, ...]


def issue(
    workshop: Workshop, name: str, clock: Clock, *, out: Path, corrects: int | None
) -> tuple[Built, Receipt | None, list[Problem]]:
    """Build a draft, put it on record and deliver it; no receipt where it was blocked, refused or can't be written.

    A path stands for its draft in all locales: what is issued is issued in all of them. The documents are laid out before
    anything is on record, and moved into place after.
    """
    built, problems = build(workshop, name_of(Path(name)) if name.endswith(".md") else name, clock, issuing=True)
    refused = [problem for problem in problems if problem.level == "error"]
    if refused or built.blocked:
        return built, None, refused
    delivery, problems = spread(built, out)
    if delivery is None:
        return built, None, problems
    book, _ = book_of(workshop, built.bulletins[0].as_of, built.bulletins[0].draft.name)
    chance = workshop.settings.checks.forecast_chance
    entry = entry_of(book, built.bulletins, built.documents, sources_of(workshop), states_of(book), corrects, least_chance=chance)
    number, problems = add(workshop.ledger, entry)
    if number is None:
        delivery.discard()
        return built, None, problems
    return built, Receipt(number, tuple(told_apart(delivery.put()))), []


def sources_of(workshop: Workshop) -> list[Source]:
    """The digests of the settings and of all tables."""
    settings = Source.plain(SETTINGS, of_bytes((workshop.folder / SETTINGS).read_bytes()))
    tables = workshop.tables.values()
    kept = [(personal_source if table.layout.personal else Source.plain)(table.file, table.digest) for table in tables]
    return [settings, *kept]


def is_told(text: object) -> bool:
    """Whether a cell of the states tells anything: what is missing is no text, or `NaT`."""
    return isinstance(text, str) and text not in ("", "NaT")


def states_of(book: Book) -> Iterator[OrderState]:
    """How every order stands that day, each as canonical JSON of its state."""
    for row in all_order_lines(book.day).astype("str").to_dict("records"):
        told = {column: text for column, text in row.items() if is_told(text) and column not in ("order", "line")}
        yield OrderState(row["order"], row["line"], json.dumps(told, sort_keys=True, ensure_ascii=False))
