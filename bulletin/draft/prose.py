"""The prose of a draft: what a reader sees, block by block, with the words of claims told apart from what nobody vouches for.

Title, headings, items, cells, texts of links and pictures and their tips are prose like the rest. Every character knows the
offset it came from, so that whatever is found in it has its line and column.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from bulletin.draft.blocks import Kind, Piece, Splitter, shape_of
from bulletin.draft.visible import FORM, Markup, Stretch, fold_lookalikes

if TYPE_CHECKING:
    from bulletin.model import Draft


@dataclass(frozen=True)
class Block:
    """One block as a reader sees it; printed facts are one U+FFFC each. `origins` hold an offset in the source a character.

    `heads` are the words over it that a reader takes along: of a cell its row's and its column's head, of an item the line with a
    colon before the list.
    """

    kind: Kind
    text: str
    origins: tuple[int, ...]
    stretches: tuple[Stretch, ...] = ()
    heads: str = ""

    @cached_property
    def plain(self) -> str:
        """The text with the words of claims and opinions blotted out, as long as before."""
        return self._without(tuple(stretch for stretch in self.stretches))

    def opinion(self, stretch: Stretch) -> str:
        """The text with everything blotted out but one stretch, printed facts inside it too."""
        inside = tuple(other for other in self.stretches if other.claim.kind == "printed")
        kept = self._without(inside)
        return FORM * stretch.start + kept[stretch.start : stretch.end] + FORM * (len(kept) - stretch.end)

    def origin(self, at: int) -> int:
        """The offset in the source of a character; behind the last one, that of the end."""
        return self.origins[at] if at < len(self.origins) else self.origins[-1] + 1

    def _without(self, stretches: tuple[Stretch, ...]) -> str:
        parts, at = [], 0
        for stretch in sorted(stretches, key=lambda stretch: (stretch.start, -stretch.end)):
            if stretch.start >= at:
                parts += [self.text[at : stretch.start], FORM * (stretch.end - stretch.start)]
                at = stretch.end
        return "".join([*parts, self.text[at:]])


def prose_of(draft: Draft) -> tuple[Block, ...]:
    """All prose of a draft in the order of the source, its title first."""
    splitter = Splitter(shape_of(draft))
    pieces = [*_title(draft), *splitter.split(draft.body_start)]
    markup = Markup.of(draft, frozenset(splitter.labels))
    blocks: list[Block] = []
    lead = ""
    while pieces:
        piece = pieces.pop(0)
        sight = markup.see(piece.start, piece.end)
        lead = "".join(sight.characters) if piece.kind in ("paragraph", "heading") else lead
        heads = lead if piece.kind == "item" and lead.rstrip().endswith(":") else _heads(markup, piece)
        pieces[:0] = [Piece("picture" if kind == "picture" else "tip", start, end) for kind, start, end in sight.asides]
        if sight.characters:
            text = fold_lookalikes("".join(sight.characters))
            blocks.append(Block(piece.kind, text, tuple(sight.origins), tuple(sight.stretches), heads))
    return tuple(sorted(blocks, key=lambda block: (block.kind != "title", block.origins[0])))


def _heads(markup: Markup, piece: Piece) -> str:
    return " ".join("".join(markup.see(*head).characters) for head in piece.heads)


def _title(draft: Draft) -> list[Piece]:
    place = draft.header.title_place
    if not draft.header.title:
        return []
    start = 0
    for _ in range(place.line - 1):
        start = draft.source.index("\n", start) + 1
    start += place.column - 1
    return [Piece("title", start, start + len(draft.header.title))]
