"""The faults of a draft that cannot be read as it stands: their rule names, levels and sentences, in one place."""

from __future__ import annotations

from bulletin.draft.expressions import Fault
from bulletin.model import Draft, Level, Place, Problem

UNREADABLE: dict[str, tuple[Level, str]] = {
    "draft-unreadable": ("error", "this draft cannot be read: {what}"),
    "header-unreadable": ("block", "this line on top of the draft cannot be read: {what}"),
    "form-unreadable": ("block", "this is close to one of the three forms and none of them: {what}"),
    "condition-unreadable": ("block", "this condition cannot be read: {what}"),
}
"""Level and sentence by rule name; none of them can be waived, since what cannot be read cannot be held against anything."""


def unreadable(rule: str, place: Place, fault: Fault, words: str = "") -> Problem:
    """A fault of a draft as a problem. `words` is the evidence; its line breaks become spaces, long ones are cut."""
    level, sentence = UNREADABLE[rule]
    shown = " ".join(words.split())
    shown = shown if len(shown) <= 120 else shown[:119] + "…"
    return Problem(rule, level, place, shown, {"what": fault.what}, fault.offer, sentence)


def problem(draft: Draft, fault: Fault, rule: str = "condition-unreadable") -> Problem:
    """A fault at offsets of a draft's source (from parsing or from evaluating) as a problem with its place and words."""
    return unreadable(rule, draft.place(fault.start), fault, draft.source[fault.start : fault.end])
