"""Words of a period beside facts: another one than the fact counts, or one that is not over told as behind one that is."""

from __future__ import annotations

from collections import defaultdict
from datetime import timedelta
from typing import TYPE_CHECKING

from bulletin.facts.scopes.calendar import Calendar
from bulletin.scrutiny.beside import Misfit, Setting, known_fact, named, settings_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bulletin.model import Fact
    from bulletin.scrutiny.case import Case

BEFORE = {"week": "last_week", "month": "last_month", "today": "yesterday"}
PAST = frozenset({"yesterday", "last_week", "last_month"})
STANDING = frozenset({"orders", "coverage", "defects", "credits", "refunds"})
SAID = {"week": "this week", "month": "this month", "total": "all since the beginning"}


def other_period(case: Case, setting: Setting) -> Misfit | None:
    """A fact of one period where the clause speaks of others only."""
    language = case.language
    phrases = named(language.periods, setting.text) if language else []
    if not phrases:
        return None
    own = [meaning.period for meaning in setting.meanings]
    if any(meaning.recorded for meaning in setting.meanings) or "" in own:
        return _standing_fact_in_the_past(case, setting, phrases)
    said = _paired(setting, phrases) or {period for *_, period in phrases}
    if said & set(own):
        return None
    start, end, period = next(phrase for phrase in phrases if phrase[2] in said)
    fact = setting.facts[0]
    return Misfit(fact, setting.text[start:end], f"it counts {told_period(own[0])}", _offer(case, setting, own[0], period))


def told_period(period: str) -> str:
    """A period as messages tell it."""
    return SAID.get(period, period.replace("_", " "))


def _paired(setting: Setting, phrases: list[tuple[int, int, str]]) -> set[str]:
    """The one period that belongs to a form, where as many periods are named in its clause as facts are printed there."""
    printed = [stretch for stretch in setting.passage.stretches if stretch.claim.kind == "printed"]
    if len(printed) != len(phrases) or setting.stretch not in printed or len(printed) < 2:
        return set()
    return {phrases[printed.index(setting.stretch)][2]}


def _standing_fact_in_the_past(case: Case, setting: Setting, phrases: list[tuple[int, int, str]]) -> Misfit | None:
    """How many wait is told of the as-of date: beside "last week" alone it would be told of a day it is not of."""
    standing = all(meaning.family in STANDING and meaning.state and not meaning.period for meaning in setting.meanings)
    in_the_past = all(period in PAST for *_, period in phrases)
    if not standing or not in_the_past or (case.language and case.language.has("comparing", setting.text)):
        return None
    start, end, _ = phrases[0]
    return Misfit(setting.facts[0], setting.text[start:end], "it is told of the as-of date")


def _offer(case: Case, setting: Setting, own: str, period: str) -> str:
    spelling = setting.facts[0].spelling
    wanted = known_fact(case, spelling.removesuffix(own) + period)
    return f"{{{{ {wanted.spelling} }}}}" if wanted and setting.is_printed and len(setting.facts) == 1 else ""


def unfinished_periods(case: Case) -> Iterator[tuple[Setting, Misfit]]:
    """Sentences that tell a running period as behind a finished one, without saying that it is not over."""
    language = case.language
    sentences: defaultdict[tuple[int, int], list[Setting]] = defaultdict(list)
    for setting in settings_of(case):
        sentences[id(setting.passage.block), setting.passage.sentence.start].append(setting)
    for settings in sentences.values():
        text = settings[0].passage.sentence_text
        if language and language.has("fewer", text) and not language.has("unfinished", text):
            yield from _behind(case, settings)


def _behind(case: Case, settings: list[Setting]) -> Iterator[tuple[Setting, Misfit]]:
    by_stem: defaultdict[str, dict[str, tuple[Setting, Fact]]] = defaultdict(dict)
    for setting in settings:
        for fact, meaning in zip(setting.facts, setting.meanings, strict=True):
            if meaning.period and not meaning.recorded:
                by_stem[fact.key.removesuffix(meaning.period)].setdefault(meaning.period, (setting, fact))
    for periods in by_stem.values():
        for running, finished in BEFORE.items():
            if running in periods and finished in periods and not _is_over(case, running):
                setting, fact = periods[running]
                why = f'{told_period(running)} is not over yet, so it can\'t be told as behind; say "so far"'
                yield setting, Misfit(fact, told_period(finished), why)


def _is_over(case: Case, period: str) -> bool:
    """Whether no working day of the period is left after the as-of date; today is over once another day publishes it."""
    calendar = Calendar.of(case.run.settings)
    if period == "today":
        return case.run.published.astimezone(case.run.settings.maker.zone).date() > case.as_of
    window = calendar.week(case.as_of) if period == "week" else calendar.month(case.as_of)
    return not calendar.working_days(case.as_of + timedelta(days=1), window.last)
