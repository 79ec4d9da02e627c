"""A model named beside a fact of another one, or beside a fact of all of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.keys import quote
from bulletin.model import Absent, Step
from bulletin.scrutiny.beside import Misfit, known_fact

if TYPE_CHECKING:
    from bulletin.scrutiny.beside import Setting
    from bulletin.scrutiny.case import Case

FAMILIES = ("boxed", "orders", "plan", "coverage")


def other_model(case: Case, setting: Setting) -> Misfit | None:
    """A fact that is not of the one model its clause names."""
    spoken = [found for found in case.names.find(setting.text) if is_model(case, found.name)]
    models = {found.name for found in spoken}
    if len(models) != 1:
        return None
    model = spoken[0].name
    for fact, meaning in zip(setting.facts, setting.meanings, strict=True):
        own = [other.model for other in setting.meanings]
        if meaning.family not in FAMILIES or model in own or (meaning.model == "" and any(own)):
            continue
        wanted = known_fact(case, _of(fact.spelling, meaning.family, (meaning.model, model)))
        if wanted is None or wanted.value != fact.value:
            offer = f"{{{{ {wanted.spelling} }}}}" if wanted and setting.is_printed else ""
            return Misfit(fact, model, f"it is of {meaning.model}" if meaning.model else "it is of all models", offer)
    return None


def is_model(case: Case, name: str) -> bool:
    """Whether facts know a name as a model."""
    path = (Step("name", "boxed"), Step("name", "of"), Step("call", name), Step("name", "total"))
    found = case.facts.find(path)
    return not isinstance(found, Absent) or found.known


def _of(spelling: str, family: str, models: tuple[str, str]) -> str:
    """A fact's spelling with another model, or with one where it had none."""
    own, wanted = models
    if own:
        return spelling.replace(f".of({quote(own)})", f".of({quote(wanted)})")
    return f"{family}.of({quote(wanted)}){spelling.removeprefix(family)}"
