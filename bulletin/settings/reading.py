"""bulletin.toml in: read, checked, every fault at once with its line and column."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from pathlib import Path
from typing import Any, get_args
from zoneinfo import available_timezones

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from bulletin.model import Place, Problem
from bulletin.settings.checks import Fault, faults
from bulletin.settings.codes import begun, nearest, usual_locale
from bulletin.settings.shape import Settings
from bulletin.settings.toml_places import Keys, TomlPlaces

FILE = "bulletin.toml"
SYNTAX_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")

NO_VALUE = "Invalid value"
TYPOGRAPHIC = " \t“”„‟‘’«»"
UNQUOTED = re.compile(r"""\s*(?P<key>[A-Za-z0-9_.-]+)\s*=\s*(?P<words>[^\s"'\[{#][^"'#]*)(?:#.*)?""")
"""A key whose value is neither in quotation marks nor a list or table."""
WORD = re.compile(r"[^\W\d_]")


def read_settings(folder: Path) -> tuple[Settings | None, list[Problem]]:
    """The settings of a data folder, or None where an error stands among the problems."""
    text, problems = _text(folder / FILE)
    if problems:
        return None, problems
    try:
        raw = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        return None, [_syntax_problem(str(error), text)]
    return _checked(raw, TomlPlaces(FILE, text))


def settings_places(folder: Path) -> TomlPlaces:
    """The places of bulletin.toml's keys, for stages that find a fault in them; of no key where it cannot be read."""
    text, problems = _text(folder / FILE)
    return TomlPlaces(FILE, "" if problems else text)


def _text(path: Path) -> tuple[str, list[Problem]]:
    try:
        raw = path.read_bytes()
    except OSError:
        return "", [Problem("settings-missing", "error", Place(FILE), details={"folder": str(path.parent)})]
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n"), []
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8", "replace")
        place = Place(FILE, before.count("\n") + 1, len(before) - before.rfind("\n"))
        return "", [Problem("settings-not-utf-8", "error", place)]


def _syntax_problem(message: str, text: str) -> Problem:
    found = SYNTAX_PLACE.search(message)
    lines = text.split("\n")
    place = Place(FILE, int(found[1]), int(found[2])) if found and found[1] else Place(FILE, len(lines), len(lines[-1]) + 1)
    fault = SYNTAX_PLACE.sub("", message)
    unquoted, offer = _unquoted(fault, lines[place.line - 1], place.column)
    rule = "settings-text-unquoted" if unquoted else "settings-not-toml"
    return Problem(rule, "error", place, details={"fault": fault}, offer=offer)


def _unquoted(fault: str, line: str, column: int) -> tuple[bool, str]:
    """Whether a fault of the form is text without quotation marks, and the line as it should be where that is sure."""
    pair = UNQUOTED.fullmatch(line)
    if pair and fault in (NO_VALUE, "Expected newline or end of document after a statement"):
        return True, f"{pair['key']} = {json.dumps(pair['words'].strip(TYPOGRAPHIC), ensure_ascii=False)}"
    return fault == NO_VALUE and WORD.match(line, column - 1) is not None, ""


def _checked(raw: Mapping[str, Any], places: TomlPlaces) -> tuple[Settings | None, list[Problem]]:
    found = list(faults(raw))
    settings: Settings | None = None
    try:
        settings = Settings.model_validate(raw)
    except ValidationError as error:
        found += [_fault(details, raw) for details in error.errors()]
    problems = sorted(
        (_problem(fault, places) for fault in dict.fromkeys(found)), key=lambda problem: (problem.place, problem.rule)
    )
    if problems:
        return None, problems
    return settings, list(_warnings(raw, places))


def _warnings(raw: Mapping[str, Any], places: TomlPlaces) -> Iterator[Problem]:
    if "time_zone" not in raw["maker"]:
        yield Problem("time-zone-missing", "warn", places.find(("maker",)))


def _problem(fault: Fault, places: TomlPlaces) -> Problem:
    details = {"key": _spelt(fault.path), "expected": fault.expected}
    return Problem(fault.rule, "error", places.find(fault.path), fault.words, details, fault.offer)


def _fault(error: ErrorDetails, raw: Mapping[str, Any]) -> Fault:
    path = _path(error["loc"], raw)
    kind, given = error["type"], error["input"]
    if kind == "extra_forbidden":
        return Fault(path, "setting-unknown", str(path[-1]), "", nearest(str(path[-1]), _known_keys(path)))
    if kind == "missing":
        return Fault(path, "setting-missing", "", "")
    return Fault(path, "setting-wrong", _shown(given), _expected(error), _offer(error, path))


def _path(location: tuple[int | str, ...], raw: Any) -> Keys:
    """The part of pydantic's location that leads through the file; the kinds it tried are not keys."""
    path: list[str | int] = []
    for step in location:
        inside = isinstance(raw, dict) or (isinstance(raw, list) and isinstance(step, int) and step < len(raw))
        if not inside or step == "[key]":
            break
        path.append(step)
        raw = raw.get(step) if isinstance(raw, dict) else raw[int(step)]
    return tuple(path)


def _known_keys(path: Keys) -> list[str]:
    """The keys that may stand where the last one of a path stands."""
    model: type[BaseModel] = Settings
    for step in path[:-1]:
        if isinstance(step, str) and step in model.model_fields:
            model = _section(model.model_fields[step].annotation) or model
    return sorted(model.model_fields)


def _section(annotation: Any) -> type[BaseModel] | None:
    """The section an annotation speaks of: itself, or the one inside its brackets."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for inner in get_args(annotation) if (found := _section(inner)) is not None), None)


def _expected(error: ErrorDetails) -> str:
    message = error["msg"].removeprefix("Value error, ")
    message = message.removeprefix("Input should be ").replace("'", '"')
    return {"a valid tuple": "a list", "a valid string": "text in quotation marks", "a valid integer": "a whole number"}.get(
        message, message.replace("a valid dictionary or instance of ", "a table like ").replace("a valid mapping", "a table")
    )


def _offer(error: ErrorDetails, path: Keys) -> str:
    given = error["input"]
    if isinstance(given, (int, Decimal)) and not isinstance(given, bool) and ("amount" in path or "cap" in path):
        return f'"{given}"'
    if isinstance(given, int) and error["type"] == "string_type":
        return f'"{given}"'
    if error["type"] == "literal_error" and isinstance(given, str):
        choices = [choice.strip("' ") for choice in error["ctx"]["expected"].replace(" or ", ", ").split(",")]
        return nearest(given, choices) or begun(given, choices)
    if path[:2] == ("maker", "locales") and isinstance(given, str):
        return usual_locale(given)
    if path[-1] == "time_zone" and isinstance(given, str):
        return nearest(given, available_timezones())
    return ""


def _shown(given: Any) -> str:
    return given if isinstance(given, str) else str(given).lower() if isinstance(given, bool) else str(given)


def _spelt(path: Keys) -> str:
    """A path as a reader of TOML would write it: `credit.tiers[2].amount`, items counted from 1."""
    spelt = ""
    for step in path:
        spelt += f"[{step + 1}]" if isinstance(step, int) else f".{step}"
    return spelt.removeprefix(".")
