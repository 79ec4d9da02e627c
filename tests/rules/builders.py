"""A small made-up maker for tests of rules: a day's facts in one list, drafts as text.

The day is Friday 27 March 2026, the last working day of ISO week 13; all values are invented.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

from bulletin.draft.expressions import key, spell
from bulletin.draft.parsing import parse_printed
from bulletin.draft.reading import read_text
from bulletin.model import Absent, Basis, Concern, Fact, Money, Name, Names, NoticesDue, Path, Private, Value, Verdict, Window
from bulletin.scrutiny.case import Rule
from bulletin.settings import Settings
from bulletin.verdict.judging import Run, judge

if TYPE_CHECKING:
    from collections.abc import Mapping

FRIDAY = date(2026, 3, 27)
NAMES = Names(
    forms={
        ("unit", "unit", "en", "one", ""): "loom",
        ("unit", "unit", "en", "other", ""): "looms",
    },
    plain=frozenset({"Heron 8", "Heron 12", "Fennmoor Looms", "Warp beam 40 cm", "Route 66"}),
)
SETTINGS = Settings.model_validate(
    {"maker": {"name": "Fennmoor Looms", "contact": "help@fennmoor.example", "time_zone": "Europe/Vienna"}}
)

VALUES: dict[str, tuple[Value, str]] = {
    "boxed.today": (8, "unit"),
    "boxed.yesterday": (9, "unit"),
    "boxed.week": (41, "unit"),
    "boxed.last_week": (20, "unit"),
    "boxed.month": (150, "unit"),
    "boxed.last_month": (131, "unit"),
    "boxed.total": (1304, "unit"),
    "boxed.best_week": (40, "unit"),
    "boxed.rate": (Fraction(39, 5), "unit a working day"),
    'boxed.of("Heron 8").week': (18, "unit"),
    'boxed.of("Heron 8").total': (700, "unit"),
    'boxed.of("Heron 12").week': (23, "unit"),
    'boxed.of("Heron 12").last_week': (11, "unit"),
    'boxed.of("Heron 12").total': (604, "unit"),
    "orders.waiting": (316, "order"),
    "orders.shipped": (1207, "order"),
    "orders.delivered": (1150, "order"),
    "orders.cancelled": (27, "order"),
    "orders.placed_week": (52, "order"),
    "orders.oldest_wait": (143, "day"),
    "orders.median_wait": (91, "day"),
    'coverage.part["P-104"].short': (12, "part"),
    "orders.past_promise": (0, "order"),
    "coverage.parts_in_house": (Fraction(37, 40), "share"),
    "coverage.short_parts": (3, "part line"),
    "coverage.tightest": (Name("part", "P-104", "Warp beam 40 cm"), "name"),
    'coverage.part["P-104"].next_arrival': (date(2026, 4, 17), "date"),
    "defects.open": (4, "defect"),
    "defects.open_safety": (0, "defect"),
    'defects["D-12"].affected': (60, "unit"),
    'defects["D-12"].state': ("open", "state"),
    'defects["D-14"].affected': (60, "unit"),
    'defects["D-20"].severity': ("safety", "state"),
    'defects["D-20"].state': ("open", "state"),
    'defects["D-20"].lot': ("L-2602", "text"),
    'defects["D-20"].part': ("P-104", "text"),
    'defects["D-20"].hazard': ("The spring can snap and cut a hand.", "text"),
    'defects["D-20"].do_now': ("Stop weaving.", "text"),
    'defects["D-20"].affected': (12, "unit"),
    'defects["D-20"].remedied': (4, "unit"),
    'defects["D-20"].unremedied': (8, "unit"),
    'defects["D-20"].kits': (30, "part"),
    'inspections["I-5"].checked': (40, "unit"),
    'inspections["I-5"].failed': (0, "unit"),
    'credits.so_far["F-1001"]': (Money((("EUR", Decimal("12.00")),)), "money"),
    'coverage.of("Heron 8").parts_in_house': (Fraction(37, 40), "share"),
    'coverage.of("Heron 8").buildable': (30, "unit"),
    'plan.of("Heron 8").next_week': (49, "unit"),
    "orders.gone_week": (17, "order"),
    "last.orders.waiting": (330, "order"),
    "last.orders.cancelled": (10, "order"),
    'attested["oil"]': ("Every frame is oiled by hand.", "text"),
    'attested["lens"].expires': (date(2026, 3, 2), "date"),
    "credits.orders": (88, "order"),
    'credits.owed["EUR"]': (Money((("EUR", Decimal("1250.00")),)), "money"),
    'policies["P-1"].in_force': (True, "yes/no"),
    'policies["P-2"].state': ("idea", "state"),
    'policies["P-2"].in_force': (False, "yes/no"),
    'policies["P-2"].title': (Name("policy", "P-2", "old looms taken back"), "name"),
    'promises["PR-5"].text': ("a guard to every owner", "text"),
    'promises["PR-5"].due': (date(2026, 4, 17), "date"),
    'promises["PR-5"].made': (date(2026, 3, 13), "date"),
    'promises["PR-5"].state': ("open", "state"),
    "plan.week": (49, "unit"),
    "plan.next_week": (52, "unit"),
    'defects["D-9"].state': ("closed", "state"),
    'defects["D-9"].affected': (14, "unit"),
    'defects["D-9"].remedied': (14, "unit"),
    'defects["D-9"].unremedied': (0, "unit"),
    'changes["C-1"].rate_fell': (True, "yes/no"),
    'changes["C-1"].title': (Name("change", "C-1", "wider cord eye"), "name"),
    'coverage.part["P-110"].shop': (250, "part"),
    'coverage.part["P-110"].short': (0, "part"),
    'coverage.part["P-110"].name': (Name("part", "P-110", "pawl spring"), "name"),
    'forecast.chance_cleared_by("2026-10-31")': (Fraction(2, 5), "share"),
    'orders.in_market("JP").past_promise': (0, "order"),
    "orders.left_week": (55, "order"),
    "refunds.open": (9, "refund"),
    "forecast.cleared": (Window(date(2026, 5, 4), date(2026, 5, 29)), "window"),
}
BASES = {
    "plan.week": Basis.PLAN,
    "plan.next_week": Basis.PLAN,
    'policies["P-1"].in_force': Basis.POLICY,
    'policies["P-2"].state': Basis.POLICY,
    'policies["P-2"].in_force': Basis.POLICY,
    'policies["P-2"].title': Basis.POLICY,
    'forecast.chance_cleared_by("2026-10-31")': Basis.FORECAST,
    "forecast.cleared": Basis.FORECAST,
    'coverage.part["P-104"].next_arrival': Basis.PLAN,
    'attested["oil"]': Basis.ATTESTED,
    'inspections["I-5"].checked': Basis.SAMPLE,
    'inspections["I-5"].failed': Basis.SAMPLE,
}
AT_LEAST = frozenset({'defects["D-14"].affected', 'defects["D-20"].affected', 'defects["D-20"].unremedied'})
ABSENT = {"coverage.buildable": "needs structure.csv, which the data folder lacks"}


PRIVATE = Private(
    orders=frozenset({"F-1001", "1001", "20317"}),
    serials=frozenset({"H8-101", "H8-180", "H12-7"}),
    people=frozenset({"edda kirschlauer"}),
    emails=frozenset({"edda@post.example"}),
)
TROUBLES: dict[str, Any] = {
    "concerns": (
        Concern("late refunds", "refunds.late", "2 refunds are late", ("refunds.late",), offer="{{ refunds.late }}"),
        Concern("safety defect", "D-12", "the safety defect D-12 is open", item_key="defects.D-12"),
    ),
    "notices": (NoticesDue("16 CFR Part 435", ("F-1001", "F-1002")),),
}
"""What a run holds where a rule about what is left unsaid has something to find."""


class NoRows:
    """Rows of facts that no row made."""

    def counts(self) -> dict[str, int]:
        return {}

    def lines(self) -> dict[str, list[int]]:
        return {}

    def cells(self) -> dict[str, list[dict[str, str]]]:
        return {}


@dataclass(frozen=True)
class MadeFacts:
    """Facts from a list; every family is as fresh as `newest` says."""

    values: dict[str, tuple[Value, str]]
    as_of: date = FRIDAY
    newest_days: tuple[tuple[str, date], ...] = ()

    def find(self, path: Path) -> Fact | Absent:
        spelling = spell(path)
        if any(step.kind == "any" for step in path):
            spelling = next((known for known in self.values if key(path_of(known)) == key(path)), spelling)
        if spelling in self.values:
            value, unit = self.values[spelling]
            basis = Basis.COMMITMENT if spelling.startswith("promises") else BASES.get(spelling, Basis.RECORD)
            return Fact(key(path), spelling, value, unit, basis, self.as_of, "Invented.", NoRows(), at_least=spelling in AT_LEAST)
        return Absent(key(path), spelling, ABSENT.get(spelling, "there is no fact of this name"), spelling in ABSENT)

    def countable(self) -> list[Path]:
        return [path_of(spelling) for spelling in sorted(self.values)]

    def newest(self, family: str) -> date | None:
        known = dict(self.newest_days)
        return known.get(family, self.as_of if family in ("boxed", "orders", "coverage") else None)


@cache
def path_of(spelling: str) -> Path:
    """The path a draft's spelling stands for."""
    reference, _, faults = parse_printed(spelling)
    if reference is None:
        raise ValueError(faults)
    return reference.path


def facts(as_of: date = FRIDAY, **days: date) -> MadeFacts:
    """The facts of the day; a keyword is a family's newest row."""
    return MadeFacts(VALUES, as_of, tuple(days.items()))


def titled(text: str) -> str:
    """A draft's text with a title on top, where it has none."""
    if text.startswith("Title:"):
        return text
    has_header = text.startswith(("Attested:", "Waive:", "As-of:", "Follows:", "Readers:"))
    return f"Title: News\n{text}" if has_header else f"Title: News\n\n{text}"


def judged(
    text: str,
    *,
    title: bool = True,
    locale: str = "en",
    made: MadeFacts | None = None,
    issuing: bool = False,
    published: date | None = None,
    settings: Settings = SETTINGS,
    plain: frozenset[str] = frozenset(),
    forms: Mapping[tuple[str, str, str, str, str], str] = NAMES.forms,
    **circumstances: Any,
) -> Verdict:
    """The verdict on a draft's text; `title` puts a plain title on top where the text has none.

    `plain` are further names that claim nothing, `forms` what things are called; further keywords are those of
    the run: `concerns`, `mentions` and so on.
    """
    source = titled(text) if title else text
    draft, problems = read_text(source, "news", locale, f"news.{locale}.md")
    known = made or facts(draft.header.as_of or FRIDAY)
    at = datetime.combine(published or known.as_of, time(15), UTC)
    names = Names(forms, NAMES.plain | plain)
    return judge(draft, known, Run(at, settings, names, issuing, **{"private": PRIVATE, **circumstances}), problems)


def circumstances_of(rule: Rule) -> dict[str, Any]:
    """What a rule's examples are judged with: the language they are in, the draft they are translations of."""
    original = getattr(rule, "ORIGINAL", "")
    read = read_text(original, "news", "fr", "news.fr.md")[0] if original else None
    return {"locale": getattr(rule, "LOCALE", "en"), "original": read}


def found(text: str, **options: object) -> list[tuple[str, str]]:
    """The rule and the words of every finding of a draft's text."""
    return [(finding.rule, finding.words) for finding in judged(text, **options).findings]  # type: ignore[arg-type]
