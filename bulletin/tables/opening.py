"""A table's file from the disk: found inside the data folder, decoded."""

from __future__ import annotations

import codecs
from dataclasses import replace
from pathlib import Path

from bulletin.model import Place, Problem
from bulletin.settings import TableSettings
from bulletin.settings.toml_places import TomlPlaces
from bulletin.tables.kinds import is_inside
from bulletin.tables.layouts import Layout
from bulletin.tables.source import Source

WORKBOOKS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
"""How the files of spreadsheet programs begin: zipped ones, and Excel's of before 2007."""
OPEN_DOCUMENT = b"mimetypeapplication/vnd.oasis.opendocument"
LOOKED_AT = 1000
"""Bytes by which UTF-16 is told."""


def open_source(folder: Path, layout: Layout, settings: TableSettings, places: TomlPlaces) -> tuple[Source | None, list[Problem]]:
    """The text of a table's file. None, without a problem, for an optional table that is not there."""
    file = settings.file or f"{layout.name}.csv"
    path = folder / file
    if settings.file and not (is_inside(file) and path.resolve().is_relative_to(folder.resolve())):
        place = places.find(("tables", layout.name, "file"))
        return None, [Problem("table-path-outside", "error", place, file, {"table": layout.name})]
    if not path.exists():
        wanted = layout.required or settings.file
        return None, [Problem("table-missing", "error", Place(file), details={"table": layout.name})] if wanted else []
    try:
        original = path.read_bytes()
    except OSError as error:
        details = {"table": layout.name, "fault": error.strerror or ""}
        return None, [Problem("table-unreadable", "error", Place(file), details=details)]
    source, problem = _decoded(file, original, settings)
    return source, [replace(problem, details={"table": layout.name, **problem.details})] if problem else []


def _decoded(file: str, original: bytes, settings: TableSettings) -> tuple[Source | None, Problem | None]:
    name = codecs.lookup(settings.encoding).name
    if original.startswith(WORKBOOKS):
        return None, Problem("table-is-workbook", "error", Place(file), _kind_of_workbook(original))
    if not name.startswith(("utf-16", "utf-32")) and (found := _utf_16(original)):
        return None, Problem("table-in-utf-16", "error", Place(file), offer=f'encoding = "{found}"')
    if name in ("utf-8", "utf-8-sig", "ascii") and original.isascii():
        return Source(file, original, original, settings.delimiter), None
    try:
        text = original.decode("utf-8-sig" if name == "utf-8" else name)
    except UnicodeDecodeError as error:
        place = _undecodable(file, original[: error.start].decode(name, "replace"))
        byte = f"0x{original[error.start]:02X}"
        offer = 'encoding = "cp1252"' if name.startswith("utf-8") and _is_cp1252(original) else ""
        return None, Problem("table-not-in-encoding", "error", place, byte, {"encoding": settings.encoding}, offer)
    return Source(file, original, text.encode("utf-8", "replace"), settings.delimiter), None


def _kind_of_workbook(original: bytes) -> str:
    return "an OpenDocument spreadsheet" if OPEN_DOCUMENT in original[:200] else "an Excel workbook"


def _utf_16(original: bytes) -> str:
    """The UTF-16 that a file is in, by its mark or by the zeros beside letters; empty where it is none."""
    if original.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    beginning = original[:LOOKED_AT]
    zeros = [beginning[first::2].count(0) > len(beginning) // 4 for first in (0, 1)]
    return {(False, True): "utf-16", (True, False): "utf-16-be"}.get((zeros[0], zeros[1]), "")


def _undecodable(file: str, before: str) -> Place:
    plain = before.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    return Place(file, plain.count("\n") + 1, len(plain) - plain.rfind("\n"))


def _is_cp1252(original: bytes) -> bool:
    try:
        original.decode("cp1252")
    except UnicodeDecodeError:
        return False
    return True
