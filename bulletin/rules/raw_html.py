"""HTML in a draft.

A draft is Markdown. HTML would reach mails and pages unseen by the other rules, it could hide words or bring scripts, and what it
looks like depends on the reader's program. Addresses in angle brackets are fine.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.visible import ADDRESS_IN_ANGLES, TAG, forms_of
from bulletin.scrutiny.case import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Draft, Level
    from bulletin.scrutiny.case import Case

NAME = "raw-html"
LEVEL: Level = "block"
WAIVABLE = False
SENTENCE = "{words} is HTML, and a draft is Markdown"
ACCEPTED: tuple[str, ...] = ("Write to <help@fennmoor.example>.", "Looms < frames.", "Type `<b>` for bold.")
REJECTED: tuple[str, ...] = ("Our looms are «<b>»strong.", "Fine.«<!-- not seen -->»")


def check(case: Case) -> Iterator[Fault]:
    """Tags, comments and declarations outside code, notes and conditions."""
    draft = case.draft
    hidden = _hidden(draft)
    for tag in TAG.finditer(draft.source):
        within = any(start <= tag.start() < end for start, end in hidden)
        if not within and not ADDRESS_IN_ANGLES.match(draft.source, tag.start()):
            yield Fault(tag.start(), tag[0])


def _hidden(draft: Draft) -> list[tuple[int, int]]:
    """Code, notes, and the parts of forms that nobody reads."""
    conditions = [(form.words_end, form.end) for form in forms_of(draft) if form.kind != "printed"]
    printed = [(form.start, form.end) for form in forms_of(draft) if form.kind == "printed"]
    return [*draft.code, *draft.notes, *conditions, *printed]
