"""A draft from its file: header, forms, conditions, and every fault of them at once."""

from __future__ import annotations

import difflib
import re
from pathlib import Path

from bulletin.draft.expressions import Expression, Fault
from bulletin.draft.faults import problem, unreadable
from bulletin.draft.header import read_header
from bulletin.draft.parsing import parse, parse_printed
from bulletin.draft.scanner import Form, Scan, scan
from bulletin.model import Call, Claim, Draft, Place, Problem

FILE_NAME = re.compile(r"(?P<name>.+)\.(?P<locale>[A-Za-z]{2,3}(?:[-_][A-Za-z0-9]{2,8})*)\.md")
CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
LONGEST_DRAFT = 200_000


def read_draft(path: Path, file: str = "") -> tuple[Draft | None, list[Problem]]:
    """The draft at a path, and everything that is wrong with it in the order it stands.

    `file` is its name in messages, the path as given without it. The draft is None only where there is nothing to read: a
    missing or undecodable file, or a name that is not `<name>.<locale>.md`.
    """
    file = file or path.as_posix()
    try:
        content = path.read_bytes()
    except OSError as error:
        what = "there is no such file" if isinstance(error, FileNotFoundError) else f"{error.strerror or error}".lower()
        return None, [_nothing(Place(file), what, path.name, _nearest(path))]
    named = FILE_NAME.fullmatch(path.name)
    if named is None or not _is_locale(named["locale"]):
        what = "the name of a draft is <name>.<locale>.md, as in week-13.en.md"
        return None, [_nothing(Place(file), what, path.name)]
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return None, [_undecodable(content, error, file)]
    return read_text(text, named["name"], named["locale"].replace("_", "-"), file)


def read_text(text: str, name: str, locale: str, file: str) -> tuple[Draft | None, list[Problem]]:
    """A draft from its text; as `read_draft`. A text without a single word, or too long for a bulletin, is no draft."""
    source = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if not source.strip():
        return None, [_nothing(Place(file), "it is empty", "", "Title: ")]
    if len(source) > LONGEST_DRAFT:
        return None, [_nothing(Place(file), f"a draft has {LONGEST_DRAFT} characters at most", "")]
    header, body_start, problems = read_header(source, file)
    bare = Draft(name, locale, file, source, body_start, header)
    title, body = _scan_title(bare), scan(source, body_start, len(source))
    claims: list[Claim] = []
    faults: list[tuple[str, Fault]] = [("form-unreadable", fault) for fault in (*title.faults, *body.faults)]
    for form in (*title.forms, *body.forms):
        claim, wrong = _claim(form, bare)
        claims.append(claim)
        faults.extend(("condition-unreadable", fault) for fault in wrong)
    faults.extend(("form-unreadable", fault) for fault in _control_characters(source))
    problems.extend(problem(bare, fault, rule) for rule, fault in faults)
    draft = Draft(
        name, locale, file, source, body_start, header,
        claims=tuple(sorted(claims, key=lambda claim: claim.start)),
        notes=tuple(sorted(title.notes + body.notes)),
        code=tuple(sorted(title.code + body.code)),
    )  # fmt: skip
    return draft, sorted(problems, key=lambda found: (found.place, found.rule))


def _scan_title(draft: Draft) -> Scan:
    """The forms of the title line: a title is prose like the rest."""
    if not draft.header.title:
        return Scan()
    place = draft.header.title_place
    lines = draft.source.split("\n")
    start = sum(len(line) + 1 for line in lines[: place.line - 1]) + place.column - 1
    return scan(draft.source, start, start + len(draft.header.title))


def _claim(form: Form, draft: Draft) -> tuple[Claim, list[Fault]]:
    """A form with its condition parsed, and what is wrong with that; a broken form has its fault already."""
    source = draft.source
    inner = source[form.inner[0] : form.inner[1]]
    printed = form.kind == "printed"
    expression: Expression | None = None
    filters: tuple[Call, ...] = ()
    faults: list[Fault] = []
    opinion = not printed and inner.strip() == "opinion" and not form.broken
    if printed:
        expression, filters, faults = parse_printed(inner, form.inner[0])
    elif not form.broken and not opinion:
        expression, faults = parse(inner, form.inner[0])
    inside: list[Claim] = []
    for held in form.inside:
        claim, wrong = _claim(held, draft)
        inside.append(claim)
        faults.extend(wrong)
    lead = len(inner) - len(inner.lstrip())
    return Claim(
        kind="printed" if printed else "opinion" if opinion else "claim",
        place=draft.place(form.span[0]),
        start=form.span[0],
        end=form.span[1],
        words=source[form.words[0] : form.words[1]],
        words_start=form.words[0],
        words_end=form.words[1],
        condition=inner.strip(),
        condition_place=draft.place(form.inner[0] + lead),
        expression=expression,
        filters=filters,
        inside=tuple(inside),
    ), faults


def _control_characters(source: str) -> list[Fault]:
    return [Fault(found.start(), found.end(), f"the control character U+{ord(found[0]):04X} has no place in a draft")
            for found in CONTROL.finditer(source)]  # fmt: skip


def _is_locale(tag: str) -> bool:
    from babel import Locale, UnknownLocaleError

    try:
        Locale.parse(tag, sep="_" if "_" in tag else "-")
    except (UnknownLocaleError, ValueError):
        return False
    return True


def _undecodable(content: bytes, error: UnicodeDecodeError, file: str) -> Problem:
    """The fault of a file that is not UTF-8, at its first bad byte."""
    before = content[: error.start].decode("utf-8-sig")
    before = before.replace("\r\n", "\n").replace("\r", "\n")
    place = Place(file, before.count("\n") + 1, len(before) - before.rfind("\n"))
    return _nothing(place, f"the byte 0x{content[error.start]:02X} is not UTF-8; save the draft as UTF-8", "")


def _nearest(path: Path) -> str:
    """The draft in the same folder whose name comes closest to one that is not there."""
    names = sorted(entry.name for entry in path.parent.glob("*.md")) if path.parent.is_dir() else []
    near = difflib.get_close_matches(path.name, names, 1, 0.6)
    return near[0] if near else ""


def _nothing(place: Place, what: str, words: str, offer: str = "") -> Problem:
    return unreadable("draft-unreadable", place, Fault(0, 0, what, offer), words)
