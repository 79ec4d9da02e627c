"""Checks between tables: references that lead somewhere, a status as boxed, a structure without loops, tiers for currencies."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
import pandas as pd

from bulletin.model import Level, Problem
from bulletin.settings import Settings
from bulletin.tables.against_boxing import against_boxing
from bulletin.tables.faults import CellFault, Where, Wrong
from bulletin.tables.integer_keys import NONE, among
from bulletin.tables.layouts import Column
from bulletin.tables.shared_keys import SharedKeys
from bulletin.tables.table import Table


@dataclass(frozen=True, eq=False)
class Checked:
    """A table whose cells have been checked, how its faults find their places, and whether all its rows could be read."""

    table: Table
    where: Where
    whole: bool


def problems_between(tables: Mapping[str, Checked], keys: SharedKeys, settings: Settings) -> list[Problem]:
    """All faults between tables, whose ids are compared by `keys`.

    What a table with broken rows holds is not known, so nothing is held against it.
    """
    problems: list[Problem] = []
    whole = {name: checked.table for name, checked in tables.items() if checked.whole}
    for checked in tables.values():
        faults = list(_lost_references(checked.table, whole, keys)) if checked.whole else []
        if checked.table.name == "orders" and checked.whole and "boxing" in whole:
            faults += against_boxing(checked.table, whole["boxing"], keys)
        if checked.table.name == "structure":
            faults += _loops(checked.table)
        if checked.table.name == "orders" and settings.credit is not None:
            faults += _without_tier(checked.table, frozenset(settings.credit.tiers[0].amount))
        problems += checked.where.problems(faults)
    return problems


def _lost_references(table: Table, tables: Mapping[str, Table], shared: SharedKeys) -> Iterator[CellFault]:
    for column in table.layout.columns:
        targets = [(tables[name], key) for name, key in column.refers if name in tables]
        targets = [(target, key) for target, key in targets if target.has(key)]
        if column.refers and len(targets) == len(column.refers) and table.has(column.name):
            yield from _lost(table, column, targets, shared)


def _lost(table: Table, column: Column, targets: list[tuple[Table, str]], shared: SharedKeys) -> Iterator[CellFault]:
    """Cells that no target holds. No other id is offered instead, however like: it would be another order, unit or part."""
    values = table.frame[column.name]
    if any(target.layout.column(key).kind == "model" for target, key in targets):
        lost = np.asarray(~values.isin(_known(targets)) & values.notna() & (values != ""))
    else:
        keys, *known = shared.of((table.name, column.name), *((target.name, key) for target, key in targets))
        lost = (keys != NONE) & ~among(keys, np.concatenate(known))
    if not lost.any():
        return
    file = " or ".join(dict.fromkeys(target.file for target, _ in targets))
    level: Level = "warn" if column.loosely else "error"
    for at in np.flatnonzero(lost).tolist():
        wrong = Wrong("reference-lost", {"target": file})
        yield CellFault(int(table.frame.index[at]), column.name, str(values.iloc[at]), wrong, level)


def _known(targets: list[tuple[Table, str]]) -> list[str]:
    """All models, and ids beside them, that targets hold."""
    return sorted({str(text) for target, key in targets for text in pd.Series(target.frame[key].unique()).dropna()})


def _without_tier(orders: Table, named: frozenset[str]) -> Iterator[CellFault]:
    """The first order of each currency in which no tier says what waiting earns."""
    currency = orders.frame["currency"]
    for code in currency.cat.categories:
        if code not in named and (currency == code).any():
            record = int(currency.index[(currency == code).to_numpy().argmax()])
            details = {"named": ", ".join(sorted(named)), "rows": str(int((currency == code).sum()))}
            yield CellFault(record, "currency", str(code), Wrong("currency-without-tier", details))


def _loops(structure: Table) -> Iterator[CellFault]:
    """Each row that closes a loop, with the loop it closes."""
    children: dict[str, list[tuple[str, int]]] = {}
    frame = structure.frame
    for record, parent, component in zip(frame.index.tolist(), frame["parent"], frame["component"], strict=True):
        if parent and component:
            children.setdefault(parent, []).append((component, record))
    for record, loop in _closing(children):
        yield CellFault(record, "component", loop[0], Wrong("structure-loop", {"loop": " > ".join(loop)}))


def _closing(children: Mapping[str, list[tuple[str, int]]]) -> Iterator[tuple[int, list[str]]]:
    """Walk down from each parent, depth first; a component that stands on the way down closes a loop."""
    finished: set[str] = set()
    for top in children:
        way, walks = ([], []) if top in finished else ([top], [iter(children[top])])
        while walks:
            part, record = next(walks[-1], (None, -1))
            if part is None:
                finished.add(way.pop())
                walks.pop()
            elif part in way:
                yield record, [*way[way.index(part) :], part]
            elif part not in finished:
                way.append(part)
                walks.append(iter(children.get(part, ())))
