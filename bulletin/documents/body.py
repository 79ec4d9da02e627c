"""From a bulletin's draft to safe HTML, plain text and Markdown.

Claims, printed facts and all figures are single placeholder characters while Markdown runs, so that nothing a table holds
is ever read as Markdown and Markdown never changes a figure ("1986. A year" is no list, 2*3*4 no emphasis). In the cleaned
HTML the placeholders give way to words and values with their marks.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import markdown
import nh3
from markupsafe import Markup, escape

from bulletin.documents.marks import mark_figures, mark_printed
from bulletin.documents.plain import plain_line, plain_text
from bulletin.documents.reader import Reader, reader_of
from bulletin.documents.spacing import join_lines, list_marks, part_lists
from bulletin.draft.expressions import spell

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from bulletin.model import Bulletin, Claim, Draft, Fact, Verdict

FIRST_PLACEHOLDER = 0xF0000
"""Supplementary private use area A: no keyboard types these, and to Markdown they are letters like others."""
PLACEHOLDER = re.compile("[\U000f0000-\U000ffffd]")
OPENS_A_LINE = re.compile(r"(?m)^([ >]*)([\U000f0000-\U000ffffd])([.)])")
ENTITY = re.compile(r"&#x?[0-9a-fA-F]+;")
SPECIAL = re.compile(r"([\\`*_\[\]<>|#~&])")
TAG = re.compile(r'(<(?:[^>"]|"[^"]*")*>)')
EXTENSIONS = ("sane_lists", "tables", "fenced_code")
ATTRIBUTES = {"a": {"href", "title"}, "img": {"src", "alt", "title"}, "ol": {"start"}, "data": {"value"}, "time": {"datetime"}}
SCHEMES = {"https", "mailto", "cid"}

Spans = list[tuple[int, int, "Filling"]]


@dataclass(frozen=True, slots=True)
class Filling:
    """What a placeholder stands for: marked HTML, and the same written in Markdown."""

    html: Markup
    markdown: str


@dataclass(frozen=True, slots=True)
class Body:
    """A draft put into its forms; `title` is plain text, `title_html` the same with its figures marked."""

    title: str
    title_html: Markup
    html: Markup
    text: str
    markdown: str


@dataclass(frozen=True, slots=True)
class Held:
    """A piece of Markdown with placeholders in it, and what they stand for."""

    text: str
    fillings: Mapping[str, Filling] = field(default_factory=dict)

    def html(self) -> Markup:
        """Safe HTML of its blocks."""
        html = nh3.clean(
            markdown.markdown(part_lists(join_lines(self.text)), extensions=list(EXTENSIONS)),
            attributes=ATTRIBUTES,
            url_schemes=SCHEMES,
            link_rel=None,
        )
        return Markup("".join(self._filled(part) for part in TAG.split(html)))

    def inline(self) -> Markup:
        """Safe HTML of words that stand within a line: whatever they begin with opens no block."""
        guard = chr(FIRST_PLACEHOLDER + len(self.fillings))
        guarded = Held(guard + " ".join(self.text.split()), {**self.fillings, guard: Filling(Markup(), "")})
        html = guarded.html()
        return Markup(html.removeprefix("<p>").removesuffix("</p>"))

    def markdown(self) -> str:
        """Markdown that another renderer reads as ours does: a figure that opens a line starts no list there either."""
        text = OPENS_A_LINE.sub(self._unlisted, part_lists(self.text))
        return PLACEHOLDER.sub(lambda found: self.fillings[found[0]].markdown, text)

    def _unlisted(self, found: re.Match[str]) -> str:
        escaped = "\\" if self.fillings[found[2]].markdown.isdecimal() else ""
        return found[1] + found[2] + escaped + found[3]

    def _filled(self, part: str) -> str:
        if part.startswith("<"):
            return PLACEHOLDER.sub(lambda found: str(escape(self.fillings[found[0]].html.striptags())), part)
        return PLACEHOLDER.sub(lambda found: str(self.fillings[found[0]].html), part)


def render(bulletin: Bulletin) -> Body:
    """The title and body of a bulletin in HTML, plain text and Markdown, in the locale of its draft."""
    reader, draft = reader_of(bulletin), bulletin.draft
    title = _held_part(bulletin, reader, _title_span(draft)).inline()
    body = _held_part(bulletin, reader, (draft.body_start, len(draft.source)))
    html = body.html()
    return Body(plain_line(title), title, html, plain_text(html), body.markdown().strip() + "\n")


def render_claim(claim: Claim, bulletin: Bulletin, reader: Reader) -> Markup:
    """The words of one claim, or the value of one printed fact, as they stand in the documents."""
    return _filling(claim, bulletin, reader).html


def printed_fact(claim: Claim, verdict: Verdict) -> Fact:
    """The fact that a printed form shows. A verdict that passed holds it; anything else is a bug."""
    own = next((judged.facts for judged in verdict.judged if judged.claim == claim and judged.facts), ())
    if own:
        return own[0]
    spelling = spell(claim.expression.path)
    return next(fact for judged in verdict.judged for fact in judged.facts if fact.spelling == spelling)


def _title_span(draft: Draft) -> tuple[int, int]:
    place = draft.header.title_place
    lines = draft.source.split("\n")[: place.line]
    start = sum(len(line) + 1 for line in lines[:-1]) + place.column - 1
    return start, start + len(draft.header.title)


def _held_part(bulletin: Bulletin, reader: Reader, part: tuple[int, int]) -> Held:
    """A part of the draft with its claims, printed facts and figures held back, its notes dropped."""
    draft, (start, end) = bulletin.draft, part
    spans: Spans = [(note_start, note_end, Filling(Markup(), "")) for note_start, note_end in draft.notes]
    spans += [(claim.start, claim.end, _filling(claim, bulletin, reader)) for claim in draft.claims]
    inside = sorted((at - start, to - start, filling) for at, to, filling in spans if start <= at and to <= end)
    return _hold(draft.source[start:end], inside, reader)


def _filling(claim: Claim, bulletin: Bulletin, reader: Reader) -> Filling:
    if claim.kind == "printed":
        printed = reader.format.print_fact(printed_fact(claim, bulletin.verdict), claim.filters)
        return Filling(mark_printed(printed, reader), SPECIAL.sub(r"\\\1", printed.text))
    source, start = bulletin.draft.source, claim.words_start
    inside: Spans = [(form.start - start, form.end - start, _filling(form, bulletin, reader)) for form in claim.inside]
    facts = [fact for judged in bulletin.verdict.judged if judged.claim == claim for fact in judged.facts]
    held = _hold(source[start : claim.words_end], inside, reader, facts)
    return Filling(held.inline(), held.markdown())


def _hold(text: str, spans: Spans, reader: Reader, facts: Sequence[Fact] = ()) -> Held:
    """Put a placeholder for every span, and for every figure outside of them.

    An author's text can't hold placeholders of its own: characters of that area become the mark of an unknown one.
    """
    clean = PLACEHOLDER.sub("\N{REPLACEMENT CHARACTER}", text)
    forms = [(start, end) for start, end, _ in spans]
    taken = [*list_marks(clean), *(found.span() for found in ENTITY.finditer(clean)), *forms]
    figures = [
        (start, end, Filling(html, clean[start:end]))
        for start, end, html in mark_figures(_blanked(clean, forms), reader, facts)
        if not any(start < other_end and other_start < end for other_start, other_end in taken)
    ]
    return _spliced(clean, sorted([*spans, *figures], key=lambda span: span[:2]))


def _blanked(text: str, spans: Iterable[tuple[int, int]]) -> str:
    for start, end in spans:
        text = text[:start] + "\N{OBJECT REPLACEMENT CHARACTER}" * (end - start) + text[end:]
    return text


def _spliced(text: str, spans: Spans) -> Held:
    """The same filling gets the same placeholder, so that what is alike in the source stays alike; an empty one gets none."""
    placeholders: dict[Filling, str] = {}
    pieces, at = [], 0
    for start, end, filling in spans:
        new = chr(FIRST_PLACEHOLDER + len(placeholders))
        pieces += [text[at:start], placeholders.setdefault(filling, new) if filling.html else ""]
        at = end
    return Held("".join([*pieces, text[at:]]), {placeholder: filling for filling, placeholder in placeholders.items()})
