"""A safety defect spoken of after something else.

Whoever reads a letter to its third paragraph only must have read what to do now. So where a draft speaks of an open safety
defect, "stop using it" comes before anything pleasant: before other sections and the author's own views, and in a notice to the
owners before any other figure; a greeting and the lines under it may stand before it. Nobody can answer for another order. Ask
your authority's rules and a qualified person before anything of this is published: the program is no safety engineer.

Law, for example: Regulation (EU) 2023/988 Art. 36(2) lists what a recall notice tells; that it comes first is our rule.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.hearing import owners_of
from bulletin.scrutiny.safety import is_open, passings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.prose import Block
    from bulletin.model import Level
    from bulletin.scrutiny.case import Case
    from bulletin.scrutiny.safety import Passing

NAME = "safety-after-other-news"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = '"{words}" stands before what to do now about the safety defect {defect}: put "stop using it" first'
NOTICE = (
    'Stop using your loom: [the spring can snap]{defects["D-20"].state == "open"} and cut a hand. At least '
    '{{ defects["D-20"].affected }} looms have it so far; we replace it. Write to help@fennmoor.example.'
)
ACCEPTED: tuple[str, ...] = (
    f"Dear weavers,\n\nthis letter begins with the hardest part.\n\n{NOTICE}",
    f"## Springs\n\n{NOTICE}\n\n## At the bench\n\nWe boxed {{{{ boxed.week }}}} looms.",
)
REJECTED: tuple[str, ...] = (
    f"## At the bench\n\nWe boxed «{{{{ boxed.week }}}}» looms.\n\n## Springs\n\n{NOTICE}",
    f"«[It was a lovely week]{{opinion}}».\n\n{NOTICE}",
)


def check(case: Case) -> Iterator[Fault]:
    """The first block with a form in it that stands before what to do now, once a defect."""
    for passing in passings(case):
        told = _first_order(case, passing) if is_open(case, passing.defect) else None
        before = next((block for block in _before(case, told) if block.stretches), None) if told else None
        if before is not None:
            yield Fault(before.stretches[0].claim.start, _shortened(before.text), {"defect": passing.defect})


def _first_order(case: Case, passing: Passing) -> Block | None:
    """The first block of what is said of the defect that tells what to do now, in words or by its fact."""
    for block in passing.blocks:
        facts = (fact for stretch in block.stretches for fact in case.reading_of[stretch.claim.start].facts)
        if any(fact.key == f"defects.{passing.defect}.do_now" for fact in facts):
            return block
        if case.language is not None and case.language.has("stop_using", block.text):
            return block
    return None


def _before(case: Case, told: Block) -> list[Block]:
    """The blocks before one that are other news: other sections, own views, in a notice to owners whatever tells a fact."""
    at = next(at for at, block in enumerate(case.blocks) if block is told)
    head = next((position for position in range(at, -1, -1) if case.blocks[position].kind == "heading"), 0)
    first = next((position for position in range(head) if case.blocks[position].kind == "heading"), head)
    strict = 0 if owners_of(case.draft.header.readers) else first
    return [
        block
        for position, block in enumerate(case.blocks[:at])
        if block.kind != "title" and (strict <= position < head or _is_view(block))
    ]


def _is_view(block: Block) -> bool:
    return any(stretch.claim.kind == "opinion" for stretch in block.stretches)


def _shortened(text: str) -> str:
    return text if len(text) <= SHOWN else f"{text[:SHOWN]}\u2026"


SHOWN = 60
