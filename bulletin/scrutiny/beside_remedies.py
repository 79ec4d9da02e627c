"""Words of units put right beside facts of something else: a kit on the shelf, an address confirmed, a unit that is affected."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.scrutiny.beside import Misfit
from bulletin.scrutiny.safety import defect_of
from bulletin.scrutiny.wholes import closes

if TYPE_CHECKING:
    from bulletin.scrutiny.beside import Setting
    from bulletin.scrutiny.case import Case

COUNTS = {
    "kits": "parts on the shelf",
    "address_confirmed": "addresses that are confirmed",
    "affected": "units that are affected",
    "unremedied": "units that are not put right",
}
WORDS_OF_DENIAL = 4


def not_remedied(case: Case, setting: Setting) -> Misfit | None:
    """A fact of a defect that is no count of remedied units, where its clause tells units as put right."""
    language = case.language
    names = {fact.key.rsplit(".", 1)[1]: fact for fact in setting.facts if defect_of(fact) or fact.key.startswith("defects.")}
    if language is None or "remedied" in names or not names.keys() & COUNTS.keys() or _leaves_none(case, setting):
        return None
    told = language.classes["fixed"].search(setting.text)
    if told is None or language.has("denied", " ".join(setting.text[: told.start()].split()[-WORDS_OF_DENIAL:])):
        return None
    name, fact = next((name, fact) for name, fact in names.items() if name in COUNTS)
    wanted = fact.spelling.removesuffix(name) + "remedied"
    return Misfit(fact, told[0], f"it counts {COUNTS[name]}", f"{{{{ {wanted} }}}}" if setting.is_printed else "")


def _leaves_none(case: Case, setting: Setting) -> bool:
    """Whether a claim holds that no unit is left that is not put right."""
    left = {fact.key.rsplit(".", 1)[1] for fact in setting.facts} <= {"unremedied", "state"}
    return left and not setting.is_printed and closes(case.reading_of[setting.stretch.claim.start])
