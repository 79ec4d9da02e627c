"""Checks of one table that need more than one cell: unique rows, what may not come before what, amounts with their sign."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from bulletin.tables.faults import CellFault, Wrong
from bulletin.tables.integer_keys import repeated_rows
from bulletin.tables.table import Table

WrongCells = frozenset[tuple[int, str]]


def single_faults(table: Table, wrong: WrongCells) -> Iterator[CellFault]:
    """All faults between the cells of a table; cells that are wrong by themselves are left alone."""
    yield from _repeated(table, wrong)
    for first, second in table.layout.ordered:
        yield from _beyond(table, (first, second), second, wrong)
    for first, second in table.layout.at_most:
        yield from _beyond(table, (first, second), first, wrong)
    if table.name == "credits" and table.has("amount"):
        yield from _signs(table, wrong)


def _repeated(table: Table, wrong: WrongCells) -> Iterator[CellFault]:
    """Rows with the key of an earlier one."""
    unique = table.layout.unique
    if not unique or not all(table.has(column) or table.layout.column(column).optional for column in unique):
        return
    positions, keys = repeated_rows([table.frame[column] for column in unique])
    first_of: dict[int, int] = {}
    for at, key in zip(positions.tolist(), keys.tolist(), strict=True):
        record = int(table.frame.index[at])
        first = first_of.setdefault(key, record)
        if first != record and not any((record, column) in wrong for column in unique):
            given = [column for column in unique if table.has(column)]
            details = {"key_columns": ",".join(given), "first": str(table.lines([first])[0])}
            yield CellFault(record, given[0], _text(table, record, given[0]), Wrong("row-twice", details))


def _beyond(table: Table, pair: tuple[str, str], blamed: str, wrong: WrongCells) -> Iterator[CellFault]:
    """Rows in which the first of a pair exceeds the second."""
    first, second = (table.frame[name] for name in pair)
    exceeds: NDArray[np.bool_] = np.asarray((first > second).fillna(value=False), dtype=bool)
    for at in np.flatnonzero(exceeds).tolist():
        record = int(table.frame.index[at])
        if any((record, column) in wrong for column in pair):
            continue
        texts = {"first_text": _text(table, record, pair[0]), "second_text": _text(table, record, pair[1])}
        details = {"first_column": pair[0], "second_column": pair[1], **texts}
        rule = "days-reversed" if table.frame[pair[0]].dtype.kind == "M" else "numbers-reversed"
        yield CellFault(record, blamed, _text(table, record, blamed), Wrong(rule, details))


def _signs(table: Table, wrong: WrongCells) -> Iterator[CellFault]:
    """Only corrections carry a sign."""
    negative = (table.frame["amount"] < 0) & (table.frame["kind"] != "correction")
    for record in table.frame.index[negative].tolist():
        if (record, "kind") not in wrong and (record, "amount") not in wrong:
            yield CellFault(record, "amount", _text(table, record, "amount"), Wrong("cell-too-small", {"limit": "at least 0"}))


def _text(table: Table, record: int, column: str) -> str:
    number = table.given.get(column, -1)
    return table.source.cells(record)[number].strip() if number >= 0 else ""
