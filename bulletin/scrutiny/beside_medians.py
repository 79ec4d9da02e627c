"""Medians told as if they held for everybody: half of those who wait have waited longer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.beside import Misfit
from bulletin.scrutiny.meaning import name_of

if TYPE_CHECKING:
    from bulletin.scrutiny.beside import Setting
    from bulletin.scrutiny.case import Case

MEDIANS = frozenset({"median_wait", "usual_lateness", "slip"})


def hides_a_median(case: Case, setting: Setting) -> Misfit | None:
    """A median whose sentence, and the heads over it, do not say that it is one."""
    fact = next((fact for fact in setting.facts if name_of(fact) in MEDIANS), None)
    text = f"{setting.passage.block.heads} {setting.passage.sentence_text}"
    if fact is None or case.language is None or case.language.has("typical", text):
        return None
    return Misfit(fact, setting.text.strip(), "it is a median: half are above it")
