"""Calming words about a safety defect.

"Purely as a precaution", "in rare cases", "nobody was hurt": a reader who is calmed keeps using what may harm. Beside a safety
defect such words stop a draft whatever they are about: in a notice to the owners, in every section that speaks of the defect,
and in each sentence about safety or the part while a safety defect is open. Claims, opinions and signed statements are
held to it too, and nobody can answer for it. What can happen and what to do now is said instead.

Law: Regulation (EU) 2023/988 Art. 36(2) forbids a recall notice words that lower the perception of risk, such as "voluntary",
"precautionary", "discretionary", "in rare situations", "in specific situations", or that no accidents were reported. That list is
put together from several copies of the text; further words, and the words in other languages than English, are ours. Ask a
qualified person before anything is published.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.sentences import Span, sentences
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.safety import column_of, is_open, passings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.language import Language
    from bulletin.draft.prose import Block
    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "soft-safety-words"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = '"{words}" makes less of a safety defect: say what can happen and what to do now, and leave it out'
NOTICE = (
    'Stop using your loom: [the spring can snap]{defects["D-20"].state == "open"} and cut a hand. At least '
    '{{ defects["D-20"].affected }} looms have it so far; we replace it. Write to help@fennmoor.example.'
)
ACCEPTED: tuple[str, ...] = (
    NOTICE,
    f"{NOTICE} This is not a precaution.",
    f"## Springs\n\n{NOTICE}\n\n## Tea\n\nIt rarely rains.",
)
REJECTED: tuple[str, ...] = (
    f"{NOTICE} This is purely «precautionary».",
    f"{NOTICE} «Nobody was hurt».",
    f"{NOTICE} [It happens «rarely»]{{opinion}}.",
    f"{NOTICE}\n\n## Tea\n\nThe recall is «voluntary».",
)
NEAR = 3
"""Words before a calming word in which a denial turns it around ("this is not a precaution")."""


def check(case: Case) -> Iterator[Fault]:
    """Calming words in what the draft says of safety defects."""
    language = case.language
    if language is None:
        return
    spoken = passings(case)
    beside = [block for passing in spoken for block in passing.blocks]
    known = {concern.item for concern in case.run.concerns if concern.kind == "safety defect"}
    opened = sorted(known | {passing.defect for passing in spoken if is_open(case, passing.defect)})
    for block in case.blocks:
        whole = any(block is other for other in beside)
        for sentence in sentences(block.text, case.draft.locale):
            if whole or (opened and _is_about_safety(case, block.text[sentence.start : sentence.end], opened)):
                yield from _calming(block, sentence, language)


def _is_about_safety(case: Case, sentence: str, opened: list[str]) -> bool:
    """Whether a sentence has a word of safety in it, or names the part of an open safety defect."""
    parts = (("part", str(column_of(case, defect, "part") or "")) for defect in opened)
    names = [case.run.names.find(part, case.draft.locale, "one") for part in parts if part[1]]
    named = any(name and name.casefold() in sentence.casefold() for name in names)
    return named or (case.language is not None and case.language.has("safety_topic", sentence))


def _calming(block: Block, sentence: Span, language: Language) -> Iterator[Fault]:
    for found in language.classes["calming"].finditer(block.text, *sentence):
        before = " ".join(block.text[sentence.start : found.start()].split()[-NEAR:])
        if not language.releases["denials"].search(before):
            yield Fault(block.origin(found.start()), found[0])
