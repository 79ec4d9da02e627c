"""Whether readers hear what they must: which concerns are theirs, and whether a draft or a bulletin on record speaks of them."""

from __future__ import annotations

from collections import defaultdict
from datetime import timedelta
from typing import TYPE_CHECKING

from bulletin.draft.expressions import parse_key
from bulletin.model import Fact

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Concern, Mention
    from bulletin.scrutiny.case import Case

REMEMBERED = 28
"""Days for which a mention counts."""
OWNERS = "owners "


def owners_of(readers: str) -> str:
    """The defect to whose owners a draft is written; empty for any other readers."""
    return readers.removeprefix(OWNERS).strip() if readers.startswith(OWNERS) else ""


def concerns_for(case: Case) -> Iterator[Concern]:
    """What the readers of a draft must hear: all of it, and owners what is the matter with what they own."""
    defect = owners_of(case.draft.header.readers)
    for concern in case.run.concerns:
        if not defect or (concern.kind == "safety defect" and concern.item == defect):
            yield concern


def is_spoken_of(case: Case, concern: Concern) -> bool:
    """Whether a claim or printed fact of the draft touches a concern."""
    return any(concern.is_touched_by(fact.key) for reading in case.readings for fact in reading.facts)


def is_remembered(case: Case, concern: Concern) -> bool:
    """Whether a bulletin of the last 28 days spoke of it to these readers, and nothing that it told of it has changed."""
    told: defaultdict[int, list[Mention]] = defaultdict(list)
    for mention in case.run.mentions:
        if concern.is_touched_by(mention.key) and _was_heard(case, mention):
            told[mention.number].append(mention)
    return any(all(_still_holds(case, mention) for mention in mentions) for mentions in told.values())


def _was_heard(case: Case, mention: Mention) -> bool:
    first = case.as_of - timedelta(days=REMEMBERED)
    return first <= mention.as_of <= case.as_of and mention.readers in ("all", case.draft.header.readers)


def _still_holds(case: Case, mention: Mention) -> bool:
    """Whether a fact has the value that was told; days that go on by themselves change nothing."""
    fact = case.facts.find(parse_key(mention.key))
    return isinstance(fact, Fact) and (fact.value == mention.value or fact.unit == "day")
