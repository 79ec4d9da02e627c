"""Words of a state beside facts of another: a boxed unit is not shipped, a shipped order is not delivered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.beside import Misfit, named

if TYPE_CHECKING:
    from bulletin.scrutiny.beside import Setting
    from bulletin.scrutiny.case import Case

FURTHER = {
    "boxed": frozenset({"shipped", "delivered"}),
    "waiting": frozenset({"shipped", "delivered", "cancelled"}),
    "shipped": frozenset({"delivered", "cancelled"}),
    "delivered": frozenset({"cancelled"}),
    "cancelled": frozenset({"shipped", "delivered"}),
}
"""States that a fact does not bear out, though its own state is nearby; what was delivered was shipped before."""
WORDS_OF_DENIAL = 4
SIGNS_OF_DENIAL = 12


def other_state(case: Case, setting: Setting) -> Misfit | None:
    """A fact whose clause tells of a state further than the fact's own."""
    language = case.language
    states = {meaning.state for meaning in setting.meanings if meaning.state}
    if language is None or not states:
        return None
    told = named(language.states, setting.text)
    if any(state in states for *_, state in told):
        return None
    wrong = [phrase for phrase in told if phrase[2] in _beyond(states) and not is_denied(case, setting.text, phrase[:2])]
    return _misfit(setting, wrong[0]) if wrong else None


def _beyond(states: set[str]) -> frozenset[str]:
    return frozenset.intersection(*(FURTHER.get(state, frozenset()) for state in states))


def _misfit(setting: Setting, told: tuple[int, int, str]) -> Misfit:
    start, end, state = told
    fact, meaning = next((fact, meaning) for fact, meaning in zip(setting.facts, setting.meanings, strict=True) if meaning.state)
    return Misfit(fact, setting.text[start:end], f"it counts what is {meaning.state}, which is not {state}")


def is_denied(case: Case, text: str, phrase: tuple[int, int]) -> bool:
    """Whether the words before say that it is not so, or not yet; where verbs end the sentence, the words behind."""
    if case.language is None:
        return False
    start, end = phrase
    if not case.language.spaced:
        return case.language.has("denied", text[end : end + SIGNS_OF_DENIAL])
    return case.language.has("denied", " ".join(text[:start].split()[-WORDS_OF_DENIAL:]))
