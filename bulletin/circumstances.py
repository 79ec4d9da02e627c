"""What a draft is judged with besides the facts of its day: what readers must hear, what they were told, what is private."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import timedelta
from pathlib import Path

from bulletin.draft.expressions import parse_key
from bulletin.draft.reading import read_draft
from bulletin.facts.book import Book
from bulletin.facts.concerns import concerns_of
from bulletin.facts.notices import notices_due
from bulletin.model import Concern, Draft, Fact, Issued, Mention, Problem, Window
from bulletin.record.history import last_before, read_record
from bulletin.record.mentions import read_mentions
from bulletin.record.promises import published_on
from bulletin.scrutiny.case import Run
from bulletin.scrutiny.hearing import REMEMBERED
from bulletin.scrutiny.retelling import corrected
from bulletin.workshop import Clock, Workshop, book_of, name_of


def run_of(workshop: Workshop, draft: Draft, book: Book, clock: Clock, *, issuing: bool = False) -> tuple[Run, list[Problem]]:
    """The run of one draft on the day of a book."""
    issued, problems = read_record(workshop.ledger)
    last = last_before(issued, book.as_of)
    days = Window(min(book.as_of - timedelta(days=REMEMBERED), last.as_of if last else book.as_of), book.as_of)
    mentions, faults = read_mentions(workshop.ledger, days)
    run = Run(
        clock.published,
        workshop.settings,
        workshop.names,
        issuing,
        concerns=(*concerns_of(book), *corrected_figures(workshop, last, mentions)),
        mentions=mentions,
        private=workshop.private,
        notices=notices_due(book.day),
        original=original_of(workshop, draft),
    )
    return run, problems + faults


def corrected_figures(workshop: Workshop, last: Issued | None, mentions: Iterable[Mention]) -> Iterator[Concern]:
    """Figures that the last bulletin told and that today's tables no longer bear out as of its own day."""
    if last is None:
        return
    book, _ = book_of(workshop, last.as_of)
    over = last.as_of < published_on(last, workshop.settings.maker.zone)
    told = {mention.key: mention for mention in mentions if mention.number == last.number}
    for key in sorted(told):
        fact = book.find(parse_key(key))
        if isinstance(fact, Fact) and corrected(fact, told[key].value, over=over):
            yield correction(fact, told[key])


def correction(fact: Fact, mention: Mention) -> Concern:
    """What readers must hear of a figure that was corrected: the recorded one, by its own name."""
    key, told = f"last.{fact.key}", f"{fact.key}, as it was told of {mention.as_of}, was corrected since"
    return Concern("corrected figure", key, told, (key,), offer=f"{{{{ last.{fact.spelling} }}}}")


def original_of(workshop: Workshop, draft: Draft) -> Draft | None:
    """The draft that this one is a translation of: that of its name in the first locale, beside it; None for that one itself."""
    first = workshop.settings.maker.locales[0]
    file = Path(draft.file)
    beside = file.with_name(f"{name_of(file)}.{first}.md")
    if draft.locale == first or not beside.exists():
        return None
    original, _ = read_draft(beside)
    return original
