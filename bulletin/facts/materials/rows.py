"""The rows behind facts of materials: found by part once, so that thousands of parts can name theirs."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from bulletin.facts.counting.keys import Integers
from bulletin.facts.counting.positions import positions_by

if TYPE_CHECKING:
    from bulletin.facts.materials.structure import Structure
    from bulletin.facts.scopes.day import Day

NOTHING = np.empty(0, np.int64)


class MaterialRows:
    """Record numbers of orders, structure, stock and reservations."""

    def __init__(self, day: Day, structure: Structure, structure_rows: pd.DataFrame) -> None:
        """`structure_rows` are the rows of structure.csv in effect, which the structure was made of."""
        self._day = day
        self._structure = structure
        self._structure_rows = structure_rows
        self._waiting: dict[tuple[str, ...], Integers] = {}
        self._below: dict[tuple[str, ...], frozenset[str]] = {}

    def of_needs(self, models: tuple[str, ...], parts: Collection[str]) -> dict[str, Integers]:
        """Behind what waiting orders of these models need of these parts: orders, structure, shelves."""
        above = set(self._structure.above(parts))
        return {"orders": self.waiting(tuple(model for model in models if model in above)), **self.of_shelves(models, parts)}

    def of_shelves(self, models: tuple[str, ...], parts: Collection[str]) -> dict[str, Integers]:
        """The structure that leads from these models to these parts, and all shelves on the way."""
        on_the_way = self._reached(models).intersection(self._structure.above(parts))
        shelves = on_the_way.union(parts)
        links = (record for name in on_the_way for parent, record in self._links.get(name, ()) if parent in on_the_way)
        found = {"structure": np.array(sorted(links), np.int64)}
        if self._day.has("stock"):
            found["stock"] = self.stock(shelves)
        if self._day.has("reserved"):
            found["reserved"] = self.reserved(shelves)
        return found

    def waiting(self, models: tuple[str, ...]) -> Integers:
        """The waiting orders of these models."""
        if models not in self._waiting:
            orders = self._day.table("orders").frame
            self._waiting[models] = records_of(orders[(orders["status"] == "waiting") & orders["model"].isin(models)])
        return self._waiting[models]

    def stock(self, parts: Iterable[str]) -> Integers:
        """Usable stock of these parts."""
        return _together(self._usable, parts)

    def held(self, parts: Iterable[str]) -> Integers:
        """Stock of these parts in inspection or quarantine."""
        return _together(self._held, parts)

    def reserved(self, parts: Iterable[str]) -> Integers:
        """What is reserved of these parts."""
        return _together(self._reserved, parts)

    def _reached(self, models: tuple[str, ...]) -> frozenset[str]:
        """These models and all that goes into them."""
        if models not in self._below:
            self._below[models] = frozenset((*models, *self._structure.below(models)))
        return self._below[models]

    @cached_property
    def _links(self) -> Mapping[str, list[tuple[str, int]]]:
        """By component, each parent it goes into and the record that says so."""
        frame = self._structure_rows
        links: dict[str, list[tuple[str, int]]] = {}
        rows = zip(frame["component"].tolist(), frame["parent"].tolist(), frame.index.tolist(), strict=True)
        for component, parent, record in rows:
            links.setdefault(component, []).append((parent, record))
        return links

    @cached_property
    def _usable(self) -> Mapping[str, Integers]:
        frame = self._day.table("stock").frame
        return _by_part(frame[frame["state"] == "usable"])

    @cached_property
    def _held(self) -> Mapping[str, Integers]:
        frame = self._day.table("stock").frame
        return _by_part(frame[frame["state"] != "usable"])

    @cached_property
    def _reserved(self) -> Mapping[str, Integers]:
        return _by_part(self._day.table("reserved").frame)


def _by_part(frame: pd.DataFrame) -> dict[str, Integers]:
    records = records_of(frame)
    return {part: records[positions] for part, positions in positions_by(frame["part"]).items()}


def _together(by_part: Mapping[str, Integers], parts: Iterable[str]) -> Integers:
    """The records of several parts, ascending."""
    return np.sort(np.concatenate([NOTHING, *(by_part[part] for part in parts if part in by_part)]))


def records_of(frame: pd.DataFrame) -> Integers:
    """The numbers of the records in a frame."""
    return frame.index.to_numpy(np.int64)
