"""How strongly words may speak of each basis: what is too strong for a forecast, a plan, a commitment, a policy, a sample."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from bulletin.draft.expressions import parse_key
from bulletin.formats.rounding import Measured, agrees
from bulletin.model import Basis, Fact, Step, Window
from bulletin.scrutiny.beside_states import is_denied
from bulletin.scrutiny.remarks import remarks_within

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bulletin.draft.language import Language
    from bulletin.model import Value
    from bulletin.scrutiny.beside import Setting
    from bulletin.scrutiny.case import Case


class Overstated(NamedTuple):
    """Words that are too strong, or none where words that ought to be there are missing, and what would be right."""

    words: str
    advice: str


def overstated(case: Case, setting: Setting, fact: Fact, language: Language) -> Overstated | None:
    """What is too strong for a fact's basis in the sentence that it stands in; None where all is well."""
    if fact.basis is Basis.SAMPLE:
        return _sample(setting, language)
    judge = JUDGES.get(fact.basis)
    return judge(case, setting, fact, language) if judge else None


def sentence_of(setting: Setting) -> str:
    """The sentence with the heads over its block."""
    return f"{setting.passage.block.heads} {setting.passage.sentence_text}"


def _forecast(case: Case, setting: Setting, fact: Fact, language: Language) -> Overstated | None:
    sure = _told(case, setting, "sure", language)
    if sure or not language.has("expecting", sentence_of(setting)):
        return Overstated(language.first("certain", setting.text) or sure, "say that you expect it")
    if _tells_one_end(case, setting, fact):
        return Overstated(case.words_of(setting.stretch.claim), "tell the window, or its last day")
    if _is_unlikely(case, fact) and not _tells_share(case, setting):
        return Overstated(case.words_of(setting.stretch.claim), f"the chance is {case.told(fact)}: tell it")
    return None


def _tells_one_end(case: Case, setting: Setting, fact: Fact) -> bool:
    """Whether the words tell the first day of a window alone, on which it hardly ever ends; "by" its last one is no sooner."""
    dates = [figure for figure in case.told_figures[setting.stretch.claim.start] if figure.kind in ("date", "span")]
    if setting.is_printed or not dates or not isinstance(fact.value, Window):
        return False
    first, last = (Measured(end, "date") for end in fact.value)
    if any(agrees(figure, last, case.today) for figure in dates):
        return False
    return all(agrees(figure, first, case.today) for figure in dates)


def _is_unlikely(case: Case, fact: Fact) -> bool:
    """Whether a chance is below the least one of which "we expect" may be said."""
    likely = Fraction(case.run.settings.checks.forecast_chance)
    is_chance = fact.unit == "share" and isinstance(fact.value, Fraction | Decimal)
    return is_chance and Fraction(str(fact.value)) < likely


def _tells_share(case: Case, setting: Setting) -> bool:
    figures = case.told_figures[setting.stretch.claim.start]
    return setting.is_printed or any(figure.kind in ("share", "fraction") for figure in figures)


def _plan(case: Case, setting: Setting, fact: Fact, language: Language) -> Overstated | None:
    sure = _told(case, setting, "sure", language)
    if sure:
        return Overstated(language.first("certain", setting.text) or sure, SAY_PLANNED)
    if any(language.has(name, sentence_of(setting)) for name in ("planning", "not_yet_in_force")):
        return None
    names = ("certain", "done", "made") if fact.key.startswith(("plan.", "changes.")) else ("certain", "done")
    told = next((words for name in names if (words := _told(case, setting, name, language))), "")
    tells_from = any(other.key.endswith("from_date") for other in _beside(case, setting))
    is_dated = tells_from and language.has("not_yet_from", sentence_of(setting))
    is_bare = fact.key.startswith(("plan.", "changes.")) and not is_dated
    return Overstated(told, SAY_PLANNED) if told or is_bare else None


STATES = frozenset({"state"})
SAY_PLANNED = "say that it is planned or due"


def _commitment(case: Case, setting: Setting, fact: Fact, language: Language) -> Overstated | None:
    """A promise that is still due: no sooner than its day, and not as if it were kept."""
    promised = str(_column(case, fact, "text") or "").casefold()
    for name, advice in (("sooner", "it is due on its day, no sooner"), ("made", "it is promised and not done")):
        told = _told(case, setting, name, language)
        if told and told.casefold() not in promised:
            return Overstated(told, advice)
    states = remarks_within(case, setting.passage.block, [setting.stretch], STATES)[setting.stretch.claim.start]
    is_claim = setting.stretch.claim.kind == "claim"
    return Overstated(states[0].words, "it is promised and not done") if states and is_claim else None


def _policy(case: Case, setting: Setting, fact: Fact, language: Language) -> Overstated | None:
    """A rule of the maker's that is not in force yet."""
    if not fact.key.startswith("policies") or _column(case, fact, "in_force") is not False:
        return None
    sentence = sentence_of(setting)
    if language.has("not_yet_in_force", sentence) or language.releases["denials"].search(sentence):
        return None
    is_decided = _column(case, fact, "state") in ("decided", "in_force")
    tells_from = any(other.key.endswith(".from") for other in _beside(case, setting))
    if is_decided and tells_from and language.has("not_yet_from", sentence):
        return None
    return Overstated("", "it is not in force yet: say that you are working on it")


def _sample(setting: Setting, language: Language) -> Overstated | None:
    told = language.classes["absolutes"].search(setting.text)
    if told is None or language.has("checked", sentence_of(setting)):
        return None
    return Overstated(told[0], "speak of the units that were checked")


JUDGES: Mapping[Basis, Callable[[Case, Setting, Fact, Language], Overstated | None]] = MappingProxyType(
    {
        Basis.FORECAST: _forecast,
        Basis.PLAN: _plan,
        Basis.COMMITMENT: _commitment,
        Basis.POLICY: _policy,
    }
)


def _told(case: Case, setting: Setting, name: str, language: Language) -> str:
    """The first words of a class in the clause that nothing denies."""
    found = (match for match in language.classes[name].finditer(setting.text) if match[0])
    return next((match[0] for match in found if not is_denied(case, setting.text, match.span())), "")


def _column(case: Case, fact: Fact, name: str) -> Value | None:
    """What an item says under another name."""
    steps = parse_key(fact.key)
    if len(steps) < 2:
        return None
    found = case.facts.find((steps[0], Step("item", steps[1].text), Step("name", name)))
    return found.value if isinstance(found, Fact) else None


def _beside(case: Case, setting: Setting) -> list[Fact]:
    """The facts of all forms of the sentence."""
    sentence = setting.passage.sentence
    stretches = (stretch for stretch in setting.passage.block.stretches if sentence.holds(stretch.start))
    return [fact for stretch in stretches for fact in case.reading_of[stretch.claim.start].facts]
