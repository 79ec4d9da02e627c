"""A private detail in what the public reads.

A letter goes to everybody and stays on the web. It names no order and no unit of a customer, no customer, and nobody's e-mail
address or telephone number: in the title, the prose, texts of pictures or targets of links, nor does it print what one order has
earned or expects. What the tables know is found by its exact words, people by their full names; addresses and telephone numbers
also by their shape. The maker's own may stand (the contact of the settings and its domain, what the settings' `names` list, a
number beside "call us"), and so may a range of serials in a notice of a safety defect. Messages show of what was found its first
letter alone. Nobody can answer for another's privacy, so that this rule can't be waived.
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TYPE_CHECKING

from bulletin.draft.expressions import references
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.links import targets
from bulletin.scrutiny.privacy import ROLES, Detail, addresses_in, details_in, mask
from bulletin.scrutiny.safety import passings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.prose import Block
    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "private-detail"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = "{words} is a private detail ({kind}), and everybody can read this"
ACCEPTED: tuple[str, ...] = (
    "Write to help@fennmoor.example.",
    "The waiting list is long.",
    'Stop weaving on H8-101 to H8-180: [the spring can snap]{defects["D-20"].state == "open"} and cut a hand. At least '
    '{{ defects["D-20"].affected }} so far; we replace it. Write to help@fennmoor.example.',
)
REJECTED: tuple[str, ...] = (
    "A word to the owner of order «F-1001».",
    "The loom «H8-101» came back.",
    "Thank you, «Edda Kirschlauer»!",
    "Ask [a weaver](mailto:«edda@post.example»).",
    "Ring her: «+43 660 1234567».",
    'One of you has earned {{ «credits.so_far["F-1001"]» }}.',
)
OF_ONE_ORDER = {("credits", "so_far"), ("credits", "next"), ("forecast", "order"), ("forecast", "arrive")}
NEAR = 60


def check(case: Case) -> Iterator[Fault]:
    """Details in the visible text and in the targets of links, and facts of single orders."""
    in_notice = [block for passing in passings(case) for block in passing.blocks]
    for block in case.blocks:
        ranges = _ranges(case, block) if any(block is other for other in in_notice) else []
        for detail in _details(case, block.text):
            if not any(start <= detail.start and detail.end <= end for start, end in ranges):
                yield _fault(block.origin(detail.start), block.text, detail)
    for target in targets(case.draft):
        yield from (_fault(target.at + detail.start, target.text, detail) for detail in _details(case, target.text))
    yield from _single_orders(case)


def _details(case: Case, text: str) -> Iterator[Detail]:
    yield from details_in(text, case.run.private, case.language)
    yield from (detail for detail in addresses_in(text) if not _is_free(case, text, detail))


def _is_free(case: Case, text: str, detail: Detail) -> bool:
    """Whether an address is the maker's own, or nobody's."""
    words, maker = text[detail.start : detail.end].lower().rstrip("."), case.run.settings.maker
    if words in maker.contact.lower() or words in (name.lower() for name in maker.names):
        return True
    if detail.kind == "telephone":
        around = text[max(0, detail.start - NEAR) : detail.end + NEAR]
        return case.language is not None and case.language.has("own_lines", around)
    local, domain = words.split("@")
    known = words in case.run.private.emails
    return not known and (domain == maker.contact.lower().split("@")[-1] or local.split(".")[0].split("-")[0] in ROLES)


def _ranges(case: Case, block: Block) -> list[tuple[int, int]]:
    """From the first serial to the last one, where a word or dash between them says so."""
    serials = [detail for detail in details_in(block.text, case.run.private, case.language) if detail.kind == "serial"]
    return [
        (first.start, last.end)
        for first, last in pairwise(serials)
        if _joins(case, block.text[first.end : last.start].strip())
    ]


def _joins(case: Case, between: str) -> bool:
    word = case.language.classes["range_words"].fullmatch(between) if case.language else None
    return word is not None or re.fullmatch(r"[-\u2013\u2014\u301c\uff5e~]|\.\.\.|\u2026", between) is not None


def _fault(at: int, text: str, detail: Detail) -> Fault:
    return Fault(at, mask(text[detail.start : detail.end]), {"kind": detail.kind})


def _single_orders(case: Case) -> Iterator[Fault]:
    for reading in case.readings:
        for reference in references(reading.claim.expression) if reading.outcome else ():
            names = tuple(step.text for step in reference.path[:2])
            if names in OF_ONE_ORDER and len(reference.path) > 2:
                yield Fault(reference.start, ".".join(names), {"kind": "fact of one order"})
