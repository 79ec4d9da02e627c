"""Where a draft speaks of a safety defect: the sections whose forms touch one, or the whole of a notice to its owners."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bulletin.draft.expressions import parse_key
from bulletin.model import Fact, Step
from bulletin.scrutiny.hearing import owners_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bulletin.draft.prose import Block
    from bulletin.draft.visible import Stretch
    from bulletin.model import Value
    from bulletin.scrutiny.case import Case

OPEN = frozenset({"open", "contained"})


@dataclass(frozen=True, slots=True)
class Passing:
    """A defect and the blocks of a draft that speak of it; `stretches` are the forms that touch it."""

    defect: str
    blocks: tuple[Block, ...]
    stretches: tuple[Stretch, ...]

    @property
    def text(self) -> str:
        """What a reader sees of these blocks."""
        return "\n".join(block.text for block in self.blocks)

    def told(self, case: Case) -> frozenset[str]:
        """The names of the defect's facts that are spoken of."""
        facts = (fact for stretch in self.stretches for fact in case.reading_of[stretch.claim.start].facts)
        return frozenset(fact.key.rsplit(".", 1)[1] for fact in facts if defect_of(fact) == self.defect)


def passings(case: Case) -> list[Passing]:
    """Every safety defect that the draft speaks of, or whose owners it is written to, in the order of the text."""
    owned = owners_of(case.draft.header.readers)
    found: dict[str, tuple[list[Block], list[Stretch]]] = {}
    if owned and is_safety(case, owned):
        found[owned] = (list(case.blocks), [])
    for section in sections(case.blocks):
        for block in section:
            for stretch in block.stretches:
                for defect in sorted(_touched(case, stretch)):
                    blocks, stretches = found.setdefault(defect, ([], []))
                    blocks += [other for other in section if not any(other is known for known in blocks)]
                    stretches.append(stretch)
    return [Passing(defect, tuple(blocks), tuple(stretches)) for defect, (blocks, stretches) in found.items()]


def sections(blocks: Sequence[Block]) -> Iterator[list[Block]]:
    """Blocks under one heading, with it; the title stands alone."""
    section: list[Block] = []
    for block in blocks:
        if section and (block.kind == "heading" or section[0].kind == "title"):
            yield section
            section = []
        section.append(block)
    if section:
        yield section


def defect_of(fact: Fact) -> str:
    """The defect whose own fact this is; empty for any other, also for those of all defects."""
    steps = [step.text for step in parse_key(fact.key)]
    return steps[1] if steps[0] == "defects" and len(steps) > 2 else ""


def column_of(case: Case, defect: str, name: str) -> Value | None:
    """What the tables say of a defect under a name."""
    found = case.facts.find((Step("name", "defects"), Step("item", defect), Step("name", name)))
    return found.value if isinstance(found, Fact) else None


def is_safety(case: Case, defect: str) -> bool:
    """Whether a defect may harm somebody."""
    return column_of(case, defect, "severity") == "safety"


def is_open(case: Case, defect: str) -> bool:
    """Whether a defect is not put right yet."""
    return column_of(case, defect, "state") in OPEN


def _touched(case: Case, stretch: Stretch) -> set[str]:
    defects = {defect_of(fact) for fact in case.reading_of[stretch.claim.start].facts} - {""}
    return {defect for defect in defects if is_safety(case, defect)}
