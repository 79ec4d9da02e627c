"""The first row of a file: the names of its columns, and whether it is separated by another sign than the settings say."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Collection, Mapping
from dataclasses import replace
from types import MappingProxyType

from bulletin.model import Place, Problem
from bulletin.tables.source import Source

LONGEST_HEADER = 1 << 20
"""Bytes in which the header must end."""
DELIMITERS: Mapping[str, str] = MappingProxyType({",": "commas", ";": "semicolons", "\t": "tabs", "|": "vertical bars"})


def read_header(source: Source) -> tuple[str, ...]:
    """The names in the first record that is not blank, without blanks around them; none for a file without one."""
    beginning = io.StringIO(source.text[:LONGEST_HEADER].decode("utf-8", "ignore"), newline="")
    reader = csv.reader(beginning, delimiter=source.delimiter)
    try:
        for row in reader:
            if any(cell.strip() for cell in row):
                return tuple(cell.strip() for cell in row)
    except csv.Error:
        pass
    return ()


def other_delimiter(source: Source, header: tuple[str, ...], table: str, wanted: Collection[str]) -> Problem | None:
    """The problem of a file in which another sign parts more of the wanted names, or parts a header that is one cell."""
    by_sign = {sign: read_header(replace(source, delimiter=sign)) for sign in DELIMITERS if sign != source.delimiter}
    sign = max(by_sign, key=lambda sign: (_known(by_sign[sign], wanted), len(by_sign[sign])))
    better = _known(by_sign[sign], wanted) > _known(header, wanted)
    if not better and (len(header) > 1 or len(by_sign[sign]) < 2):
        return None
    second = replace(source, delimiter=sign).place(-1, 1)
    details = {"table": table, "signs": DELIMITERS[sign], "delimiter": json.dumps(sign)}
    return Problem("delimiter-otherwise", "error", Place(second.file, second.line, second.column - 1), sign, details)


def _known(header: tuple[str, ...], wanted: Collection[str]) -> int:
    return len(set(header) & set(wanted))
