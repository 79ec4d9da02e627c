"""How a fact is written and found: scopes are classes, facts are their methods, doors lead into inner scopes.

A family (`boxed`, `coverage`) is a scope that begins with a day; `coverage.part["P-104"]` is a scope behind a door. A new fact
is one method: its name is its key, its docstring the sentence that explains it, its decorator says unit and basis.

    class Boxed(Scope):
        @fact("unit")
        def week(self) -> Found | Gap:
            '''Units first boxed in the week of the as-of date.'''

        @door("call", choices="models")
        def of(self, model: str) -> "Boxed | None":
            '''The same facts for one model.'''
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache, cached_property
from types import MappingProxyType
from typing import Any, ClassVar, Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from bulletin.facts.scopes.day import Day
from bulletin.model import Basis, Rounding, Step, Value

Records = Mapping[str, NDArray[np.int64]]
"""Record numbers (the index of a table's frame) by table name."""


def no_rows() -> Records:
    """For facts that no row made."""
    return {}


class Found(NamedTuple):
    """What a fact's method found: the exact value and how to find the records behind it, looked up only when asked for.

    `basis`, `unit` and `decimals` replace those of the decorator where they depend on the rows. `at_least` marks a count that
    may still grow.
    """

    value: Value
    rows: Callable[[], Records] = no_rows
    basis: Basis | None = None
    unit: str | None = None
    decimals: int | None = None
    at_least: bool = False


@dataclass(frozen=True, slots=True)
class Gap:
    """Why a fact can't be told: a short clause such as "no unit was boxed yet"."""

    why: str


@dataclass(frozen=True, slots=True)
class Manner:
    """How a fact is told where what was found doesn't say otherwise."""

    how: str
    unit: str = "text"
    basis: Basis = Basis.RECORD
    decimals: int = 0
    rounding: Rounding = "nearest"


@dataclass(frozen=True)
class FactMethod:
    """A method that is a fact; `tables` are those it needs besides the scope's own."""

    function: Callable[..., Found | Gap]
    manner: Manner
    tables: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """The last name of its key; `itself` is the fact of the scope's own path."""
        return self.function.__name__

    @cached_property
    def parameters(self) -> tuple[str, ...]:
        """The names of the arguments that a draft must give."""
        return tuple(inspect.signature(self.function).parameters)[1:]

    @cached_property
    def step(self) -> Step:
        """The last step of the paths to it."""
        return Step("name", self.name)


@dataclass(frozen=True)
class Door:
    """A method that leads into an inner scope by arguments; it returns None for arguments that lead nowhere.

    `choices` names the method that lists the arguments worth counting (one string each); without it the scope has
    too many to list, or private ones, and is shown only where it is asked for. `name` is empty where the item stands
    right behind the scope (`defects["D-12"]`).
    """

    function: Callable[..., Scope | None]
    kind: Literal["call", "item"]
    choices: str | None
    inner: str | None
    name: str

    @cached_property
    def parameters(self) -> tuple[str, ...]:
        """The names of its arguments."""
        return tuple(inspect.signature(self.function).parameters)[1:]


def sentence(documented: object) -> str:
    """The first paragraph of a docstring in one line; empty without one."""
    return " ".join((inspect.getdoc(documented) or "").split("\n\n")[0].split())


def fact(
    unit: str, basis: Basis = Basis.RECORD, *, decimals: int = 0, rounding: Rounding = "nearest", tables: Iterable[str] = ()
) -> Callable[[Callable[..., Found | Gap]], FactMethod]:
    """Make a method a fact, the first paragraph of its docstring the explanation; a missing table makes it absent."""

    def method(function: Callable[..., Found | Gap]) -> FactMethod:
        return FactMethod(function, Manner(sentence(function), unit, basis, decimals, rounding), tuple(tables))

    return method


def door(
    kind: Literal["call", "item"], *, choices: str | None = None, inner: str | None = None, name: str | None = None
) -> Callable[[Callable[..., Scope | None]], Door]:
    """Make a method a door; `name` is the method's own unless given, `inner` the class name behind it for the manual."""
    return lambda function: Door(function, kind, choices, inner, function.__name__ if name is None else name)


class Scope:
    """A family or an item of it: facts as methods, doors into inner scopes, the columns of its own row."""

    tables: ClassVar[tuple[str, ...]] = ()
    """The tables without which none of its facts can be told."""

    def __init__(self, day: Day) -> None:
        """Begin with the day; families take nothing else."""
        self.day = day

    @classmethod
    @cache
    def fact_methods(cls) -> Mapping[str, FactMethod]:
        """Its facts by name, in the order they are written, inherited ones first."""
        return MappingProxyType({name: member for name, member in cls._members() if isinstance(member, FactMethod)})

    @classmethod
    @cache
    def listed_facts(cls) -> Mapping[str, FactMethod]:
        """Those of its facts that have a name and take no arguments."""
        methods = cls.fact_methods().items()
        return MappingProxyType({name: method for name, method in methods if name != "itself" and not method.parameters})

    @classmethod
    @cache
    def doors(cls) -> Mapping[str, Door]:
        """Its doors by name."""
        return MappingProxyType({member.name: member for _, member in cls._members() if isinstance(member, Door)})

    @classmethod
    @cache
    def taken(cls) -> frozenset[str]:
        """Names that an item must not be mistaken for."""
        return frozenset(cls.fact_methods()) | frozenset(cls.doors())

    @classmethod
    def _members(cls) -> list[tuple[str, Any]]:
        return [item for layer in reversed(cls.__mro__) for item in vars(layer).items()]

    @classmethod
    def missing(cls, day: Day) -> str:
        """Why none of its facts can be told on a day; empty where they can."""
        return day.lacks(cls.tables)

    @classmethod
    def newest(cls, day: Day) -> date | None:  # noqa: ARG003
        """The day of the newest row the family rests on, for a family whose rows are dated."""
        return None

    def columns(self) -> Mapping[str, Callable[[], Found | Gap]]:
        """Further facts by name: the columns of an item's row. None for a scope that is no row."""
        return {}
