"""A shorter queue told as progress while cancellations explain it.

A queue gets shorter by what is boxed and by who gives up. Where it would not be shorter without those who cancelled, a sentence
that tells it as shorter, or a claim that compares `orders.waiting` with the one told last, stands beside how many cancelled
(`orders.gone_week` or another fact of those who gave up), in the same paragraph. Cancellations are those since the last bulletin
on record, or without one those of the week.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from bulletin.draft.expressions import Comparison, Reference, comparisons, spell
from bulletin.scrutiny.beside import known_fact
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.nearby import keys_beside

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.expressions import Expression
    from bulletin.draft.prose import Block
    from bulletin.model import Level
    from bulletin.scrutiny.case import Case

NAME = "queue-fell-by-cancelling"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = '"{words}" hides that the queue is shorter by cancellations: say beside it how many cancelled ({cancelled})'
ACCEPTED: tuple[str, ...] = (
    "[The queue is shorter]{orders.waiting < last.orders.waiting}, for {{ orders.gone_week }} of you cancelled.",
)
REJECTED: tuple[str, ...] = (
    "«[The queue is shorter]{orders.waiting < last.orders.waiting}».",
    "«[We are getting there]{orders.waiting < last.orders.waiting}».",
)
WAITING, LAST = "orders.waiting", "last.orders.waiting"


def check(case: Case) -> Iterator[Fault]:
    """Words and conditions that tell the queue as shorter, where it is so by cancellations that nobody tells of beside them."""
    if not fell_by_cancelling(case):
        return
    gone = known_fact(case, "orders.gone_week")
    cancelled = f"{gone.spelling} is {case.told(gone)}" if gone else "orders.gone_week"
    offer = f"{{{{ {gone.spelling} }}}}" if gone else ""
    for position, block in enumerate(case.blocks):
        if not _tells_cancelled(case, position):
            for at, words in _told_as_shorter(case, block):
                yield Fault(at, words, {"cancelled": cancelled}, offer, item=WAITING)


def fell_by_cancelling(case: Case) -> bool:
    """Whether the queue is shorter, and would not be without those who cancelled."""
    waiting, before = _number(case, WAITING), _number(case, LAST)
    cancelled, known = _number(case, "orders.cancelled"), _number(case, "last.orders.cancelled")
    if waiting is not None and before is not None and cancelled is not None and known is not None:
        return waiting < before <= waiting + cancelled - known
    placed, gone, boxed = (_number(case, name) for name in ("orders.placed_week", "orders.gone_week", "boxed.week"))
    if placed is None or gone is None or boxed is None:
        return False
    return placed - boxed - gone < 0 <= placed - boxed


def _number(case: Case, spelling: str) -> Fraction | None:
    found = known_fact(case, spelling)
    return Fraction(found.value) if found and isinstance(found.value, int) else None


def _tells_cancelled(case: Case, position: int) -> bool:
    """Whether the block, or a form in it, tells of those who cancelled."""
    keys = keys_beside(case, position)
    return any(key.startswith("orders.") and (".gone_" in key or key.endswith(".cancelled")) for key in keys)


def _told_as_shorter(case: Case, block: Block) -> Iterator[tuple[int, str]]:
    """Claims that compare the queue with what it was, and words that tell it as shorter."""
    claims = [stretch for stretch in block.stretches if stretch.claim.kind == "claim"]
    compared = [stretch for stretch in claims if _compares(stretch.claim.expression)]
    yield from ((stretch.claim.start, case.words_of(stretch.claim)) for stretch in compared)
    if case.language is None:
        return
    for found in case.language.classes["shorter_queue"].finditer(block.text):
        if not any(stretch.start < found.end() and found.start() < stretch.end for stretch in compared):
            yield block.origin(found.start()), found[0]


def _compares(expression: Expression | None) -> bool:
    parts = comparisons(expression) if expression else []
    return any({_spelled(part.left), _spelled(part.right)} == {WAITING, LAST} and _falls(part) for part in parts)


def _falls(part: Comparison) -> bool:
    """Whether a comparison says that fewer wait now."""
    now_first = _spelled(part.left) == WAITING
    return part.operator in (("<", "<=") if now_first else (">", ">="))


def _spelled(side: Expression) -> str:
    return spell(side.path) if isinstance(side, Reference) else ""
