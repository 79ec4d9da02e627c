"""From the values of a TOML file to a frozen record: every fault at once, each at its place, with an offer where there is one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any, TypeVar, get_args
from zoneinfo import available_timezones

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from bulletin.model import Problem
from bulletin.settings.checks import Fault
from bulletin.settings.codes import begun, nearest, usual_locale
from bulletin.settings.toml_places import Keys, TomlPlaces

Shape = TypeVar("Shape", bound=BaseModel)


def validated(
    shape: type[Shape], raw: Mapping[str, Any], places: TomlPlaces, found: Iterable[Fault] = ()
) -> tuple[Shape | None, list[Problem]]:
    """The record of these values, or None with its faults and those that were found before, sorted by place."""
    faults = list(found)
    record: Shape | None = None
    try:
        record = shape.model_validate(raw)
    except ValidationError as error:
        faults += [_fault(details, raw, shape) for details in error.errors()]
    problems = sorted(
        (_problem(fault, places) for fault in dict.fromkeys(faults)), key=lambda problem: (problem.place, problem.rule)
    )
    return (None if problems else record), problems


def _problem(fault: Fault, places: TomlPlaces) -> Problem:
    details = {"key": _spelt(fault.path), "expected": fault.expected}
    return Problem(fault.rule, "error", places.find(fault.path), fault.words, details, fault.offer)


def _fault(error: ErrorDetails, raw: Mapping[str, Any], shape: type[BaseModel]) -> Fault:
    path = _path(error["loc"], raw)
    kind, given = error["type"], error["input"]
    if kind == "extra_forbidden":
        return Fault(path, "setting-unknown", str(path[-1]), "", nearest(str(path[-1]), _known_keys(path, shape)))
    if kind == "missing":
        return Fault(path, "setting-missing", "", "")
    return Fault(path, "setting-wrong", _shown(given), _expected(error), _offer(error, path))


def _path(location: tuple[int | str, ...], raw: Any) -> Keys:
    """The part of pydantic's location that leads through the file; the kinds it tried are not keys."""
    path: list[str | int] = []
    for step in location:
        inside = isinstance(raw, dict) or (isinstance(raw, list) and isinstance(step, int) and step < len(raw))
        if not inside or step == "[key]":
            break
        path.append(step)
        raw = raw.get(step) if isinstance(raw, dict) else raw[int(step)]
    return tuple(path)


def _known_keys(path: Keys, shape: type[BaseModel]) -> list[str]:
    """The keys that may stand where the last one of a path stands."""
    model = shape
    for step in path[:-1]:
        if isinstance(step, str) and step in model.model_fields:
            model = _section(model.model_fields[step].annotation) or model
    return sorted(model.model_fields)


def _section(annotation: Any) -> type[BaseModel] | None:
    """The section an annotation speaks of: itself, or the one inside its brackets."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for inner in get_args(annotation) if (found := _section(inner)) is not None), None)


def _expected(error: ErrorDetails) -> str:
    message = error["msg"].removeprefix("Value error, ")
    message = message.removeprefix("Input should be ").replace("'", '"')
    if message == "an instance of Decimal":
        return "a number with a point, above 0 and below 1, such as 0.8"
    if message in ("a valid dictionary", "a valid mapping"):
        return 'a table such as { en = "…" }'
    return {"a valid tuple": "a list", "a valid string": "text in quotation marks", "a valid integer": "a whole number"}.get(
        message, message.replace("a valid dictionary or instance of ", "a table like ").replace("a valid mapping", "a table")
    )


def _offer(error: ErrorDetails, path: Keys) -> str:
    given = error["input"]
    if isinstance(given, (int, Decimal)) and not isinstance(given, bool) and ("amount" in path or "cap" in path):
        return f'"{given}"'
    if isinstance(given, int) and error["type"] == "string_type":
        return f'"{given}"'
    if error["type"] == "literal_error" and isinstance(given, str):
        choices = [choice.strip("' ") for choice in error["ctx"]["expected"].replace(" or ", ", ").split(",")]
        return nearest(given, choices) or begun(given, choices)
    if path[:2] == ("maker", "locales") and isinstance(given, str):
        return usual_locale(given)
    if path[-1] == "time_zone" and isinstance(given, str):
        return nearest(given, available_timezones())
    return ""


def _shown(given: Any) -> str:
    return given if isinstance(given, str) else str(given).lower() if isinstance(given, bool) else str(given)


def _spelt(path: Keys) -> str:
    """A path as a reader of TOML would write it: `credit.tiers[2].amount`, items counted from 1."""
    spelt = ""
    for step in path:
        spelt += f"[{step + 1}]" if isinstance(step, int) else f".{step}"
    return spelt.removeprefix(".")
