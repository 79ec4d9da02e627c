"""A TOML file from the disk: its keys and values, and where each stands; what is wrong with its form at its place."""

from __future__ import annotations

import json
import re
import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

from bulletin.model import Place, Problem
from bulletin.settings.toml_places import TomlPlaces

SYNTAX_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")

NO_VALUE = "Invalid value"
TYPOGRAPHIC = " \t“”„‟‘’«»"
UNQUOTED = re.compile(r"""\s*(?P<key>[A-Za-z0-9_.-]+)\s*=\s*(?P<words>[^\s"'\[{#][^"'#]*)(?:#.*)?""")
"""A key whose value is neither in quotation marks nor a list or table."""
WORD = re.compile(r"[^\W\d_]")


def read_toml(path: Path) -> tuple[dict[str, Any] | None, TomlPlaces, list[Problem]]:
    """The values of a file and the places of its keys; None where it can't be read. Numbers with a point are Decimals."""
    text, problems = text_of(path)
    if problems:
        return None, TomlPlaces(path.name, ""), problems
    try:
        return tomllib.loads(text, parse_float=Decimal), TomlPlaces(path.name, text), []
    except tomllib.TOMLDecodeError as error:
        return None, TomlPlaces(path.name, ""), [_syntax_problem(str(error), path.name, text)]


def text_of(path: Path) -> tuple[str, list[Problem]]:
    """The text of a file, with line ends as \\n."""
    try:
        raw = path.read_bytes()
    except OSError:
        return "", [Problem("settings-missing", "error", Place(path.name), details={"folder": str(path.parent)})]
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n"), []
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8", "replace")
        place = Place(path.name, before.count("\n") + 1, len(before) - before.rfind("\n"))
        return "", [Problem("settings-not-utf-8", "error", place)]


def _syntax_problem(message: str, file: str, text: str) -> Problem:
    found = SYNTAX_PLACE.search(message)
    lines = text.split("\n")
    place = Place(file, int(found[1]), int(found[2])) if found and found[1] else Place(file, len(lines), len(lines[-1]) + 1)
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
