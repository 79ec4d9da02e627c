"""What a rule is given and the form that it has: one module that is a manual page, its examples and one function.

The docstring of the module is its page in the manual, with the reason. A check says only what is wrong and where; the runner
adds the rule's name, its level and the place, and takes out what somebody answered for. In examples «» marks the words found.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import TYPE_CHECKING, Protocol

from bulletin.draft.evaluating import Outcome, evaluate
from bulletin.draft.language import Language, any_of, read_language
from bulletin.draft.prose import Block, prose_of
from bulletin.draft.visible import forms_of
from bulletin.formats.printing import Format
from bulletin.formats.told_days import Today
from bulletin.model import Private
from bulletin.scrutiny.attesting import Attested, attested_in, without_attested
from bulletin.scrutiny.known_names import KnownNames
from bulletin.scrutiny.loose import Loose, Scene, claiming_figures, loose_figures
from bulletin.scrutiny.nearest import Nearest
from bulletin.scrutiny.own_periods import is_carried
from bulletin.scrutiny.passages import Passage, passages_of
from bulletin.scrutiny.remarks import Remark, claimed_remarks, remarks_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from datetime import date, datetime

    from bulletin.draft.visible import Stretch
    from bulletin.formats.figures import Figure
    from bulletin.model import Claim, Concern, Draft, Fact, Facts, Level, Mention, Names, NoticesDue, Place, Waiver
    from bulletin.settings import Settings

NO_DETAILS: Mapping[str, str] = MappingProxyType({})
NOTHING_PRIVATE = Private()


@dataclass(frozen=True, slots=True)
class Fault:
    """What a check found: the offset in the draft's source, the words, what the sentence names, what to write instead.

    `at` is an offset, the place of a line on top of the draft, or None for what concerns the whole of it. `item` is what a
    waiver may name instead of the words; `waivable` is False where a waiver would leave a hole. `applies` as in `model.Problem`.
    """

    at: int | Place | None
    words: str = ""
    details: Mapping[str, str] = field(default_factory=lambda: NO_DETAILS)
    offer: str = ""
    item: str = ""
    waivable: bool = True
    applies: bool = False


@dataclass(frozen=True, slots=True)
class Run:
    """What a draft is judged with besides the facts: when it is published, by whose settings, with which names.

    `concerns` are what readers must hear, `mentions` what bulletins on record spoke of, `private` what nobody may read, `notices`
    those that nobody has sent. `original` is the draft that this one is a translation of.
    """

    published: datetime
    settings: Settings
    names: Names
    issuing: bool = False
    concerns: tuple[Concern, ...] = ()
    mentions: tuple[Mention, ...] = ()
    private: Private = NOTHING_PRIVATE
    notices: tuple[NoticesDue, ...] = ()
    original: Draft | None = None


@dataclass(frozen=True, slots=True)
class Unused:
    """A waiver that answers for no finding, why, and its line as it may have been meant."""

    waiver: Waiver
    why: str
    offer: str = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """A form held against the facts; the outcome is None for opinions and for conditions that could not be read."""

    claim: Claim
    outcome: Outcome | None

    @property
    def facts(self) -> tuple[Fact, ...]:
        """The facts it touches."""
        return self.outcome.facts if self.outcome else ()


@dataclass(frozen=True, eq=False)
class Case:
    """All that a rule may look at, each part worked out when a rule first asks for it.

    `unused` are the waivers that the findings of all other rules left over.
    """

    draft: Draft
    facts: Facts
    run: Run
    unused: tuple[Unused, ...] = ()

    @property
    def as_of(self) -> date:
        """The day the facts hold for."""
        return self.facts.as_of

    @cached_property
    def today(self) -> Today:
        """The day that words like "next week" count from."""
        return Today(self.as_of, self.run.settings.maker.week_start)

    @cached_property
    def language(self) -> Language | None:
        """The words of the draft's language, where there is a list."""
        return read_language(self.draft.locale)

    @cached_property
    def blocks(self) -> tuple[Block, ...]:
        """The prose, block by block."""
        return prose_of(self.draft)

    @cached_property
    def readings(self) -> tuple[Reading, ...]:
        """Every form with what it comes to, those inside the words of others too, in the order of the source."""
        forms = sorted(forms_of(self.draft), key=lambda form: (form.start, form.end))
        return tuple(Reading(form, self._outcome(form)) for form in forms)

    @cached_property
    def reading_of(self) -> Mapping[int, Reading]:
        """The readings by where their forms start."""
        return {reading.claim.start: reading for reading in self.readings}

    @cached_property
    def names(self) -> KnownNames:
        """The names that claim nothing, ready to be found in text; one in the settings that is a claiming word is none."""
        groups = self.language.claims if self.language else ()
        claiming = {name for name in self.run.settings.maker.names if any(group.words.fullmatch(name) for group in groups)}
        return KnownNames.of(self.run.names.plain - claiming)

    @cached_property
    def parts_called(self) -> Mapping[str, frozenset[str]]:
        """The parts by what names.csv calls them in any locale."""
        called: defaultdict[str, frozenset[str]] = defaultdict(frozenset)
        for (kind, part, *_), name in self.run.names.forms.items():
            if kind == "part":
                called[name] |= {part}
        return called

    @cached_property
    def passages(self) -> tuple[Passage, ...]:
        """Every clause of the prose with the forms in it."""
        return tuple(passages_of(self.blocks, self.draft.locale, self.language))

    @cached_property
    def scene(self) -> Scene:
        """What decides whether a figure is free."""
        products = any_of(name for (kind, *_), name in self.run.names.forms.items() if kind == "unit")
        return Scene(self.draft.locale, self.as_of, self.language, self.names, products)

    @cached_property
    def loose(self) -> tuple[Loose, ...]:
        """Figures and dates in prose that no form carries and nothing frees."""
        plain = [(block, without_attested(block, self.attested)) for block in self.blocks]
        found = (loose for block, text in plain for loose in loose_figures(block, text, self.scene))
        return tuple(loose for loose in found if not is_carried(self, loose))

    @cached_property
    def remarks(self) -> tuple[Remark, ...]:
        """Words in prose that claim something, which no form carries and nothing releases."""
        return tuple(remarks_of(self))

    @cached_property
    def claimed(self) -> Mapping[int, tuple[Remark, ...]]:
        """What the words of each claim would remark in plain prose, by where the claim starts."""
        return claimed_remarks(self)

    @cached_property
    def told_figures(self) -> Mapping[int, tuple[Figure, ...]]:
        """The figures that each claim tells, at offsets of its block, by where the claim starts.

        They are read with the words around the claim: "more than [41]{boxed.week}" tells another number than 41.
        """
        told: defaultdict[int, tuple[Figure, ...]] = defaultdict(tuple)
        for block in self.blocks:
            claims = [stretch for stretch in block.stretches if stretch.claim.kind == "claim"]
            figures = claiming_figures(block.text, self.scene) if claims else []
            for stretch in claims:
                told[stretch.claim.start] = tuple(f for f in figures if f.start < stretch.end and stretch.start < f.end)
        return told

    @cached_property
    def attested(self) -> tuple[Attested, ...]:
        """Sentences of the prose that a signed statement bears out, word for word."""
        return tuple(attested_in(self.blocks, self.draft.header.attested, self.as_of))

    @cached_property
    def format(self) -> Format:
        """How the draft's locale writes values."""
        return Format(self.draft.locale, self.run.names)

    @cached_property
    def nearest(self) -> Nearest:
        """What can be offered in place of a loose figure."""
        return Nearest(self.facts, self.language, self.today)

    @property
    def is_in_first_locale(self) -> bool:
        """Whether the draft is in the language of the tables' own texts: that in which drafts are written."""
        return self.draft.locale.split("-")[0] == self.run.settings.maker.locales[0].split("-")[0]

    def clause_at(self, block: Block, at: int) -> str:
        """The clause that a character of a block stands in."""
        found = (passage.near(at, at) for passage in self.passages if passage.block is block and passage.span.holds(at))
        start, end = next(found, (0, len(block.text)))
        return block.text[start:end]

    def told(self, fact: Fact) -> str:
        """A fact's value in the draft's own locale, as messages tell it."""
        return self.format.figure(fact)

    @cached_property
    def seen(self) -> Mapping[int, tuple[Block, Stretch]]:
        """Where each form lies in the visible text, by where it starts in the source."""
        return {stretch.claim.start: (block, stretch) for block in self.blocks for stretch in block.stretches}

    def words_of(self, form: Claim) -> str:
        """The words of a claim or opinion as a reader sees them."""
        block, stretch = self.seen.get(form.start, (None, None))
        return block.text[stretch.start : stretch.end] if block and stretch else form.words

    def _outcome(self, form: Claim) -> Outcome | None:
        return None if form.expression is None else evaluate(form.expression, self.facts.find)


class Rule(Protocol):
    """A module of `rules/`; its docstring is its page in the manual."""

    NAME: str
    """Named after the defect: it reads well after "waive ..."."""
    LEVEL: Level
    WAIVABLE: bool
    SENTENCE: str
    """What is wrong, with {words} and the details of its faults."""
    ACCEPTED: tuple[str, ...]
    REJECTED: tuple[str, ...]

    def check(self, case: Case) -> Iterator[Fault]:
        """Everything in a draft that the rule finds."""
