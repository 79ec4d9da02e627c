"""The words of a promise as its readers saw them: the sentence around a claim, with the facts in it printed."""

from __future__ import annotations

from bulletin.draft.prose import prose_of
from bulletin.draft.sentences import sentences
from bulletin.formats.printing import Format
from bulletin.model import Bulletin, Claim


def sentence_of(bulletin: Bulletin, claim: Claim) -> str:
    """The sentence in which a claim or printed fact stands; its own words where it stands in none."""
    for block in prose_of(bulletin.draft):
        for stretch in block.stretches:
            if stretch.claim.start == claim.start:
                span = next(span for span in sentences(block.text, bulletin.draft.locale) if span.holds(stretch.start))
                printed = [other for other in block.stretches if other.claim.kind == "printed" and span.holds(other.start)]
                return _filled(bulletin, block.text, (span.start, span.end), [(one.start, one.end, one.claim) for one in printed])
    return claim.words


def _filled(bulletin: Bulletin, text: str, span: tuple[int, int], printed: list[tuple[int, int, Claim]]) -> str:
    """A stretch of text with its printed facts in their places."""
    style = Format(bulletin.draft.locale, bulletin.names)
    facts = {judged.claim.start: judged.facts[0] for judged in bulletin.verdict.judged if judged.facts}
    parts, at = [], span[0]
    for start, end, claim in sorted(printed, key=lambda one: one[0]):
        shown = style.print_fact(facts[claim.start], claim.filters).text if claim.start in facts else claim.words
        parts += [text[at:start], shown]
        at = end
    return " ".join("".join([*parts, text[at : span[1]]]).split())
