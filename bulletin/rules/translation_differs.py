"""A translation that says something else than its original, or follows an older one.

All readers are told the same, whatever they read. A draft in another locale prints and claims what the one in the first locale
does, of the same day and to the same readers; it may tell a fact in words that the original prints. `bulletin follow` writes on
top of it what it follows. Once the original changes, the translation is stale until somebody has looked at the changed
paragraphs, which are named, and has marked it again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.following import LINE, changed_paragraphs, follows_line
from bulletin.scrutiny.case import Fault
from bulletin.scrutiny.signatures import signatures

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Draft, Level
    from bulletin.scrutiny.case import Case

NAME = "translation-differs"
LEVEL: Level = "block"
WAIVABLE = True
SENTENCE = "this does not say the same as its original {original}: {what}"
ORIGINAL = "Title: News\n\nWe boxed {{ boxed.week }} looms, [more than last week]{boxed.week > boxed.last_week}.\n"
"""What the examples are translations of."""
HEAD = "Title: News\nFollows: 2ba8b731d78cd5e6 69752f.68fcf4\n\n"
SAID = "This week {{ boxed.week }} looms, [more than last week]{boxed.week > boxed.last_week}."
ACCEPTED: tuple[str, ...] = (f"{HEAD}{SAID}",)
REJECTED: tuple[str, ...] = (
    f"{HEAD}«»This week {{{{ boxed.week }}}} looms.",
    f"{HEAD}{SAID} Since we began «{{{{ boxed.total }}}}».",
    f"«»{SAID}",
    f"Title: News\n«Follows: 0000000000000000 69752f.bbbbbb»\n\n{SAID}",
)
SHOWN = 40


def check(case: Case) -> Iterator[Fault]:
    """What is missing, what is added, other days or readers, and an original that has changed since; nothing for an original."""
    original = case.run.original
    if original is None:
        return
    yield from _followed(case, original)
    ours, theirs = signatures(case.draft), signatures(original)
    for said in theirs.keys() - ours.keys():
        place = f"{original.file}:{theirs[said].place.line}"
        yield _fault(original, None, theirs[said].condition, f"{said} stands in {place} and not here")
    for said in ours.keys() - theirs.keys():
        yield _fault(original, ours[said].start, ours[said].condition, f"{said} stands here and not there")
    if (original.header.as_of, original.header.readers) != (case.draft.header.as_of, case.draft.header.readers):
        yield _fault(original, None, "As-of and Readers", "they are of another day or for other readers")


def _followed(case: Case, original: Draft) -> Iterator[Fault]:
    """Whether the draft says what it follows, and whether that is the original as it stands."""
    follows = case.draft.header.follows
    command = f"bulletin follow {case.draft.name}"
    if not follows:
        yield _fault(original, None, "Follows", f"nobody has marked what it follows; once it is right, run {command}")
    elif follows != follows_line(original):
        line = LINE.search(case.draft.source)
        changed, gone = changed_paragraphs(original, follows)
        told = [f"line {part.line} ({part.text[:SHOWN].rstrip()}...)" for part in changed]
        told += [f"{gone} paragraphs gone"] if gone else []
        what = f"the original has changed since: {', '.join(told) or 'its day or its readers'}; once this follows, run {command}"
        yield _fault(original, line.start() if line else None, follows.split(" ")[0], what)


def _fault(original: Draft, at: int | None, words: str, what: str) -> Fault:
    return Fault(at, words, {"original": original.file, "what": what})
