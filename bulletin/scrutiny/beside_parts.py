"""A part named beside a fact of another one: rails in the house say nothing of beams, a cured ratchet nothing of pawls."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.draft.expressions import parse_key
from bulletin.model import Fact, Step
from bulletin.scrutiny.beside import Misfit

if TYPE_CHECKING:
    from bulletin.scrutiny.beside import Setting
    from bulletin.scrutiny.case import Case


def other_part(case: Case, setting: Setting) -> Misfit | None:
    """A fact of one part, or of a defect of one, where its clause names others only."""
    owned = [(fact, parts) for fact in setting.facts if (parts := parts_of(case, fact))]
    if not owned:
        return None
    named = {part: found.name for found in case.names.find(setting.text) for part in case.parts_called.get(found.name, ())}
    if not named or any(part in named for _, parts in owned for part in parts):
        return None
    fact, parts = owned[0]
    return Misfit(fact, next(iter(named.values())), f"it is of {_called(case, parts[0])}")


def parts_of(case: Case, fact: Fact) -> list[str]:
    """The part that a fact of coverage is about; of a defect its part, and the one that remedies it; none for any other."""
    steps = [step.text for step in parse_key(fact.key)]
    if steps[:2] == ["coverage", "part"] and len(steps) > 3:
        return [steps[2]]
    if steps[0] != "defects" or len(steps) < 3:
        return []
    paths = ((Step("name", "defects"), Step("item", steps[1]), Step("name", name)) for name in ("part", "remedy_part"))
    return [str(found.value) for path in paths if isinstance(found := case.facts.find(path), Fact)]


def _called(case: Case, part: str) -> str:
    return case.run.names.find(("part", part), case.draft.locale, "one") or part
