"""Small bulletins for tests of documents, made of records alone: a draft is read, its claims are judged by facts given here."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

from bulletin.draft.expressions import references, spell
from bulletin.draft.reading import read_text
from bulletin.model import (
    Basis,
    Bulletin,
    Claim,
    Fact,
    Judged,
    Maker,
    Money,
    Name,
    Names,
    OrderLine,
    Problem,
    Value,
    Verdict,
    Waived,
    Window,
)
from bulletin.verdict.gate import pass_gate

AS_OF = date(2026, 3, 27)
PUBLISHED = datetime(2026, 3, 27, 15, 30, tzinfo=UTC)
FENNMOOR = Maker("Fennmoor Looms", "help@fennmoor.example", ("en", "de"))
NAMES = Names({("part", "P-104", "de", "", ""): "Kettbaum"}, frozenset({"Heron 8", "Heron 12", "Bolt M8 <b>*x*</b>"}))


class Lines:
    """Rows of one file, as a fact finds them."""

    def __init__(self, **files: list[int]) -> None:
        self.files = {f"{name}.csv": lines for name, lines in files.items()}

    def counts(self) -> dict[str, int]:
        return {file: len(lines) for file, lines in self.files.items()}

    def lines(self) -> dict[str, list[int]]:
        return self.files

    def cells(self) -> dict[str, list[dict[str, str]]]:
        return {file: [{"line": str(line)} for line in lines] for file, lines in self.files.items()}


def fact(spelling: str, value: Value, unit: str = "unit", basis: Basis = Basis.RECORD, decimals: int = 0) -> Fact:
    """A fact; its key is its spelling but for item access."""
    key = spelling.replace('["', ".").replace('"]', "").replace('("', ".").replace('")', "").replace('", "', ".")
    return Fact(key, spelling, value, unit, basis, AS_OF, f"What {spelling} counts.", Lines(boxing=[2, 3, 4, 9]), decimals)


FACTS = [
    fact("boxed.week", 41),
    fact("boxed.last_week", 38),
    fact("boxed.best_week", 39),
    fact("boxed.total", 1287),
    fact("orders.waiting", 612, "order"),
    fact("forecast.cleared", Window(date(2026, 5, 4), date(2026, 6, 19)), "window", Basis.FORECAST),
    fact("coverage.tightest", Name("part", "P-104", "Bolt M8 <b>*x*</b>"), "name"),
    fact('coverage.part["P-104"].next_arrival', date(2026, 4, 10), "date", Basis.PLAN),
    fact("credits.owed", Money((("EUR", Decimal("1240.00")), ("JPY", Decimal("15000")))), "money", Basis.POLICY),
]
WEEKS = [23, 26, 31, 29, 34, 33, 12, 36, 39, 37, 38, 41]

LETTER = """\
Title: Week 13: {{ boxed.week }} looms boxed
As-of: 2026-03-27
Readers: waiting

We boxed {{ boxed.week }} looms this week, [our best week so far]{boxed.week > boxed.best_week}.
[About 1,300]{boxed.total} have left the bench since we began. Thank you, **every one of you**.

## What is waiting

- {{ orders.waiting }} orders wait for a Heron 8 or a Heron 12.
- The part we watch is {{ coverage.tightest }}; the next ones are due on {{ coverage.part["P-104"].next_arrival }}.
- We expect to clear the queue {{ forecast.cleared }}.

> [The new warp beam is a joy to wind]{opinion}.

Ask us anything: [write to us](mailto:help@fennmoor.example). {# not for readers #}
"""


def bulletin(
    text: str = LETTER,
    locale: str = "en",
    *,
    facts: list[Fact] | None = None,
    weeks: list[int] | None = None,
    findings: tuple[Problem, ...] = (),
    waived: tuple[Waived, ...] = (),
) -> Bulletin:
    """A bulletin of a draft's text; raises where the draft can't be read or a fact is missing."""
    draft, problems = read_text(text, "2026-13", locale, f"drafts/2026-13.{locale}.md")
    if problems:
        raise ValueError(problems)
    known = {fact.spelling: fact for fact in FACTS if facts is None} | {fact.spelling: fact for fact in facts or ()}
    judged = tuple(judge(claim, known) for claim in draft.claims)
    made = pass_gate(
        Verdict(draft, AS_OF, judged, findings, waived),
        PUBLISHED,
        FENNMOOR,
        NAMES,
        boxed_by_week=boxed_by_week(WEEKS if weeks is None else weeks),
    )
    if made is None:
        raise ValueError(findings)
    return made


def judge(claim: Claim, known: dict[str, Fact]) -> Judged:
    """Take every claim for supported by the facts it names."""
    if claim.kind == "opinion":
        return Judged(claim, "opinion")
    touched = [claim.expression, *(inner.expression for inner in claim.inside)]
    facts = tuple(known[spell(reference.path)] for expression in touched for reference in references(expression))
    return Judged(claim, "supported", facts)


def boxed_by_week(counts: list[int]) -> tuple[Fact, ...]:
    """Facts of whole weeks, the last one that of the as-of date (a Friday)."""
    monday = AS_OF - timedelta(days=AS_OF.weekday())
    starts = [monday - timedelta(weeks=len(counts) - 1 - index) for index in range(len(counts))]
    weeks = [(start, min(start + timedelta(days=6), AS_OF)) for start in starts]
    return tuple(fact(f'boxed.between("{first}", "{last}")', count) for (first, last), count in zip(weeks, counts, strict=True))


def line(status: str = "waiting", **fields: object) -> OrderLine:
    """One unit of order 1042, a Heron 8."""
    base: dict[str, object] = {
        "order": "1042", "line": "1", "as_of": AS_OF, "model": "Heron 8", "locale": "en", "currency": "EUR",
        "status": status, "placed": date(2025, 10, 3),
    }  # fmt: skip
    return OrderLine(**{**base, **fields})  # type: ignore[arg-type]
