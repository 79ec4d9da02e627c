"""A result of an inspection without the number that was checked.

"None failed" of three is another thing than of three hundred, and a share alone hides which. Wherever a draft tells how many
failed, a share, a limit or a verdict of an inspection, it tells in the same paragraph how many were checked, by
`inspections[...].checked`. Where two inspections are compared, it tells the number of both.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.expressions import parse_key
from bulletin.keys import quote
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.nearby import forms_with_blocks, keys_beside

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Fact, Level
    from bulletin.scrutiny.case import Case

NAME = "sample-size-missing"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = "a result of inspection {words} is told without the number checked, which stands in {fact}"
ACCEPTED: tuple[str, ...] = (
    'Of {{ inspections["I-5"].checked }} beams in the sample {{ inspections["I-5"].failed }} failed.',
    '[None of the 40 we tested cracked]{inspections["I-5"].failed == 0 and inspections["I-5"].checked == 40}.',
)
REJECTED: tuple[str, ...] = (
    'Of the beams in the sample «{{ inspections["I-5"].failed }}» failed.',
    '[«None that we tested cracked»]{inspections["I-5"].failed == 0}.',
)
RESULTS = frozenset({"failed", "share", "upper", "accepted", "better_than"})


def check(case: Case) -> Iterator[Fault]:
    """Forms that tell a result, each inspection in them whose number is not beside."""
    for position, _, stretch, facts in forms_with_blocks(case):
        beside = [parse_key(key) for key in keys_beside(case, position)]
        counted = {path[1].text for path in beside if path[0].text == "inspections" and path[-1].text == "checked"}
        for inspection in sorted({inspection for fact in facts for inspection in inspections_of(fact)} - counted):
            claim = stretch.claim
            at = claim.words_start if claim.kind == "claim" else claim.start
            fact = f"inspections[{quote(inspection)}].checked"
            yield Fault(at, inspection, {"fact": fact}, f"{{{{ {fact} }}}}", item=inspection)


def inspections_of(fact: Fact) -> set[str]:
    """The inspections whose results a fact tells."""
    steps = [step.text for step in parse_key(fact.key)]
    if steps[0] != "inspections" or len(steps) < 3 or steps[2] not in RESULTS:
        return set()
    return {steps[1], *(steps[3:4] if steps[2] == "better_than" else ())}
