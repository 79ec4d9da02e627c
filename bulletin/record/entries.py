"""What a bulletin puts on record: every countable fact of its day, its sources, what it promised, how each order stood."""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from bulletin.model import Basis, Bulletin, Document, Fact, Facts, Judged, Window
from bulletin.record import digests
from bulletin.record.entry import Entry, OrderState, Pledge, Source, Told
from bulletin.values import freeze

PLEDGING = frozenset({Basis.COMMITMENT, Basis.FORECAST})


def entry_of(
    facts: Facts,
    bulletins: Sequence[Bulletin],
    documents: Sequence[Document],
    sources: Iterable[Source],
    orders: Iterable[OrderState],
    corrects: int | None = None,
) -> Entry:
    """The entry of a draft in all its locales; the promises are those of the first, in whose language it was written."""
    first = bulletins[0]
    found = [facts.find(path) for path in facts.countable()]
    return Entry(
        name=first.draft.name,
        as_of=first.as_of,
        published=first.published,
        sources=tuple(sorted(sources, key=lambda source: source.file)),
        facts=tuple(fact for fact in found if isinstance(fact, Fact)),
        drafts=tuple(sorted((bulletin.draft for bulletin in bulletins), key=lambda draft: draft.locale)),
        documents=tuple(documents),
        told=tuple(sorted({told for bulletin in bulletins for told in told_by(bulletin)})),
        pledges=tuple(pledges(first)),
        orders=tuple(orders),
        corrects=corrects,
    )


def personal_source(file: str, digest: str) -> Source:
    """A file with personal details: names and addresses could be guessed from a plain digest, a salted one tells nothing."""
    salt = secrets.token_hex(16)
    return Source(file, salt, digests.salted(salt, digest))


def told_by(bulletin: Bulletin) -> Iterator[Told]:
    """Each fact that the draft spoke of, as what it came to."""
    for judged in bulletin.verdict.judged:
        if judged.judgement == "supported":
            yield from (Told(bulletin.draft.locale, fact.key, freeze(fact.value)) for fact in judged.facts)


def pledges(bulletin: Bulletin) -> Iterator[Pledge]:
    """Each commitment, and each forecast with a date, that the draft made: `NAME.1`, `NAME.2` in its order."""
    made = [judged for judged in bulletin.verdict.judged if judged.judgement == "supported" and judged.facts]
    dated = [(judged, weakest(judged), due) for judged in made if (due := latest_day(judged))]
    pledging = [(judged.claim, basis, due) for judged, basis, due in dated if basis in PLEDGING]
    for number, (claim, basis, due) in enumerate(pledging, start=1):
        yield Pledge(f"{bulletin.draft.name}.{number}", claim.words, due, basis.value, claim.condition)


def weakest(judged: Judged) -> Basis:
    """The basis of an expression: that of its weakest fact."""
    return max((fact.basis for fact in judged.facts), key=lambda basis: basis.weakness)


def latest_day(judged: Judged) -> date | None:
    """The last day that the facts of a claim name."""
    values = [fact.value for fact in judged.facts]
    days = [value.last if isinstance(value, Window) else value for value in values]
    return max((day for day in days if isinstance(day, date)), default=None)
