"""Facts as tables for people and as JSON for programs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from bulletin.formats.printing import Format
from bulletin.model import Absent, Fact
from bulletin.report.columns import columns, indented
from bulletin.values import to_json

WIDEST = 48
"""Characters of a value that the table shows; a fact's own sheet shows all of it."""


def facts_json(as_of: date, found: Iterable[Fact | Absent], *, lines: bool) -> dict[str, Any]:
    """`bulletin facts --json`: rows as counts, or as lines of the files where facts were named."""
    facts, absent = parted(found)
    return {
        "as_of": as_of.isoformat(),
        "facts": {fact.key: fact_json(fact, fact.rows.lines() if lines else fact.rows.counts()) for fact in facts},
        "absent": {gap.key: gap.why for gap in absent},
    }


def fact_json(fact: Fact, rows: dict[str, Any]) -> dict[str, Any]:
    """One fact with its rows as counts or lines."""
    return {
        "value": to_json(fact.value),
        "unit": fact.unit,
        "basis": fact.basis.value,
        "how": fact.how,
        "rows": rows,
    }


def parted(found: Iterable[Fact | Absent]) -> tuple[list[Fact], list[Absent]]:
    """Facts and absent ones, each once and sorted by key."""
    listed = [one for _, one in sorted({one.key: one for one in found}.items())]
    return [one for one in listed if isinstance(one, Fact)], [one for one in listed if isinstance(one, Absent)]


def facts_table(found: Iterable[Fact | Absent], style: Format) -> str:
    """Facts in columns: their name in a draft, value as a reader sees it, unit, basis; below them what is absent, and why."""
    facts, absent = parted(found)
    rows = [(fact.spelling, cut(style.figure(fact)), fact.unit, fact.basis.value) for fact in facts]
    blocks = [columns([("fact", "value", "unit", "basis"), *rows])] if rows else []
    if absent:
        blocks.append(columns([("absent", "because"), *((gap.spelling, gap.why) for gap in absent)]))
    return "\n\n".join(blocks)


def cut(text: str) -> str:
    """A value as a line of the table shows it."""
    return text if len(text) <= WIDEST else f"{text[: WIDEST - 1]}…"


def fact_sheets(found: Iterable[Fact | Absent], style: Format) -> str:
    """Facts one by one, each with its explanation and the rows that made it; then what is absent, and why."""
    facts, absent = parted(found)
    gaps = [f"{gap.spelling} is absent: {gap.why}" for gap in absent]
    return "\n\n".join([*(fact_sheet(fact, style) for fact in facts), *gaps])


def fact_sheet(fact: Fact, style: Format) -> str:
    """One fact with its explanation and the rows that made it."""
    lines = fact.rows.lines()
    head = f"{fact.spelling} = {style.figure(fact)}   ({fact.unit}, {fact.basis.value}, as of {fact.as_of})"
    tables = [rows_sheet(file, rows, lines[file]) for file, rows in fact.rows.cells().items() if rows]
    return "\n".join([head, f"  {fact.how}", *tables])


def rows_sheet(file: str, rows: Sequence[dict[str, str]], lines: Sequence[int]) -> str:
    """The rows of one file with their lines; columns that are empty in all of them are left out."""
    filled = [name for name in rows[0] if any(row.get(name) for row in rows)]
    body = [[str(line), *(row[name] for name in filled)] for line, row in zip(lines, rows, strict=True)]
    table = columns([["at line", *filled], *body])
    return f"\n  {file}, rows: {len(rows)}\n{indented(table)}"
