"""Needs down every level of the structure, shelves taken off once, and how far the shelves reach.

The need of a made part is summed over all that it goes into; what its shelf holds is taken off that sum, the rest runs down to
its components. All of it is exact, and fast, because needs are counted in whole grains: `grain` of them make one of a part.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import inf, lcm, nextafter

from bulletin.facts.materials.structure import Structure

Demand = Mapping[str, int]
"""Units by model."""
ENDLESS = sys.maxsize
MORE_THAN_ALL = nextafter(1.0, inf)
PATIENCE = 4
LEAP = 16
"""How many times as far is looked where the load is all but nothing."""


@dataclass(frozen=True)
class Growth:
    """A demand that grows step by step: a queue served, a plan built, a number of units of one mix.

    `at` tells the whole demand up to a step, from 0 for none; `steps` is the last one, if there is one. The demand stands in
    `parts_of_unit` parts of a unit, so that shares of a mix stay whole.
    """

    at: Callable[[int], Demand]
    steps: int = ENDLESS
    parts_of_unit: int = 1


@dataclass(frozen=True, eq=False)
class Needs:
    """A structure and its shelves: what each part has free, below 0 where more of it is reserved than there is."""

    structure: Structure
    shelves: Mapping[str, Fraction]

    def of(self, demand: Demand, parts: Iterable[str]) -> dict[str, Fraction]:
        """What a demand needs of each of these parts; 0 of one that the structure does not hold."""
        asked = list(parts)
        gross = self._gross(demand, self.structure.above(asked), 1)
        return {part: Fraction(gross[part], self.grain[part]) if part in gross else Fraction(0) for part in asked}

    def short(self, demand: Demand) -> frozenset[str]:
        """The parts whose shelves do not cover what a demand needs of them."""
        gross = self._gross(demand, self.structure.order, 1)
        return frozenset(part for part, need in gross.items() if need > 0 and need > self._stock[part])

    def reach(self, growth: Growth, parts: Iterable[str]) -> int:
        """The last step of a growing demand at which all of these parts are covered by their shelves.

        A part of which nothing is needed is covered, whatever is reserved of it. Needs never fall as a demand grows.
        """
        asked = [part for part in parts if part in self.grain]
        return self.reach_along(growth, asked, self.structure.above(asked))

    def reach_along(self, growth: Growth, asked: list[str], names: list[str]) -> int:
        """The same where only some names hand needs down to parts of the structure, each before what goes into it."""

        def load(step: int) -> float:
            """How much of the scarcest shelf is used up; above 1 just where it does not suffice."""
            gross = self._gross(growth.at(step), names, growth.parts_of_unit)
            return max((_share_used(gross[part], self._stock[part] * growth.parts_of_unit) for part in asked), default=0.0)

        return last_within(load, growth.steps)

    def _gross(self, demand: Demand, names: Iterable[str], parts_of_unit: int) -> dict[str, int]:
        """Grains needed of each of these by each other, each before what goes into it."""
        gross: dict[str, int] = {}
        rest: dict[str, int] = {}
        for name in names:
            need = 0
            for parent, grains in self._grains[name]:
                need += rest.get(parent, 0) * grains
            gross[name] = need
            shelf = self._stock[name] * parts_of_unit
            unmet = need - shelf if shelf > 0 else need
            rest[name] = (unmet if unmet > 0 else 0) + demand.get(name, 0)
        return gross

    @cached_property
    def grain(self) -> Mapping[str, int]:
        """So many grains make one of each thing in the structure that every need and every shelf is whole."""
        grain: dict[str, int] = {}
        for name in self.structure.order:
            users = self.structure.users.get(name, ())
            inherited = (grain[parent] * quantity.denominator for parent, quantity in users)
            grain[name] = lcm(self._free(name).denominator, *inherited)
        return grain

    @cached_property
    def _grains(self) -> Mapping[str, list[tuple[str, int]]]:
        """For each thing, what it goes into and how many of its grains a grain of that takes."""
        return {
            name: [
                (parent, quantity.numerator * own // (quantity.denominator * self.grain[parent]))
                for parent, quantity in self.structure.users.get(name, ())
            ]
            for name, own in self.grain.items()
        }

    @cached_property
    def _stock(self) -> Mapping[str, int]:
        return {name: _grains_of(self._free(name), own) for name, own in self.grain.items()}

    def _free(self, name: str) -> Fraction:
        return self.shelves.get(name, Fraction(0))


def _grains_of(quantity: Fraction, grain: int) -> int:
    return quantity.numerator * grain // quantity.denominator


def _share_used(need: int, shelf: int) -> float:
    """What a need takes of a shelf, above 1 just where it takes more than there is; none is needed of a part not needed."""
    if need <= 0:
        return 0.0
    if need <= shelf:
        return min(need / shelf, 1.0)
    return max(need / shelf, MORE_THAN_ALL) if shelf > 0 else inf


def last_within(load: Callable[[int], float], last: int) -> int:
    """The last step from 0 to `last` whose load is at most 1; the load never falls, and step 0 has none.

    Most loads grow about evenly. So the step is guessed by a straight line through what is known on both sides; a side that stays
    is taken for half as far off each time (the Illinois variant of false position), and the span is halved where it stays long.
    """
    low, below, high = 0, 1.0, last if last < ENDLESS else 1
    while (high_load := load(high)) <= 1:
        if high >= last:
            return last
        low, below, high = high, 1 - high_load, min(int(high / max(high_load, 1 / LEAP)) + 1, last)
    above, stayed = high_load - 1, 0
    while high - low > 1:
        span = high - low
        share = below / (below + above) if above < inf and abs(stayed) < PATIENCE else 0.5
        guess = low + min(max(int(span * share), 1), span - 1)
        guessed = load(guess) - 1
        if guessed <= 0:
            low, below, stayed = guess, -guessed, max(stayed, 0) + 1
            above /= 2 if stayed > 1 else 1
        else:
            high, above, stayed = guess, guessed, min(stayed, 0) - 1
            below /= 2 if stayed < -1 else 1
    return low


class Reach:
    """How far the shelves reach along one growing demand, for one part after the other."""

    def __init__(self, needs: Needs, growth: Growth) -> None:
        """The demand must have a last step."""
        self._needs = needs
        self._growth = growth
        self._found: dict[str, int] = {}

    def of(self, part: str) -> int:
        """The last step at which a part is covered by its shelf; most parts cover all of them, which is told at one glance."""
        if part not in self._found:
            short = part in self._short
            self._found[part] = self._needs.reach_along(self._growth, [part], self.way(part)) if short else self._growth.steps
        return self._found[part]

    def way(self, part: str) -> list[str]:
        """A part and all above it that hand needs down to it: what is demanded, and made parts that are short themselves."""
        return [name for name in self._needs.structure.above([part]) if name in self._handing_down or name == part]

    @cached_property
    def _handing_down(self) -> frozenset[str]:
        return self._short.union(self._demand)

    @cached_property
    def _demand(self) -> Demand:
        return self._growth.at(self._growth.steps)

    @cached_property
    def _short(self) -> frozenset[str]:
        """The parts that do not cover the whole demand."""
        return self._needs.short(self._demand)
