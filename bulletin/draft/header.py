"""The `Key: value` lines on top of a draft, up to the first blank line."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date

from bulletin.draft.expressions import Fault
from bulletin.draft.faults import unreadable
from bulletin.model import Attestation, Header, Place, Problem, Waiver

LINE = re.compile(r"(?P<key>[A-Za-z][A-Za-z -]*?)[ \t]*(?P<colon>[:：])[ \t]*(?P<value>.*?)[ \t]*")
READERS = re.compile(r"all|waiting|owners \S.*")
WAIVED = re.compile(r"""(?P<rule>[a-z][a-z-]*)(?:[ \t]*["“„«](?P<words>[^"“”»]*)["“”»])?""")
UNQUOTED = re.compile(r"(?P<rule>[a-z][a-z-]*)[ \t]+(?P<words>\S.*)")
DAY_FIRST = re.compile(r"(?P<day>\d{1,2})[.](?P<month>\d{1,2})[.](?P<year>\d{4})")
YEAR_FIRST = re.compile(r"(?P<year>\d{4})[-/.](?P<month>\d{1,2})[-/.](?P<day>\d{1,2})")
BLANK_LINE = re.compile(r"^[ \t]*$", re.MULTILINE)
FIRST_LINE = Place("")


@dataclass(slots=True)
class Gathered:
    """What the lines have said so far."""

    file: str
    single: dict[str, str] = field(default_factory=dict)
    title_place: Place = FIRST_LINE
    as_of: date | None = None
    attested: list[Attestation] = field(default_factory=list)
    waivers: list[Waiver] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def fault(self, place: Place, what: str, words: str, offer: str = "") -> None:
        """Note a fault of one line."""
        self.problems.append(unreadable("header-unreadable", place, Fault(0, 0, what, offer), words))


def read_header(source: str, file: str) -> tuple[Header, int, list[Problem]]:
    """The header of a draft, the offset at which its body starts, and every fault of its lines.

    A text whose first line is no `Key: value` has no header: that is one fault, and all of it is body.
    """
    gathered = Gathered(file, title_place=Place(file))
    body = 0
    if LINE.fullmatch(source.split("\n", 1)[0]):
        blank = BLANK_LINE.search(source)
        end = blank.start() if blank else len(source)
        body = min(blank.end() + 1, len(source)) if blank else len(source)
        for number, line in enumerate(source[:end].rstrip("\n").split("\n"), start=1):
            _read_line(line, number, gathered)
    if "Title" not in gathered.single:
        gathered.fault(Place(file), "a draft begins with its title", source.split("\n", 1)[0], "Title: ")
    return _header(gathered), body, gathered.problems


def _header(gathered: Gathered) -> Header:
    return Header(
        title=gathered.single.get("Title", ""),
        title_place=gathered.title_place,
        as_of=gathered.as_of,
        readers=gathered.single.get("Readers", "all"),
        attested=tuple(gathered.attested),
        waivers=tuple(gathered.waivers),
        follows=gathered.single.get("Follows", ""),
    )


def _read_line(line: str, number: int, gathered: Gathered) -> None:
    match = LINE.fullmatch(line)
    if match is None:
        what = "every line up to the first blank one is `Key: value`; is a blank line missing above this one?"
        gathered.fault(Place(gathered.file, number), what, line)
        return
    key, value = match["key"], match["value"]
    here, there = Place(gathered.file, number), Place(gathered.file, number, match.start("value") + 1)
    if key not in KEYS:
        near = difflib.get_close_matches(key.capitalize(), KEYS, 1, 0.5)
        what = f"there is no {key}, only {', '.join(KEYS)}"
        gathered.fault(here, what, key, f"{near[0]}: {value}" if near else "")
    elif match["colon"] != ":":
        there = Place(gathered.file, number, match.start("colon") + 1)
        gathered.fault(there, "the colon is a plain one, not full-width", line, f"{key}: {value}")
    elif not value:
        gathered.fault(there, f"nothing stands behind {key}:", line)
    else:
        KEYS[key](value, there, gathered)


def _once(key: str) -> Callable[[str, Place, Gathered], None]:
    def read(value: str, place: Place, gathered: Gathered) -> None:
        if key in gathered.single:
            gathered.fault(place, f"{key} was said before; it stands once", value)
            return
        gathered.single[key] = value
        CHECKED.get(key, _no_check)(value, place, gathered)

    return read


def _no_check(value: str, place: Place, gathered: Gathered) -> None:
    """Anything may stand there."""


def _title(value: str, place: Place, gathered: Gathered) -> None:  # noqa: ARG001
    gathered.title_place = place


def _as_of(value: str, place: Place, gathered: Gathered) -> None:
    gathered.as_of = _day(value, place, gathered)


def _readers(value: str, place: Place, gathered: Gathered) -> None:
    if READERS.fullmatch(value) is None:
        near = difflib.get_close_matches(value.lower(), ("all", "waiting"), 1, 0.6)
        what = "Readers are all, waiting, or owners and a defect: owners D-12"
        gathered.fault(place, what, value, near[0] if near else "")
        del gathered.single["Readers"]


def _day(value: str, place: Place, gathered: Gathered) -> date | None:
    try:
        if len(value) == 10:
            return date.fromisoformat(value)
    except ValueError:
        pass
    _no_day(value, place, gathered)
    return None


def _no_day(value: str, place: Place, gathered: Gathered) -> None:
    """Note that this is no day; another usual way to write one is understood well enough to offer it."""
    written = DAY_FIRST.fullmatch(value) or YEAR_FIRST.fullmatch(value)
    offer = ""
    if written:
        try:
            offer = date(int(written["year"]), int(written["month"]), int(written["day"])).isoformat()
        except ValueError:
            offer = ""
    gathered.fault(place, "a day of the calendar is written 2026-03-27", value, offer)


def _attested(value: str, place: Place, gathered: Gathered) -> None:
    parts = [part.strip() for part in value.split("|")]
    if len(parts) not in (2, 3) or not parts[0] or not parts[1]:
        gathered.fault(place, "an attested statement is `text | who | until`", value)
        return
    until = parts[2] if len(parts) == 3 else ""
    before = len(gathered.problems)
    last_day = _day(until, Place(place.file, place.line, place.column + value.rfind(until)), gathered) if until else None
    if len(gathered.problems) == before:
        gathered.attested.append(Attestation(place, parts[0], parts[1], last_day))


def _waive(value: str, place: Place, gathered: Gathered) -> None:
    parts = [part.strip() for part in value.rsplit("|", 2)]
    waived = WAIVED.fullmatch(parts[0])
    if len(parts) == 3 and waived and parts[1] and parts[2]:
        gathered.waivers.append(Waiver(place, waived["rule"], waived["words"] or "", parts[1], parts[2]))
        return
    unquoted = UNQUOTED.fullmatch(parts[0])
    right = f'{unquoted["rule"]} "{unquoted["words"]}"' if unquoted and not waived and '"' not in parts[0] else ""
    offer = " | ".join(["Waive: " + right, *parts[1:]]) if right and len(parts) == 3 and all(parts) else ""
    gathered.fault(place, 'a waiver is `RULE "words or item" | who | why`', value, offer)


CHECKED: dict[str, Callable[[str, Place, Gathered], None]] = {"Title": _title, "As-of": _as_of, "Readers": _readers}
KEYS: dict[str, Callable[[str, Place, Gathered], None]] = {
    "Title": _once("Title"),
    "As-of": _once("As-of"),
    "Readers": _once("Readers"),
    "Attested": _attested,
    "Waive": _waive,
    "Follows": _once("Follows"),
}
