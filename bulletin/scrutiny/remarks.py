"""Remarks: words in prose that claim something of the business, each kind for the rule that holds it.

A claim word counts wherever it stands, unless its clause is visibly about something else (releases.py): asking for a word of the
business first would let through what every other maker makes. Figures and dates are found elsewhere (loose.py).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from bulletin.draft.sentences import Span, clause_parts, sentences
from bulletin.draft.visible import FORM
from bulletin.scrutiny.attesting import without_attested
from bulletin.scrutiny.bearing import is_borne
from bulletin.scrutiny.free import free_names
from bulletin.scrutiny.quotations import is_question, tag_of, without_quotations
from bulletin.scrutiny.releases import Clause, is_about_else, is_released

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from bulletin.draft.language import ClaimWords, Language
    from bulletin.draft.prose import Block
    from bulletin.draft.visible import Stretch
    from bulletin.scrutiny.case import Case

CALLED_FOR = frozenset({"comparison", "future", "excellence", "vague-time"})
"""Kinds of remarks that call for a condition of their own kind when a claim makes them."""
LONGEST_ANSWER = 24
"""The longest answer, in characters, that goes with the question before it ("More coffee? Always.")."""
COLON = re.compile(r":(?=\s)|[\uff1a]")
MASK = "\N{MIDDLE DOT}"
"""Stands for the letters of an idiom, which mean nothing of what they say."""


@dataclass(frozen=True, slots=True)
class Remark:
    """Claiming words, where they stand in a block, and what kind of claim they make."""

    block: Block
    span: Span
    group: ClaimWords

    @property
    def words(self) -> str:
        """The words as a reader sees them."""
        return self.block.text[self.span.start : self.span.end]

    @property
    def at(self) -> int:
        """Their offset in the draft's source."""
        return self.block.origin(self.span.start)


def remarks_of(case: Case) -> list[Remark]:
    """All remarks in a draft's prose that nothing releases, bears out or signs for; none without word lists."""
    language = case.language
    if language is None:
        return []
    plain = [(block, without_attested(block, case.attested)) for block in case.blocks]
    return [remark for block, text in plain for remark in remarks_in(case, block, text)]


def remarks_in(case: Case, block: Block, text: str) -> Iterator[Remark]:
    """The remarks of a text as long as the block's, parts of which may be blotted out, without those that a fact bears out."""
    yield from _longest([told for told in _told_in(case, block, text) if not is_borne(case, block, told.span, told.group)])


def claimed_remarks(case: Case) -> Mapping[int, tuple[Remark, ...]]:
    """What the words of claims would remark in plain prose and a condition has to carry, by where the claim starts."""
    found: dict[int, tuple[Remark, ...]] = {}
    for block in case.blocks:
        claims = [stretch for stretch in block.stretches if stretch.claim.kind == "claim"]
        if claims:
            found |= remarks_within(case, block, claims, CALLED_FOR)
    return found


def remarks_within(
    case: Case, block: Block, claims: Sequence[Stretch], kinds: frozenset[str]
) -> dict[int, tuple[Remark, ...]]:
    """What the words of some claims of a block would remark of some kinds, by where the claim starts."""
    told = list(_longest(list(_told_in(case, block, block.text, Within(claims, kinds)))))
    return {
        form.claim.start: tuple(remark for remark in told if remark.span.start < form.end and form.start < remark.span.end)
        for form in claims
    }


class Within(NamedTuple):
    """Claims whose sentences are looked at, and the kinds of remarks that are looked for."""

    claims: Sequence[Stretch]
    kinds: frozenset[str]


def _told_in(case: Case, block: Block, text: str, within: Within | None = None) -> Iterator[Remark]:
    """Claiming words of a text that nothing releases, those that overlap too."""
    language = case.language
    if language is None:
        return
    spoken = without_idioms(without_quotations(free_names(text, case.names), language), language)
    asked = ""
    for sentence in sentences(block.text, case.draft.locale):
        told = spoken[sentence.start : sentence.end]
        if len(told) <= LONGEST_ANSWER and asked and is_about_else(asked, language):
            continue
        asked = told if is_question(told, language) else ""
        if asked:
            tag = tag_of(told, language)
            told = told[: tag or 0]
        presumed = language.classes["presuming"].match(told)
        told = FORM * presumed.end() + told[presumed.end() :] if presumed else told
        asked_for = within is None or any(sentence.start < form.end and form.start < sentence.end for form in within.claims)
        if told.strip() and asked_for:
            groups = [group for group in language.claims if within is None or group.kind in within.kinds]
            yield from _in_sentence(case, block, Span(sentence.start, sentence.start + len(told)), Said(told, groups))
            yield from _answers(case, block, sentence.start, Said(told, groups))


class Said(NamedTuple):
    """What a sentence tells, and the groups of claiming words that are looked for in it."""

    told: str
    groups: Sequence[ClaimWords]


def _answers(case: Case, block: Block, start: int, said: Said) -> Iterator[Remark]:
    """What a word or two behind a colon say by themselves ("The pawl: solved")."""
    for colon in COLON.finditer(said.told):
        answer = said.told[colon.end() :]
        if 0 < len(answer.strip()) <= LONGEST_ANSWER:
            span = Span(start + colon.end(), start + len(said.told))
            yield from _in_sentence(case, block, span, said._replace(told=answer))


def without_idioms(text: str, language: Language) -> str:
    """The text with what never claims anything masked, as long as before."""
    return language.idioms.sub(lambda idiom: MASK * len(idiom[0]), text)


def _in_sentence(case: Case, block: Block, sentence: Span, said: Said) -> Iterator[Remark]:
    language, told = case.language, said.told
    if language is None:
        return
    parts: Sequence[Clause] | None = None
    for group in said.groups:
        if group.where and block.kind not in group.where:
            continue
        for match in group.words.finditer(told):
            if parts is None:
                parts = Clause.all_of(told, _clauses(told, language), language)
            span = Span(sentence.start + match.start(), sentence.start + match.end())
            clause = next(part for part in parts if part.span.holds(match.start()) or part is parts[-1])
            if match[0] and not is_released(group, clause, language):
                yield Remark(block, span, group)


def _clauses(sentence: str, language: Language) -> list[Span]:
    """The clauses of a sentence, what a colon announces apart from what stands before it."""
    parts = clause_parts(sentence, Span(0, len(sentence)), language)
    return [Span(start, end) for part in parts for start, end in _around_colons(sentence, part)]


def _around_colons(sentence: str, part: Span) -> Iterator[tuple[int, int]]:
    at = part.start
    for colon in COLON.finditer(sentence, *part):
        yield at, colon.end()
        at = colon.end()
    if at < part.end:
        yield at, part.end


def _longest(found: list[Remark]) -> Iterator[Remark]:
    """Of remarks of one block and one kind that overlap only the longest."""
    kept: list[Remark] = []
    for remark in sorted(found, key=lambda remark: (remark.span.start - remark.span.end, remark.span)):
        beside = (other for other in kept if other.group.kind == remark.group.kind)
        if all(remark.span.end <= other.span.start or other.span.end <= remark.span.start for other in beside):
            kept.append(remark)
    yield from sorted(kept, key=lambda remark: remark.span)
