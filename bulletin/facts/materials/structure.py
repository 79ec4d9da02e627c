"""What goes into what on one day: models and made parts, down to the parts that are bought.

Pure of tables but for the two functions at the end, which know the columns of structure.csv.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from functools import cached_property, reduce
from graphlib import TopologicalSorter
from operator import or_

import numpy as np
import pandas as pd

Use = tuple[str, Fraction]
"""A component, or what it goes into, and how much of the component one parent takes."""


@dataclass(frozen=True, eq=False)
class Structure:
    """`uses` maps each parent, a model or a made part, to its components, each once."""

    uses: Mapping[str, tuple[Use, ...]]
    _above: dict[tuple[str, ...], list[str]] = field(default_factory=dict, repr=False)

    @cached_property
    def users(self) -> Mapping[str, tuple[Use, ...]]:
        """What each component goes into directly, and how much of it one of those takes."""
        users: dict[str, list[Use]] = {}
        for parent, components in self.uses.items():
            for component, quantity in components:
                users.setdefault(component, []).append((parent, quantity))
        return {component: tuple(parents) for component, parents in users.items()}

    @cached_property
    def order(self) -> tuple[str, ...]:
        """Everything in it, each before what goes into it. Raises graphlib.CycleError for a loop."""
        return tuple(TopologicalSorter({part: [parent for parent, _ in self.users[part]] for part in self.users}).static_order())

    @cached_property
    def _positions(self) -> Mapping[str, int]:
        return {name: position for position, name in enumerate(self.order)}

    @cached_property
    def _marks(self) -> Mapping[str, int]:
        """By name a bit for all that it goes into at any level, and its own: bit n is that of the n-th in `order`."""
        marks: dict[str, int] = {}
        for name, position in self._positions.items():
            mark = 1 << position
            for parent, _ in self.users.get(name, ()):
                mark |= marks[parent]
            marks[name] = mark
        return marks

    def goes_into(self, part: str, top: str) -> bool:
        """Whether a part goes into a model or another part at any level; it goes into itself."""
        return top in self._positions and bool(self._marks.get(part, 0) >> self._positions[top] & 1)

    def is_made(self, part: str) -> bool:
        """Whether a part has a structure of its own."""
        return part in self.uses

    def above(self, parts: Iterable[str]) -> list[str]:
        """Those of these parts that it holds and all that they go into, at any level, each before what goes into it."""
        asked = tuple(parts)
        if asked not in self._above:
            marks = reduce(or_, (self._marks.get(part, 0) for part in asked), 0)
            self._above[asked] = list(self._marked(marks))
        return self._above[asked]

    def _marked(self, marks: int) -> Iterator[str]:
        """The names whose bits are set, in order."""
        while marks:
            lowest = marks & -marks
            yield self.order[lowest.bit_length() - 1]
            marks ^= lowest

    def below(self, parents: Iterable[str]) -> list[str]:
        """All that goes into these models or parts, at any level, each before what goes into it."""
        direct = {component for parent in parents for component, _ in self.uses.get(parent, ())}
        return self._ordered(_closure(direct, self.uses))

    def _ordered(self, names: Collection[str]) -> list[str]:
        return sorted((name for name in names if name in self._positions), key=self._positions.__getitem__)


def _closure(starts: Iterable[str], following: Mapping[str, tuple[Use, ...]]) -> set[str]:
    found = set(starts)
    unvisited = list(found)
    while unvisited:
        new = {name for name, _ in following.get(unvisited.pop(), ())} - found
        found |= new
        unvisited.extend(new)
    return found


def in_effect(frame: pd.DataFrame, day: date) -> pd.DataFrame:
    """The rows of structure.csv in effect on a day, from and until inclusive; an empty date is no bound."""
    moment = np.datetime64(day)
    return frame[~(frame["from"] > moment) & ~(frame["until"] < moment)]


def structure_of(frame: pd.DataFrame) -> Structure:
    """The structure that rows of structure.csv tell: a component takes quantity / (1 - scrap) a parent.

    Rows of the same parent and component that are in effect together are added.
    """
    exact: dict[tuple[object, object], Fraction] = {}
    totals: dict[str, dict[str, Fraction]] = {}
    columns = (frame[name].tolist() for name in ("parent", "component", "quantity", "scrap"))
    for parent, component, quantity, scrap in zip(*columns, strict=True):
        if (quantity, scrap) not in exact:
            exact[quantity, scrap] = Fraction(quantity) / (1 - Fraction(scrap))
        uses = totals.setdefault(parent, {})
        amount = exact[quantity, scrap]
        uses[component] = uses[component] + amount if component in uses else amount
    return Structure({parent: tuple(uses.items()) for parent, uses in totals.items()})
