"""Facts that bear remarks out: a form in the same clause, or in cells and items under a head, that touches what they tell.

"{{ orders.waiting }} looms are not sent, {{ orders.shipped }} are": whether such a fact fits its words is for other rules to
judge (fact-beside-words, words-stronger-than-basis), so that its state is not called for a second time.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from bulletin.scrutiny.meaning import meaning_of, name_of
from bulletin.scrutiny.releases import head_of
from bulletin.scrutiny.subjects import SETTLING, TEXTUAL, speaks, spoken_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bulletin.draft.language import ClaimWords, Language
    from bulletin.draft.prose import Block
    from bulletin.draft.sentences import Span
    from bulletin.draft.visible import Stretch
    from bulletin.model import Fact
    from bulletin.scrutiny.case import Case
    from bulletin.scrutiny.passages import Passage


def is_borne(case: Case, block: Block, span: Span, group: ClaimWords) -> bool:
    """Whether a fact stands where it bears such words out, or will once another finding of the clause is mended."""
    passages = [passage for passage in case.passages if passage.block is block]
    at = next((at for at, passage in enumerate(passages) if passage.span.holds(span.start)), None)
    if at is None:
        return False
    around = passages[at]
    stretches = [*around.stretches, *_under(case, block), *_in_brackets(passages[at + 1 : at + 2], block)]
    if at and passages[at - 1].sentence == around.sentence and _goes_on(case, block, around.span):
        stretches += passages[at - 1].stretches
    told = Spoken(block.text[span.start : span.end], block.text[around.span.start : around.span.end])
    if any(_bears(case, fact, group, told) for fact in _facts(case, stretches)) or _is_a_count_to_mend(case, around, span):
        return True
    words = block.text[around.sentence.start : around.sentence.end]
    within = [stretch for stretch in block.stretches if around.sentence.holds(stretch.start)]
    if case.language is not None and case.language.has("expecting", words if group.kind == "state" else told.words):
        foretold = any(meaning_of(fact).family == "forecast" for fact in _facts(case, within))
        return (foretold and group.kind == "state") or any(can_bear(fact, group) for fact in _facts(case, within))
    return group.kind == "comparison" and case.language is not None and _compares(case, within, words, case.language)


class Spoken(NamedTuple):
    """Claiming words and the clause around them."""

    words: str
    clause: str


def _bears(case: Case, fact: Fact, group: ClaimWords, told: Spoken) -> bool:
    """Whether a fact may bear words out, and is about what they and their clause speak of."""
    if not can_bear(fact, group) or case.language is None:
        return False
    meaning = meaning_of(fact)
    state = case.language.states.get(meaning.state)
    if group.kind != "state" or meaning.family in TEXTUAL or (state is not None and state.search(told.words)):
        return True
    if case.language.has("settled", told.words) and not SETTLING & {meaning.family, name_of(fact)}:
        return False
    spoken = [subject for subject in spoken_of(told.clause, case.language) if subject != "about_delivery"]
    return not spoken or any(speaks(fact, subject) for subject in spoken)


def _in_brackets(following: list[Passage], block: Block) -> tuple[Stretch, ...]:
    """The forms of a clause in brackets that follows: "fewer looms ({{ boxed.week }})"."""
    return next((passage.stretches for passage in following if block.text[passage.span.start] == "("), ())


def _goes_on(case: Case, block: Block, clause: Span) -> bool:
    """Whether a clause begins with its verb, so that the fact in the one before is its subject."""
    if case.language is None:
        return False
    text = block.text[clause.start : clause.end]
    return case.language.releases["continuations"].match(text, head_of(text, case.language)) is not None


def _is_a_count_to_mend(case: Case, around: Passage, span: Span) -> bool:
    """Whether the words are of a state that facts count, beside a typed figure or a fact that is not there."""
    language, block = case.language, around.block
    words = block.text[span.start : span.end]
    if language is None or not any(state.search(words) for state in language.states.values()):
        return False
    typed = any(loose.block is block and around.span.holds(loose.figure.start) and not loose.is_date for loose in case.loose)
    forms = (stretch.claim for stretch in around.stretches if stretch.claim.kind != "opinion")
    return typed or any(not case.reading_of[form.start].facts for form in forms)


def _facts(case: Case, stretches: Iterable[Stretch]) -> list[Fact]:
    return [fact for stretch in stretches for fact in case.reading_of[stretch.claim.start].facts]


def _under(case: Case, block: Block) -> list[Stretch]:
    """The forms in cells and items that take this block along as their head."""
    return [stretch for other in case.blocks if other.heads and block.text in other.heads for stretch in other.stretches]


def can_bear(fact: Fact, group: ClaimWords) -> bool:
    """Whether a fact is of a family, of a key, of a name (`moved`) or of a kind of name (`best_`) that the words may lean on."""
    key = fact.key.removeprefix("last.")
    last = key.rsplit(".", 1)[-1]
    starts = (entry for entry in group.borne_by if entry.endswith("_"))
    if last in group.borne_by or last.startswith(tuple(starts)):
        return True
    return any(key == entry or key.startswith(f"{entry}.") for entry in group.borne_by)


def _compares(case: Case, stretches: list[Stretch], words: str, language: Language) -> bool:
    """Whether two printed numbers of the sentence stand in the order that its words tell."""
    printed = [stretch for stretch in stretches if stretch.claim.kind == "printed"]
    values = [fact.value for fact in _facts(case, printed) if isinstance(fact.value, int | Fraction)]
    if len(values) != 2 or language.has("fewer", words) == language.has("more", words):
        return False
    return values[0] < values[1] if language.has("fewer", words) else values[0] > values[1]
