"""What stands beside a form: the facts that its own block and the blocks next to it touch."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.prose import Block
    from bulletin.draft.visible import Stretch
    from bulletin.model import Claim, Fact
    from bulletin.scrutiny.case import Case


def forms_with_blocks(case: Case) -> Iterator[tuple[int, Block, Stretch, tuple[Fact, ...]]]:
    """Every form that touches facts, with the position of its block."""
    for position, block in enumerate(case.blocks):
        for stretch in block.stretches:
            facts = case.reading_of[stretch.claim.start].facts
            if facts:
                yield position, block, stretch, facts


def keys_beside(case: Case, position: int, reach: int = 0) -> frozenset[str]:
    """The keys of all facts that the block touches, and those up to so many blocks away."""
    blocks = case.blocks[max(0, position - reach) : position + reach + 1]
    stretches = (stretch for block in blocks for stretch in block.stretches)
    return frozenset(fact.key for stretch in stretches for fact in case.reading_of[stretch.claim.start].facts)


def text_around(case: Case, claim: Claim) -> str:
    """What readers have before them with a claim: the heading of its section and all down to the end of its own block."""
    seen = case.seen.get(claim.start)
    if seen is None:
        return claim.words
    own, told = seen[0], ""
    for block in case.blocks:
        told = f"{block.text}" if block.kind == "heading" else f"{told}\n{block.heads} {block.text}"
        if block is own:
            break
    return told
