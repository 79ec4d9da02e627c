"""Which rule each `[[notice]]` section of the settings goes by: the shipped texts, and a maker's own laid over them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from bulletin.model import Problem
from bulletin.settings.notice_checks import text_faults, words_of
from bulletin.settings.notice_texts import NoticeRule, NoticeTerms, NoticeTexts
from bulletin.settings.shape import Notice, Settings
from bulletin.settings.toml_places import TomlPlaces
from bulletin.settings.toml_text import read_toml
from bulletin.settings.validation import validated

SHIPPED = Path(__file__).with_name("notice_texts.toml")
ANY_OTHER = "*"


def with_terms(settings: Settings, folder: Path, places: TomlPlaces) -> tuple[Settings | None, list[Problem]]:
    """The settings with the terms of each `[[notice]]` section bound to it; None where a file of texts has an error."""
    texts, problems = _texts_by_file(settings, folder, places)
    if any(problem.level == "error" for problem in problems):
        return None, problems
    bound = []
    for number, section in enumerate(settings.notice):
        terms = terms_of(texts[section.texts or ""], section.rule)
        if terms.rule.name == ANY_OTHER:
            problems.append(Problem("notice-rule-unknown", "warn", places.find(("notice", number, "rule")), section.rule))
        bound.append(section.under(terms))
    return settings.model_copy(update={"notice": tuple(bound)}), problems


def _texts_by_file(settings: Settings, folder: Path, places: TomlPlaces) -> tuple[dict[str, NoticeTexts], list[Problem]]:
    """The texts of each file that a section names, under its name; the shipped ones under none."""
    texts, problems = {"": shipped_texts()}, list[Problem]()
    for number, section in enumerate(settings.notice):
        if section.texts and section.texts not in texts:
            found, faults = _own_texts(section, folder, places, number)
            problems += faults
            texts[section.texts] = found or shipped_texts()
            problems += [] if found is None else _untranslated(folder / section.texts, settings)
    return texts, problems


def _own_texts(section: Notice, folder: Path, places: TomlPlaces, number: int) -> tuple[NoticeTexts | None, list[Problem]]:
    file = section.texts or ""
    path = folder / file
    place = places.find(("notice", number, "texts"))
    if not path.resolve().is_relative_to(folder.resolve()):
        return None, [Problem("notice-texts-outside", "error", place, file)]
    if not path.is_file():
        return None, [Problem("notice-texts-missing", "error", place, file)]
    raw, own_places, problems = read_toml(path)
    if raw is None:
        return None, problems
    laid = _laid_over(_shipped(), raw)
    return validated(NoticeTexts, laid, own_places, text_faults(raw, laid))


@cache
def shipped_texts() -> NoticeTexts:
    """The texts that come with the program."""
    return NoticeTexts.model_validate(_shipped())


@cache
def _shipped() -> dict[str, Any]:
    return tomllib.loads(SHIPPED.read_text(encoding="utf-8"))


def _laid_over(shipped: Mapping[str, Any], own: Mapping[str, Any]) -> dict[str, Any]:
    """A maker's texts over the shipped ones: key by key, rules by their names, the maker's first and in their order."""
    theirs = own.get("rule")
    if not isinstance(theirs, list) or not all(isinstance(rule, dict) for rule in theirs):
        return _over({name: value for name, value in shipped.items() if name != "rule" or "rule" not in own}, own)
    by_name = {rule["name"]: rule for rule in shipped["rule"]}
    names = [str(rule.get("name")) for rule in theirs]
    rules = [_over(by_name.get(name, {}), rule) for name, rule in zip(names, theirs, strict=True)]
    rest = [rule for name, rule in by_name.items() if name not in names]
    return {**_over({"sentences": shipped["sentences"]}, own), "rule": [*rules, *rest]}


def _over(below: Mapping[str, Any], above: Mapping[str, Any]) -> dict[str, Any]:
    laid = dict(below)
    for name, value in above.items():
        under = below.get(name)
        laid[name] = _over(under, value) if isinstance(value, dict) and isinstance(under, dict) else value
    return laid


def _untranslated(path: Path, settings: Settings) -> list[Problem]:
    """A warning for own English words beside which a locale of the maker's has none: its readers get the English ones."""
    raw, places, _ = read_toml(path)
    wanted = [tag for tag in settings.maker.locales if tag.split("-")[0] != "en"]
    problems = []
    for where, _, _ in words_of(raw or {}):
        given = {str(other[-1]).split("-")[0] for other, _, _ in words_of(raw or {}) if other[:-1] == where[:-1]}
        lacking = [tag for tag in wanted if tag.split("-")[0] not in given]
        if where[-1] == "en" and lacking:
            details = {"locales": ", ".join(lacking)}
            problems.append(Problem("notice-words-untranslated", "warn", places.find(where), details=details))
    return problems


def terms_of(texts: NoticeTexts, name: str) -> NoticeTerms:
    """The rule whose name, or another way to write it, begins this one, the longest such; else the one for any other."""
    rules = {_plain(written): rule for rule in reversed(texts.rule) for written in (rule.name, *rule.also)}
    fitting = [written for written in rules if _begins(written, _plain(name))]
    rule: NoticeRule = rules[max(fitting, key=len, default=ANY_OTHER)]
    return NoticeTerms(rule, {**texts.sentences.given(), **rule.sentences.given()})


def _begins(written: str, name: str) -> bool:
    return name.startswith(written) and not name[len(written) : len(written) + 1].isalnum()


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())
