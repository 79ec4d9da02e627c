"""Every record that crosses a border between stages, in the order of the flow.

Reading this page is reading the program: a maker's *tables* have *problems* or give *facts*; a *draft* makes *claims*; a
*verdict* holds them against the facts; the gate makes a *bulletin* of a draft that passed; channels make *documents* of
it; the record keeps what was *issued*. All records are frozen, none knows a module further down.
"""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType
from typing import Any, Literal, NamedTuple, NewType, Protocol

# ---------------------------------------------------------------- places and problems

Level = Literal["error", "block", "warn"]
"""error: settings, a table or the command line is wrong; block: the draft must not go out; warn: look at this."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something stands: lines and columns count from 1, columns in characters; the whole file is 1:1."""

    file: str
    line: int = 1
    column: int = 1


NOTHING: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Problem:
    """A fault as a value: its parts. Only report.py makes sentences of them.

    `rule` is the stable name of the defect, `words` the evidence (the cell or the words of the draft), `details` what the
    sentence names, `offer` what to write instead, ready to paste. `sentence` is the template of a rule that words itself;
    where it is empty, report.py has one under the rule's name. `applies` says that the offer is the only one and takes the place
    of exactly the words.
    """

    rule: str
    level: Level
    place: Place
    words: str = ""
    details: Mapping[str, str] = field(default_factory=lambda: NOTHING)
    offer: str = ""
    sentence: str = ""
    applies: bool = False


# ---------------------------------------------------------------- values and facts


class Basis(StrEnum):
    """What a fact rests on, strongest first; the words of a claim may never be stronger than it."""

    RECORD = "record"
    ATTESTED = "attested"
    SAMPLE = "sample"
    POLICY = "policy"
    COMMITMENT = "commitment"
    PLAN = "plan"
    FORECAST = "forecast"

    @property
    def weakness(self) -> int:
        """0 for a full count of the records, more the less a fact may be leaned on."""
        return list(Basis).index(self)


class Window(NamedTuple):
    """Two days, both inclusive."""

    first: date
    last: date


class Range(NamedTuple):
    """Two numbers, both inclusive."""

    low: int
    high: int


@dataclass(frozen=True, slots=True)
class Money:
    """Amounts in whole minor units of their currencies, by ISO 4217 code, sorted by code."""

    amounts: tuple[tuple[str, Decimal], ...]


@dataclass(frozen=True, slots=True)
class Name:
    """The name of a thing that a table knows; `text` is the tables' own name, other locales come from names.csv."""

    kind: str
    id: str
    text: str


Value = bool | int | Decimal | Fraction | date | Window | Range | Money | Name | str | tuple[str | Name, ...]
"""Exact. Fraction: shares (of one), medians, rates, needs of a part."""


Rounding = Literal["nearest", "up", "down"]
"""How the number shown is made of an exact one; nearest takes a half away from zero."""


class Rows(Protocol):
    """The rows of tables that made a fact, found when asked for."""

    def counts(self) -> dict[str, int]:
        """How many rows of which file."""

    def lines(self) -> dict[str, list[int]]:
        """The lines of the file on which these rows begin, in ascending order."""

    def cells(self) -> dict[str, list[dict[str, str]]]:
        """The rows themselves in the order of `lines`: declared columns only, as the file has them."""


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that the records bear out.

    `key` is its name in JSON and on the command line (`boxed.of.Heron 8.week`), `spelling` its name in a draft
    (`boxed.of("Heron 8").week`). `unit` is what is counted: `unit` (of product), `order`, `part`, `part line`, `defect`,
    `day`, `working day`, `unit a working day`, `share`, `money`, `date`, `window`, `name`, `text`, `state`, `yes/no` ...
    `how` says in one sentence how it is computed. `decimals` is the number shown and `rounding` the way to it (what is needed is
    rounded up, what may be sold down); the value itself is exact. `at_least` marks a count that may still grow.
    """

    key: str
    spelling: str
    value: Value
    unit: str
    basis: Basis
    as_of: date
    how: str
    rows: Rows
    decimals: int = 0
    rounding: Rounding = "nearest"
    at_least: bool = False


@dataclass(frozen=True, slots=True)
class Absent:
    """A fact that can't be told, and why; `known` is false where no fact has such a name at all."""

    key: str
    spelling: str
    why: str
    known: bool = True


class Step(NamedTuple):
    """One step of a path to a fact: `.name`, `["item"]`, an argument of a call, or `any` of them on the command line."""

    kind: Literal["name", "item", "call", "any"]
    text: str


Path = tuple[Step, ...]


class Facts(Protocol):
    """The facts of one day, each computed when it is first asked for."""

    @property
    def as_of(self) -> date:
        """The day they hold for."""

    def find(self, path: Path) -> Fact | Absent:
        """The fact at the end of a path. Never raises for a path that leads nowhere."""

    def countable(self) -> list[Path]:
        """Paths to all facts without free arguments and not of single orders, sorted by key."""

    def newest(self, family: str) -> date | None:
        """The day of the newest row a family rests on (`at` for boxed and orders, `counted` for coverage)."""


# ---------------------------------------------------------------- names in locales


@dataclass(frozen=True, slots=True)
class Names:
    """names.csv as data: what things are called in each locale, and every name that claims nothing in a draft.

    `forms` maps (kind, id, locale, form, case) to a name; `plain` holds all names that tables and settings know: models,
    parts, titles and `names` of the settings.
    """

    forms: Mapping[tuple[str, str, str, str, str], str] = field(default_factory=dict)
    plain: frozenset[str] = frozenset()

    def find(self, thing: tuple[str, str], locale: str, form: str = "", case: str = "") -> str | None:
        """The name of a (kind, id) in a locale, or its language; an empty form or case is the one that fits any."""
        for tag in dict.fromkeys((locale, locale.split("-")[0])):
            for asked in dict.fromkeys(((form, case), (form, ""), ("other", case), ("other", ""), ("", ""))):
                name = self.forms.get((*thing, tag, *asked))
                if name is not None:
                    return name
        return None


# ---------------------------------------------------------------- drafts


@dataclass(frozen=True, slots=True)
class Attestation:
    """An `Attested:` line of a draft: a statement in its own words, who signed it, until when it holds."""

    place: Place
    text: str
    who: str
    until: date | None


@dataclass(frozen=True, slots=True)
class Waiver:
    """A `Waive:` line of a draft: which rule, at which words or item, who answers for it, and why."""

    place: Place
    rule: str
    words: str
    who: str
    why: str


@dataclass(frozen=True, slots=True)
class Header:
    """The `Key: value` lines on top of a draft."""

    title: str
    title_place: Place
    as_of: date | None = None
    readers: str = "all"
    attested: tuple[Attestation, ...] = ()
    waivers: tuple[Waiver, ...] = ()
    follows: str = ""


@dataclass(frozen=True, slots=True)
class Call:
    """A filter on a printed fact: its name and arguments."""

    name: str
    arguments: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Claim:
    """One of the three forms, where it stands in the draft.

    `kind` is `printed` for `{{ fact }}`, `claim` for `[words]{condition}`, `opinion` for `[words]{opinion}`. `start` and
    `end` are the offsets of the whole form in the draft's source, `words_start` and `words_end` those of the words (equal
    to `start` and `end` for a printed fact). `expression` is what draft/expressions.py parsed (None for opinions).
    `inside` are printed facts that stand inside the words.
    """

    kind: Literal["printed", "claim", "opinion"]
    place: Place
    start: int
    end: int
    words: str
    words_start: int
    words_end: int
    condition: str = ""
    condition_place: Place | None = None
    expression: Any = None
    filters: tuple[Call, ...] = ()
    inside: tuple[Claim, ...] = ()


@dataclass(frozen=True, slots=True)
class Draft:
    """A draft as read: `source` is the whole text with line ends as \\n, `body_start` the offset of its body.

    Claims that start before it stand in the title. `notes` are the offsets of every `{# note #}`, which nobody gets to
    read, `code` those of code spans and fenced code, which hold no claims.
    """

    name: str
    locale: str
    file: str
    source: str
    body_start: int
    header: Header
    claims: tuple[Claim, ...] = ()
    notes: tuple[tuple[int, int], ...] = ()
    code: tuple[tuple[int, int], ...] = ()

    def place(self, offset: int) -> Place:
        """The line and column of an offset of the source."""
        line_start = self.source.rfind("\n", 0, offset) + 1
        return Place(self.file, self.source.count("\n", 0, offset) + 1, offset - line_start + 1)


# ---------------------------------------------------------------- verdicts

Judgement = Literal["supported", "contradicted", "unsupported", "opinion", "attested"]


@dataclass(frozen=True, slots=True)
class Judged:
    """A claim or printed fact with the facts it touches and what became of it."""

    claim: Claim
    judgement: Judgement
    facts: tuple[Fact, ...] = ()


@dataclass(frozen=True, slots=True)
class Waived:
    """A finding that somebody answered for."""

    finding: Problem
    waiver: Waiver


@dataclass(frozen=True, slots=True)
class Verdict:
    """A draft held against the facts: every claim judged, every finding, what was waived; sorted by place."""

    draft: Draft
    as_of: date
    judged: tuple[Judged, ...]
    findings: tuple[Problem, ...]
    waived: tuple[Waived, ...] = ()

    @property
    def blocked(self) -> bool:
        """Whether anything found forbids that this goes out."""
        return any(finding.level != "warn" for finding in self.findings)


Passed = NewType("Passed", Verdict)
"""A verdict that the gate let through: verdict/gate.py alone makes one, and nothing else fits into a bulletin."""


# ---------------------------------------------------------------- what readers must hear, and must not

ConcernKind = Literal["safety defect", "overdue promise", "moved windows", "credit owed", "late refunds", "corrected figure"]


@dataclass(frozen=True, slots=True)
class Concern:
    """Something that readers must hear of: a draft speaks of it by a claim that touches its facts, or somebody waives it.

    `item` is what a waiver may name (`D-12`, `PR-4`, `refunds.late`), `keys` are the facts that are it, `item_key` is the key of
    the item whose facts all are. `told` says in a clause what is the matter, `offer` is a form to write a sentence around.
    """

    kind: ConcernKind
    item: str
    told: str
    keys: tuple[str, ...] = ()
    item_key: str = ""
    offer: str = ""

    def is_touched_by(self, key: str) -> bool:
        """Whether a fact of this key is about it."""
        return key in self.keys or (bool(self.item_key) and key.startswith((f"{self.item_key}.", f"{self.item_key}[")))


@dataclass(frozen=True, slots=True)
class Mention:
    """A fact that a recorded bulletin spoke of: in which one, as of when, to whom (as in `Readers:`), and what it came to."""

    number: int
    as_of: date
    readers: str
    key: str
    value: Value


@dataclass(frozen=True, slots=True)
class Private:
    """What no public text may hold: numbers of orders, serials, names of people and their addresses in lower case."""

    orders: Container[str] = frozenset()
    serials: Container[str] = frozenset()
    people: Container[str] = frozenset()
    emails: Container[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Notice:
    """A notice of delay that an order's market asks for: by whose rule, by which day, whether it is the first one.

    `by` is the date that is not kept: the one told last, or what the rule makes of the day of the order, which `placed` then is.
    `new` is the definite new date of leaving, None where none can be given; `silence` is what the rule makes of no answer up to
    `until`, empty where it makes nothing of it; `source` says where. `sentences` are the notice's words by locale, by their
    names in the settings' texts; "silence" among them says what no answer means.
    """

    rule: str
    by: date
    kind: Literal["notice", "renewed"]
    silence: Literal["consent", "cancellation", ""] = ""
    placed: date | None = None
    new: date | None = None
    until: date | None = None
    source: str = ""
    sentences: Mapping[str, Mapping[str, str]] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class NoticesDue:
    """The waiting orders whose market's rule asks for a notice that nobody has sent: their numbers in natural order."""

    rule: str
    orders: tuple[str, ...]


# ---------------------------------------------------------------- bulletins


@dataclass(frozen=True, slots=True)
class Maker:
    """Who speaks: what documents need of the settings. `locales` begins with the one that drafts are written in."""

    name: str
    contact: str = ""
    locales: tuple[str, ...] = ("en",)


@dataclass(frozen=True, slots=True)
class TableRead:
    """A table that the facts of a bulletin come from, as it was read: its file, the digest of that, what the settings leave out.

    `left_out` are rows that facts know nothing of: the line of each and its cells by our columns, private ones apart.
    """

    file: str
    digest: str
    left_out: tuple[tuple[int, tuple[tuple[str, str], ...]], ...] = ()


@dataclass(frozen=True, slots=True)
class OutputWeek:
    """A completed week of the line: its first day, the units a working day, and whether they lie outside the limits."""

    first: date
    rate: Fraction
    outside: bool


@dataclass(frozen=True, slots=True)
class Output:
    """The individuals chart of the line, oldest week first, in units a working day; `low` may lie below zero."""

    weeks: tuple[OutputWeek, ...]
    low: Fraction
    centre: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True)
class Bulletin:
    """A draft that passed the gate, with all that documents are made of; what it found is at most a warning.

    `published` knows its offset. `boxed_by_week` are the facts `boxed.between(first, last)` of the last weeks, oldest first.
    `tables` are those that its facts come from, sorted by file. `output` and `changed` (units affected a hundred, without
    and with each change that has both) are what the evidence draws. `widened` are the working days by which the windows it tells
    are put out at both ends; None where it tells none.
    """

    verdict: Passed
    published: datetime
    maker: Maker
    names: Names
    boxed_by_week: tuple[Fact, ...] = ()
    tables: tuple[TableRead, ...] = ()
    output: Output | None = None
    changed: tuple[tuple[Fact, Fact], ...] = ()
    widened: int | None = None

    def __post_init__(self) -> None:
        """Refuse a verdict that blocks: whoever comes here with one went around the gate, which is a bug."""
        if self.verdict.blocked:
            raise ValueError(f"{self.verdict.draft.name} is blocked and can't become a bulletin")

    @property
    def draft(self) -> Draft:
        """The draft whose words are sent."""
        return self.verdict.draft

    @property
    def as_of(self) -> date:
        """The day its facts hold for."""
        return self.verdict.as_of


# ---------------------------------------------------------------- documents


@dataclass(frozen=True, slots=True)
class Document:
    """A file to write: its path below the output folder, its media type, its bytes."""

    path: str
    media_type: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Hazard:
    """An open safety defect on a customer's unit, in the maker's own words: what can happen and what to do now."""

    defect: Name
    hazard: str
    do_now: str


@dataclass(frozen=True, slots=True)
class Shortage:
    """A part that holds a unit up: when more of it is announced, and by how many days it usually comes late, where known."""

    part: Name
    next_arrival: date | None = None
    usual_lateness: int | None = None


@dataclass(frozen=True, slots=True)
class Hold:
    """Why an order stands outside the queue, in the maker's own words, and the last day of that, where known."""

    reason: str
    until: date | None = None


@dataclass(frozen=True, slots=True)
class Refund:
    """A refund that a customer asked for: when, how much, and the day it was paid, if it was."""

    asked: date
    amount: Money
    paid: date | None = None


@dataclass(frozen=True, slots=True)
class StoreCredit:
    """The store credit of a whole order: earned by waiting or given, redeemed, expired, and what is left of it."""

    earned: Money = Money(())
    used: Money = Money(())
    expired: Money = Money(())
    left: Money = Money(())


@dataclass(frozen=True, slots=True)
class OrderLine:
    """Where one unit of an order stands: what support pastes, before it is put into words.

    `status` is as in orders.csv, or `held` or `refund` for waiting orders outside the queue. `place` counts from 1 within
    the queue of the model. `unforeseen` says why an order in the queue has no window: the history is too short, or it lies
    further off than the forecast and the parts on order reach. `reopened` is the day its box was opened last, `held_up` are the
    parts it waits for, `credit` is what the line has earned by waiting so far, used or not, `hazards` are the open safety
    defects of the unit. `hold`, `refund` and `store_credit` are those of the whole order, the same on each of its lines.
    """

    order: str
    line: str
    as_of: date
    model: str
    locale: str
    currency: str
    status: str
    placed: date
    place: int | None = None
    ahead_of: int | None = None
    promised: date | None = None
    window: Window | None = None
    arrival: Window | None = None
    unforeseen: Literal["", "history", "reach"] = ""
    boxed: date | None = None
    closed: date | None = None
    delivered: date | None = None
    reopened: date | None = None
    hold: Hold | None = None
    refund: Refund | None = None
    held_up: tuple[Shortage, ...] = ()
    credit: Money = Money(())
    store_credit: StoreCredit = StoreCredit()
    next_credit: tuple[date, Money] | None = None
    hazards: tuple[Hazard, ...] = ()
    notice_due: Notice | None = None


@dataclass(frozen=True, slots=True)
class Delay:
    """An order that is due a notice: the models of its units that wait, and the reason for the delay as the records have it."""

    order: str
    locale: str
    models: tuple[str, ...]
    notice: Notice
    held_up: tuple[Shortage, ...] = ()
    hold: Hold | None = None


@dataclass(frozen=True, slots=True)
class RefundDue:
    """An order that is to be paid back by the rule of its notice, since when and why; what was paid for it, where known."""

    order: str
    rule: str
    since: date
    why: Literal["cancelled", "no consent"]
    source: str = ""
    amount: Money | None = None


class Addressee(NamedTuple):
    """Whom mail about an order is for, as contacts.csv has it; it reaches mail and nothing else."""

    name: str = ""
    email: str = ""


# ---------------------------------------------------------------- what was issued


class ToldWindow(NamedTuple):
    """What a bulletin on record told of one line of an order: its place in the queue, and the window of its boxing."""

    order: str
    line: str
    place: int
    window: Window


@dataclass(frozen=True, slots=True)
class WindowsTold:
    """The windows that a bulletin on record told, and the day they were told of."""

    as_of: date
    windows: tuple[ToldWindow, ...]


@dataclass(frozen=True, slots=True)
class Promised:
    """A promise that a bulletin on record made: a commitment, or a forecast with a date.

    `promise` is its name (`NAME.1`), `made` the day the bulletin went out, `as_of` that of its facts, `due` the day by which it
    is to be kept. `said` are the facts it was made of: their paths, and what they came to.
    """

    promise: str
    made: date
    as_of: date
    text: str
    due: date
    basis: Basis
    said: tuple[tuple[Path, Value], ...] = ()


@dataclass(frozen=True, slots=True)
class Issued:
    """A bulletin that went out, as the record keeps it: never changed again."""

    number: int
    name: str
    as_of: date
    published: str
    digest: str
    corrects: int | None = None
