"""What a bulletin puts on record: every countable fact of its day, its sources, what it promised, how each order stood."""

from __future__ import annotations

import secrets
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal

from bulletin.draft.expressions import parse_key
from bulletin.facts.pledges.due import due_of
from bulletin.model import Basis, Bulletin, Document, Fact, Facts
from bulletin.record import digests
from bulletin.record.entry import Entry, OrderState, Pledge, Source, Told
from bulletin.record.wording import sentence_of
from bulletin.values import freeze

PLEDGING = frozenset({Basis.COMMITMENT, Basis.FORECAST})


def entry_of(
    facts: Facts,
    bulletins: Sequence[Bulletin],
    documents: Sequence[Document],
    sources: Iterable[Source],
    orders: Iterable[OrderState],
    corrects: int | None = None,
    *,
    least_chance: Decimal = Decimal("0.8"),
) -> Entry:
    """The entry of a draft in all its locales; the promises are those of the first, in whose language it was written.

    A chance of at least `least_chance` is a promise.
    """
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
        pledges=tuple(pledges(first, least_chance)),
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


def pledges(bulletin: Bulletin, least_chance: Decimal) -> Iterator[Pledge]:
    """Each commitment, and each forecast with a date, that the draft made: `NAME.1`, `NAME.2` in its order.

    What is told a second time is not promised again.
    """
    made: dict[tuple[str, ...], Pledge] = {}
    for judged in bulletin.verdict.judged:
        dated = {fact.key: due for fact in judged.facts if (due := due_day(fact, least_chance))}
        if judged.judgement == "supported" and dated and tuple(sorted(dated)) not in made:
            name = f"{bulletin.draft.name}.{len(made) + 1}"
            basis = weakest(fact for fact in judged.facts if fact.key in dated).value
            text = sentence_of(bulletin, judged.claim)
            made[tuple(sorted(dated))] = Pledge(name, text, max(dated.values()), basis, judged.claim.condition)
    yield from made.values()


def due_day(fact: Fact, least_chance: Decimal) -> date | None:
    """The day by which a fact that may still come says it will have come; None for any other, and for one that is told again."""
    names = tuple(step.text for step in parse_key(fact.key))
    return due_of(names, fact.value, fact.as_of, least_chance) if fact.basis in PLEDGING and names[0] != "last" else None


def weakest(facts: Iterable[Fact]) -> Basis:
    """The basis of an expression: that of its weakest fact."""
    return max((fact.basis for fact in facts), key=lambda basis: basis.weakness)
