"""Changes to drafts that somebody asked for: a translation marked as following its original, a copy with the sure offers in it.

A file is written beside its name and then moved into place, so that a crash leaves the old one. Line ends and a byte order
mark stay as they are. The original of a draft is never changed.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterable
from difflib import unified_diff
from pathlib import Path

from bulletin.circumstances import original_of
from bulletin.draft.following import follows_line, with_follows
from bulletin.draft.reading import read_draft
from bulletin.model import Draft, Place, Problem, Verdict
from bulletin.workshop import Workshop, find_drafts, locale_of, name_of

Written = tuple[list[Path], list[Problem]]


def follow(workshop: Workshop, name: str) -> Written:
    """Mark every translation of a draft, or the one that a path names, as following its original as it is now."""
    files, problems = find_drafts(workshop, name)
    first = workshop.settings.maker.locales[0]
    if len(files) == 1 and locale_of(files[0]) == first:
        files = sorted(file for file in files[0].parent.glob("*.*.md") if name_of(file) == name_of(files[0]))
    translations = [file for file in files if locale_of(file) != first]
    written: list[Path] = []
    for file in translations:
        faults = mark(workshop, file)
        problems += faults
        written += [] if faults else [file]
    if not translations and not problems:
        problems = [Problem("translation-missing", "error", Place(str(workshop.folder / "drafts")), name, {"locale": first})]
    return written, problems


def mark(workshop: Workshop, file: Path) -> list[Problem]:
    """Write the `Follows:` line of one translation; what keeps it from being written."""
    draft, problems = read_draft(file)
    original = original_of(workshop, draft) if draft else None
    if draft is None:
        return problems
    if original is None:
        return [Problem("original-missing", "error", Place(str(file)), name_of(file))]
    marked = with_follows(draft.source, draft.body_start, follows_line(original))
    return put(file, marked) if marked != draft.source else []


def apply(verdict: Verdict) -> tuple[Path, str, list[Problem]]:
    """Write a copy of a draft with its sure offers in it; where it lies, the difference as a unified diff, what went wrong."""
    draft = verdict.draft
    file = Path(draft.file)
    copy = file.with_name(f"{name_of(file)}.applied.{draft.locale}.md")
    applied = with_offers(draft, verdict.findings)
    lines = (draft.source.splitlines(keepends=True), applied.splitlines(keepends=True))
    return copy, "".join(unified_diff(*lines, str(file), str(copy))), put(copy, applied, like=file)


def with_offers(draft: Draft, findings: Iterable[Problem]) -> str:
    """The draft's source with the offer of every finding that says so in place of its words; of two that overlap the first."""
    source, parts, at = draft.source, [], 0
    for start, finding in sorted((offset(draft, finding.place), finding) for finding in findings if finding.applies):
        end = start + len(finding.words)
        if start >= at and source[start:end] == finding.words:
            parts += [source[at:start], finding.offer]
            at = end
    return "".join([*parts, source[at:]])


def offset(draft: Draft, place: Place) -> int:
    """The offset in a draft's source of a place."""
    lines = draft.source.split("\n")
    return sum(len(line) + 1 for line in lines[: place.line - 1]) + place.column - 1


def put(file: Path, text: str, like: Path | None = None) -> list[Problem]:
    """Write a text as UTF-8, with the line ends and the byte order mark of the file that was there, or of one like it."""
    model = like or file
    try:
        before = model.read_bytes()
        mark = b"\xef\xbb\xbf" if before.startswith(b"\xef\xbb\xbf") else b""
        ends = text.replace("\n", "\r\n") if b"\r\n" in before else text
        handle, beside = tempfile.mkstemp(dir=file.parent, prefix=f".{file.name}.")
        with os.fdopen(handle, "wb") as stream:
            stream.write(mark + ends.encode())
            stream.flush()
            os.fsync(stream.fileno())
        Path(beside).chmod(model.stat().st_mode)
        Path(beside).replace(file)
    except OSError as fault:
        return [Problem("draft-unwritten", "error", Place(str(file)), file.name, {"why": str(fault)})]
    return []
