"""bulletin.toml in: read, checked, every fault at once with its line and column."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from bulletin.model import Problem
from bulletin.settings.checks import faults
from bulletin.settings.notice_terms import with_terms
from bulletin.settings.shape import Settings
from bulletin.settings.toml_places import TomlPlaces
from bulletin.settings.toml_text import read_toml, text_of
from bulletin.settings.validation import validated

FILE = "bulletin.toml"


def read_settings(folder: Path) -> tuple[Settings | None, list[Problem]]:
    """The settings of a data folder, or None where an error stands among the problems."""
    raw, places, problems = read_toml(folder / FILE)
    if raw is None:
        return None, problems
    settings, problems = validated(Settings, raw, places, faults(raw))
    if settings is None:
        return None, problems
    settings, problems = with_terms(settings, folder, places)
    return settings, [*_warnings(raw, places), *problems]


def settings_places(folder: Path) -> TomlPlaces:
    """The places of bulletin.toml's keys, for stages that find a fault in them; of no key where it cannot be read."""
    text, problems = text_of(folder / FILE)
    return TomlPlaces(FILE, "" if problems else text)


def _warnings(raw: Mapping[str, Any], places: TomlPlaces) -> Iterator[Problem]:
    if "time_zone" not in raw["maker"]:
        yield Problem("time-zone-missing", "warn", places.find(("maker",)))
