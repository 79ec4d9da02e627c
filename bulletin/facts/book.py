"""The book of a day's facts: opens families by their path, computes each fact when it is first asked for."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache, cached_property

from bulletin.facts.families import FAMILIES
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import Door, FactMethod, Found, Gap, Manner, Scope
from bulletin.facts.scopes.rows import SourceRows
from bulletin.facts.spelling import Spelled, nameless, spelled_as_given
from bulletin.model import Absent, Fact, Path, Step

FAMILY = re.compile(r"[^.\[]+")


@dataclass(frozen=True, slots=True)
class Listed:
    """A scope whose facts are listed: what it is, itself or why it can't be told, how it is spelled, which facts are listed."""

    kind: type[Scope]
    scope: Scope | Absent
    at: Spelled
    facts: Mapping[str, FactMethod]


@dataclass(frozen=True, eq=False)
class Book:
    """The facts of one day (`model.Facts`), of all families or some."""

    day: Day
    families: Mapping[str, type[Scope]] = field(default_factory=lambda: FAMILIES, repr=False)
    _found: dict[Path, Fact | Absent] = field(default_factory=dict, repr=False)
    _scopes: dict[str, Scope | None] = field(default_factory=dict, repr=False)
    _listed: dict[Path, Listed] = field(default_factory=dict, repr=False)
    _opened: dict[str, dict[str, Path]] = field(default_factory=dict, repr=False)

    @property
    def as_of(self) -> date:
        """The day they hold for."""
        return self.day.as_of

    def find(self, path: Path) -> Fact | Absent:
        """The fact at the end of a path; Absent with the reason where there is none."""
        found = self._found.get(path)
        if found is None:
            found = self._found[path] = self._as_listed(path) or self._look_up(path)
        return found

    def countable(self) -> list[Path]:
        """Paths to all facts without free arguments and not of single orders, sorted by key."""
        return list(self._paths.values())

    def keyed(self) -> dict[str, Path]:
        """The countable paths by key, sorted by it, and behind them those that the last recorded bulletin holds, as `last.`."""
        return {**self._paths, **self._recorded(self._paths)}

    def below(self, key: str) -> list[Path]:
        """Of all these the paths whose key begins with a family or an item; no other family is opened."""
        name, _, rest = key.partition(".")
        of_last = name == "last"
        family = FAMILY.match(rest if of_last else key)
        paths = self._paths_of(family[0]) if family else self._paths
        asked = self._recorded(paths) if of_last else paths
        return [path for known, path in asked.items() if known.startswith((f"{key}.", f"{key}["))]

    def _recorded(self, paths: Mapping[str, Path]) -> dict[str, Path]:
        return {f"last.{key}": (Step("name", "last"), *path) for key, path in paths.items() if key in self.day.last}

    @cached_property
    def _paths(self) -> dict[str, Path]:
        return _sorted({key: path for name in self.families for key, path in self._paths_of(name).items()})

    def _paths_of(self, name: str) -> Mapping[str, Path]:
        """The countable paths of a family by key; on the way, `_listed` learns whose facts they are."""
        if name in self.families and name not in self._opened:
            keyed: dict[str, Path] = {}
            self._list(self.families[name], (Step("name", name),), Spelled(name, name), keyed)
            self._opened[name] = _sorted(keyed)
        return self._opened.get(name, {})

    def newest(self, family: str) -> date | None:
        """The day of the newest row that a family rests on; None for a family that is not dated or has no row."""
        scope = self.families.get(family)
        if scope is None or scope.missing(self.day):
            return None
        return scope.newest(self.day)

    def _as_listed(self, path: Path) -> Fact | Absent | None:
        """A fact of a scope that has been listed, told without going through every door to it; None for any other path."""
        listed = self._listed.get(path[:-1])
        if listed is None or path[-1].kind != "name":
            return None
        name = path[-1].text
        method = listed.facts.get(name)
        if method is not None:
            return self._tell(listed.scope, method, (), listed.at.name(name))
        if isinstance(listed.scope, Absent) or name in listed.kind.fact_methods() or name not in listed.scope.columns():
            return None
        return self._tell_column(listed.scope, name, listed.at)

    def _look_up(self, path: Path) -> Fact | Absent:
        if not path or path[0].kind not in ("name", "any"):
            return nameless(path, "a fact begins with the name of its family")
        first = path[0].text
        if first == "last":
            return self._last(path[1:], spelled_as_given(path))
        if first not in self.families:
            return nameless(path, f"there is no family of facts named {first}")
        found = self._descend(self.families[first], path[1:], Spelled(first, first))
        return found or nameless(path, "there is no fact of this name")

    def _last(self, path: Path, text: Spelled) -> Fact | Absent:
        if not self.day.last:
            return Absent(text.key, text.draft, "no bulletin of an earlier day is on record")
        now = self.find(path)
        recorded = self.day.last.get(now.key)
        if recorded is None:
            known = isinstance(now, Fact) or now.known
            return Absent(text.key, text.draft, "the last recorded bulletin does not hold it", known=known)
        return replace(recorded, key=f"last.{recorded.key}", spelling=f"last.{recorded.spelling}")

    def _descend(self, kind: type[Scope], path: Path, at: Spelled) -> Fact | Absent | None:
        """The fact below a scope's class; its instance is made only once the path is known to lead somewhere."""
        method = self._method(kind, path)
        if method is not None:
            arguments = tuple(step.text for step in path[1:])
            here = at.name(path[0].text) if path else at
            here = here.arguments("call", arguments, frozenset()) if arguments else here
            return self._tell(self._scope(kind, at), method, arguments, here)
        nowhere: Absent | None = None
        for inner in self._doors(kind, path):
            width = len(inner.parameters)
            begin = 1 if inner.name else 0
            texts = tuple(step.text for step in path[begin : begin + width])
            inside = self._spell_door(kind, at, inner, texts)
            through = self._through(kind, at, inner, (texts, inside))
            if isinstance(through, Absent):
                return through
            if through is None:
                nowhere = Absent(inside.key, inside.draft, "there is no such item", known=False)
                continue
            found = self._inside(through, path[begin + width :], inside)
            if found is not None:
                return found
        return nowhere

    def _inside(self, scope: Scope, path: Path, at: Spelled) -> Fact | Absent | None:
        self._scopes[at.key] = scope
        if len(path) == 1 and path[0].kind in ("name", "any"):
            name = path[0].text
            if name in scope.columns() and name not in type(scope).fact_methods():
                return self._tell_column(scope, name, at)
        return self._descend(type(scope), path, at)

    def _method(self, kind: type[Scope], path: Path) -> FactMethod | None:
        methods = kind.fact_methods()
        if not path:
            return methods.get("itself")
        method = methods.get(path[0].text) if path[0].kind in ("name", "any") else None
        if method is None or method.name == "itself":
            return None
        arguments = path[1:]
        fits = len(arguments) == len(method.parameters) and all(step.kind != "name" for step in arguments)
        return method if fits else None

    def _doors(self, kind: type[Scope], path: Path) -> Iterator[Door]:
        for inner in kind.doors().values():
            begin = 1 if inner.name else 0
            if inner.name and not (path and path[0].kind in ("name", "any") and path[0].text == inner.name):
                continue
            steps = path[begin : begin + len(inner.parameters)]
            if len(steps) == len(inner.parameters) and all(leads_in(step, inner.kind) for step in steps):
                yield inner

    def _through(
        self, kind: type[Scope], at: Spelled, inner: Door, given: tuple[tuple[str, ...], Spelled]
    ) -> Scope | Absent | None:
        texts, inside = given
        if inside.key not in self._scopes:
            scope = self._scope(kind, at)
            if isinstance(scope, Absent):
                return Absent(inside.key, inside.draft, scope.why)
            self._scopes[inside.key] = inner.function(scope, *texts)
        return self._scopes[inside.key]

    def _spell_door(self, kind: type[Scope], at: Spelled, inner: Door, texts: tuple[str, ...]) -> Spelled:
        return (at.name(inner.name) if inner.name else at).arguments(inner.kind, texts, kind.taken())

    def _scope(self, kind: type[Scope], at: Spelled) -> Scope | Absent:
        missing = kind.missing(self.day)
        if missing:
            return Absent(at.key, at.draft, missing)
        if at.key not in self._scopes:
            self._scopes[at.key] = self.day.once(kind)
        scope = self._scopes[at.key]
        return scope if scope is not None else Absent(at.key, at.draft, "there is no such item", known=False)

    def _tell(self, scope: Scope | Absent, method: FactMethod, arguments: tuple[str, ...], here: Spelled) -> Fact | Absent:
        if isinstance(scope, Absent):
            return Absent(here.key, here.draft, scope.why)
        missing = self.day.lacks(method.tables)
        if missing:
            return Absent(here.key, here.draft, missing)
        return self._as_fact(method.function(scope, *arguments), here, method.manner)

    def _tell_column(self, scope: Scope, name: str, at: Spelled) -> Fact | Absent:
        return self._as_fact(scope.columns()[name](), at.name(name), as_the_row_has_it(name))

    def _as_fact(self, found: Found | Gap, here: Spelled, told: Manner) -> Fact | Absent:
        if isinstance(found, Gap):
            return Absent(here.key, here.draft, found.why)
        return Fact(
            key=here.key,
            spelling=here.draft,
            value=found.value,
            unit=found.unit or told.unit,
            basis=found.basis or told.basis,
            as_of=self.day.as_of,
            how=told.how,
            rows=SourceRows(self.day.tables, found.rows),
            decimals=told.decimals if found.decimals is None else found.decimals,
            rounding=told.rounding,
            at_least=found.at_least,
        )

    def _list(self, kind: type[Scope], path: Path, at: Spelled, keyed: dict[str, Path]) -> None:
        """Add the paths to the countable facts of a scope and of all behind its doors."""
        scope = self._scope(kind, at)
        outside = self._listed[path] = Listed(kind, scope, at, kind.listed_facts())
        if "itself" in kind.fact_methods():
            keyed[at.key] = path
        for name, method in kind.listed_facts().items():
            keyed[f"{at.key}.{name}"] = (*path, method.step)
        if isinstance(scope, Absent):
            return
        for name in scope.columns():
            if name not in kind.fact_methods():
                keyed[f"{at.key}.{name}"] = (*path, step_to(name))
        for inner in kind.doors().values():
            for choice in getattr(scope, inner.choices)() if inner.choices else ():
                self._list_behind(inner, choice, outside, (path, keyed))

    def _list_behind(self, inner: Door, choice: str, outside: Listed, found: tuple[Path, dict[str, Path]]) -> None:
        path, keyed = found
        inside = self._spell_door(outside.kind, outside.at, inner, (choice,))
        through = self._through(outside.kind, outside.at, inner, ((choice,), inside))
        if isinstance(through, Scope):
            steps = (*path, *((Step("name", inner.name),) if inner.name else ()), Step(inner.kind, choice))
            self._list(type(through), steps, inside, keyed)


def _sorted(keyed: Mapping[str, Path]) -> dict[str, Path]:
    """Paths by key, sorted by it."""
    return {key: keyed[key] for key in sorted(keyed)}


@cache
def step_to(column: str) -> Step:
    """The last step of the paths to a column of any item."""
    return Step("name", column)


@cache
def as_the_row_has_it(column: str) -> Manner:
    """How a column of an item's row is told."""
    return Manner(f"As the row has it under {column}.")


def leads_in(step: Step, kind: str) -> bool:
    """Whether a step may be an argument of a door; a key writes those of calls in brackets too, where they need any."""
    return step.kind in (kind, "any", "item")


def facts_of(day: Day, families: Mapping[str, type[Scope]] = FAMILIES) -> Book:
    """All facts of a day, or those of some families, none computed yet."""
    return Book(day, families)
