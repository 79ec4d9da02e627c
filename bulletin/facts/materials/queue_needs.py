"""Which waiting orders each part holds up: free stock serves the orders of all models in the order of the queue.

An order is held up by a part when its own units need it and, with what the orders before it take, more of it is needed than
stands free. Made parts on the shelf serve the first orders, so that these need nothing of what goes into them: for every model
and part there is one place in the queue from which on each order is held up, and no order has to be looked at by itself.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from functools import cached_property

import numpy as np

from bulletin.facts.counting.backlog import backlog_of
from bulletin.facts.counting.keys import Integers
from bulletin.facts.materials.materials import Materials
from bulletin.facts.materials.needs import Demand, Growth, Reach
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Records
from bulletin.model import Name
from bulletin.tables.categories import codes_among


class QueueNeeds:
    """The needs of the waiting orders one by one; built with `day.once(QueueNeeds)`. Places count from 0 here."""

    def __init__(self, day: Day) -> None:
        """Begin with the day."""
        self.day = day
        self.materials = day.once(Materials)
        self._begin: dict[str, list[tuple[Name, int]]] = {}

    @cached_property
    def order(self) -> Integers:
        """Positions in the frame of orders of all waiting ones, in the order in which stock serves them.

        Held orders and asked refunds wait outside the queue; what stands free goes to all others first.
        """
        backlog = self.day.once(backlog_of)
        outside = (backlog.held | backlog.refund)[backlog.turn]
        return np.concatenate([backlog.turn[~outside], backlog.turn[outside]])

    @cached_property
    def places(self) -> Mapping[str, Integers]:
        """The places of each model's orders, ascending."""
        models = list(self.materials.waiting)
        model = codes_among(self.day.table("orders").frame["model"], models)[self.order]
        return {name: np.flatnonzero(model == number) for number, name in enumerate(models)}

    @cached_property
    def growth(self) -> Growth:
        """The waiting orders as a demand that grows order by order."""

        def at(step: int) -> Demand:
            return {model: int(np.searchsorted(places, step)) for model, places in self.places.items()}

        return Growth(at, len(self.order))

    def held_up(self, part: str, models: Collection[str]) -> int:
        """How many waiting orders of these models a part holds up."""
        return sum(len(places) - first for places, first in self._held(part, models))

    def rows(self, part: str, models: Collection[str]) -> Records:
        """The orders held up, and the rows of structure and stock behind that."""
        frame = self.day.table("orders").frame
        held = (places[first:] for places, first in self._held(part, models))
        places = np.sort(np.concatenate([np.empty(0, np.int64), *held]))
        records = frame.index.to_numpy(np.int64)[self.order[places]]
        return {**self.materials.rows.of_needs(tuple(self.places), [part]), "orders": records}

    def awaited(self, position: int) -> tuple[Name, ...]:
        """The parts that hold up one waiting order, given by its position in the frame of orders; sorted by id."""
        model = str(self.day.table("orders").frame["model"].iloc[position])
        place = self._place_of[position]
        return tuple(name for name, first in self._begins(model) if place >= first)

    def _begins(self, model: str) -> list[tuple[Name, int]]:
        """For each bought part of a model the place from which on it holds up orders, once for all orders."""
        if model not in self._begin:
            parts = self.materials.bought([model])
            self._begin[model] = [(self.materials.name(part), self.first_held(part, model)) for part in parts]
        return self._begin[model]

    @cached_property
    def _place_of(self) -> dict[int, int]:
        return {position: place for place, position in enumerate(self.order.tolist())}

    def first_held(self, part: str, model: str) -> int:
        """The place from which on every order of a model is held up for want of a part; the length of the queue if none is."""
        return max(self._reach.of(part), self._opened(part, model))

    def _held(self, part: str, models: Collection[str]) -> list[tuple[Integers, int]]:
        """The places of each of these models that needs the part, and how many of them come before the first it holds up."""
        if self._reach.of(part) == len(self.order):
            return []
        needs = self.materials.structure.goes_into
        asked = {model: places for model, places in self.places.items() if model in models and needs(part, model)}
        return [(places, int(np.searchsorted(places, self.first_held(part, model)))) for model, places in asked.items()]

    def _opened(self, part: str, model: str) -> int:
        """The place from which on orders of a model need the part: some way down to it has no made part left on a shelf."""
        opened = {model: 0}
        for name in self._reach.way(part):
            ways = [
                opened[parent] if parent == model else max(opened[parent], self._reach.of(parent))
                for parent, _ in self.materials.structure.users.get(name, ())
                if parent in opened
            ]
            if ways and name != model:
                opened[name] = min(ways)
        return opened.get(part, len(self.order))

    @cached_property
    def _reach(self) -> Reach:
        return Reach(self.materials.needs, self.growth)
