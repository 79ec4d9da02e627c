"""Nouns and small words right beside a fact: another unit than it counts, or words that make another number of it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bulletin.draft.visible import FORM
from bulletin.scrutiny.beside import Misfit, named

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.draft.language import Language
    from bulletin.scrutiny.beside import Setting
    from bulletin.scrutiny.case import Case

COUNTED = {
    "unit": frozenset({"unit"}),
    "unit a working day": frozenset({"unit"}),
    "order": frozenset({"order", "unit", "customer"}),
    "part": frozenset({"part"}),
    "part line": frozenset({"part"}),
    "defect": frozenset({"defect"}),
    "day": frozenset({"day"}),
    "working day": frozenset({"day"}),
}
"""Which nouns may stand behind a fact of a unit. One row of orders is one unit, so that an order may be told as either."""
TIME = frozenset({"day", "week", "month"})
OWNED = frozenset({"customer"})
"""A unit with a defect stands for whoever owns it: "all fifteen owners have their kit"."""
NEXT_WORDS = re.compile(r"(?:[ -]+[\w'\u2019-]+){1,3}")
SCALE = re.compile(r"[ -]?([\w%\u20ac$\u00a3\u00a5]+(?: cent)?)")
LETTER = rf"(?:[^\W\u3005-\u30ff\u3400-\u9fff]|{FORM})"
GLUED_BEFORE = re.compile(rf"{LETTER}[.,'\u2019]?\Z")
GLUED_BEHIND = re.compile(rf"[.,'\u2019]?{LETTER}")
NEXT_SIGNS = re.compile(r"\s*\w{1,8}")
SIGN_BEFORE = re.compile(r"(?:(?<!\w)[-\u2212]|[\u20ac$\u00a3\u00a5#]) ?\Z")


def other_unit(case: Case, setting: Setting) -> Misfit | None:
    """A noun behind the fact, or behind a figure in the words of its claim, that is not what the fact counts."""
    fitting = [COUNTED[fact.unit] for fact in setting.facts if fact.unit in COUNTED]
    if len(fitting) != len(setting.facts):
        return None
    told_in_time = not setting.is_printed and fits_time(setting)
    fits = frozenset().union(*fitting, OWNED if _is_of_defects(setting) else (), TIME if told_in_time else ())
    for behind in _behind_figures(case, setting):
        for word, noun in _nouns(case, behind):
            if noun not in fits:
                fact = setting.facts[0]
                return Misfit(fact, word, f"it counts {fact.unit}s")
            break
    return None


def _is_of_defects(setting: Setting) -> bool:
    return all(meaning.family == "defects" for meaning in setting.meanings)


def fits_time(setting: Setting) -> bool:
    """Whether the words may tell the fact in weeks or months."""
    return any(fact.unit == "day" for fact in setting.facts)


def alters(case: Case, setting: Setting) -> Misfit | None:
    """Words right before or behind a printed fact that make another number of it."""
    language = case.language
    if language is None or not setting.is_printed:
        return None
    fact = setting.facts[0]
    scaled = _scale(setting.behind, language)
    if scaled:
        return Misfit(fact, scaled, "the word makes another number of it")
    if GLUED_BEFORE.search(setting.before) or GLUED_BEHIND.match(setting.behind):
        return Misfit(fact, fact.spelling, "what touches it makes another number of it")
    sign = SIGN_BEFORE.search(setting.before)
    if sign:
        return Misfit(fact, sign[0].strip(), "the sign makes another number of it")
    end = len(setting.before.rstrip())
    before = [match[0] for match in language.classes["alters"].finditer(setting.before) if match.end() == end]
    return Misfit(fact, before[-1], "it is exactly that many") if before and _is_alone(setting) else None


def _scale(behind: str, language: Language) -> str:
    """A word right behind a figure that makes hundreds, percent or euros of it."""
    if not language.spaced:
        found = language.classes["scales"].match(behind)
        return found[0] if found else ""
    scale = SCALE.match(behind)
    return scale[1] if scale and language.classes["scales"].fullmatch(scale[1]) else ""


def _is_alone(setting: Setting) -> bool:
    """Whether no other fact of its sentence is what it may be held against ("more than the 20 of last week")."""
    sentence = setting.passage.sentence
    return not any(sentence.holds(other.start) and other != setting.stretch for other in setting.passage.block.stretches)


def _behind_figures(case: Case, setting: Setting) -> Iterator[str]:
    """The text behind each number that the form tells."""
    if setting.is_printed:
        if not any(call.name in ("units", "words") for call in setting.stretch.claim.filters):
            yield setting.behind
        return
    for figure in case.told_figures[setting.stretch.claim.start]:
        if figure.kind in ("number", "vague"):
            yield setting.passage.block.text[figure.end : setting.passage.sentence.end]


def _nouns(case: Case, behind: str) -> Iterator[tuple[str, str]]:
    """The nouns that facts count among the next words, the first one first."""
    if case.language is None:
        return
    following = (NEXT_WORDS if case.language.spaced else NEXT_SIGNS).match(behind)
    if following is None:
        return
    stop = case.language.classes["phrase_ends"].search(following[0])
    phrase = following[0][: stop.start()] if stop else following[0]
    nouns = {**case.language.nouns, "unit ": case.scene.products}
    for start, end, noun in named(nouns, phrase):
        yield phrase[start:end], noun.strip()
