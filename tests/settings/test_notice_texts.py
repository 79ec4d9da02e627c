"""The texts of notices: what ships, how a maker's file changes it, and what is wrong with one where it stands."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from bulletin.model import Place, Problem
from bulletin.settings import Settings, read_settings
from bulletin.settings.notice_terms import shipped_texts, terms_of
from bulletin.settings.notice_texts import Kind, NoticeTerms, Sentences

MAKER = """[maker]
name = "Fennmoor Looms"
time_zone = "Europe/Vienna"
locales = ["en", "de"]

[[notice]]
markets = ["US"]
rule = "16 CFR Part 435"
texts = "counsel.toml"
"""
DAY = date(2026, 3, 1)


def read(folder: Path, own: str | None, maker: str = MAKER) -> tuple[Settings | None, list[Problem]]:
    (folder / "bulletin.toml").write_text(maker, encoding="utf-8")
    if own is not None:
        (folder / "counsel.toml").write_text(own, encoding="utf-8")
    return read_settings(folder)


def terms(folder: Path, own: str, maker: str = MAKER) -> NoticeTerms:
    """The terms of the one section, which must be read."""
    settings, problems = read(folder, own, maker)
    if settings is None:
        raise ValueError(problems)
    return settings.notice[0].terms


def faults(folder: Path, own: str) -> list[tuple[str, Place]]:
    return [(problem.rule, problem.place) for problem in read(folder, own)[1]]


def of_rule(name: str) -> NoticeTerms:
    """The shipped terms of a rule, as a section of the settings names it."""
    return terms_of(shipped_texts(), name)


CASES: dict[str, tuple[Kind, date | None, str, date | None]] = {
    "30 days later, 435.2(b)(1)(ii)": ("notice", date(2026, 3, 31), "consent", date(2026, 3, 31)),
    "31 days later, 435.2(b)(1)(iii)": ("notice", date(2026, 4, 1), "cancellation", date(2026, 3, 31)),
    "no date, 435.2(b)(1)(iii)": ("notice", None, "cancellation", date(2026, 3, 31)),
    "a renewed notice, 435.2(b)(2)": ("renewed", date(2026, 3, 15), "cancellation", DAY),
    "a renewed notice without a date": ("renewed", None, "cancellation", DAY),
}


@pytest.mark.parametrize(("kind", "new", "silence", "until"), CASES.values(), ids=CASES)
def test_what_silence_means(kind: Kind, new: date | None, silence: str, until: date | None) -> None:
    """16 CFR 435.2(b), of a date told as 2026-03-01; an answer counts up to the cut-off."""
    case = of_rule("16 CFR Part 435").rule.case(kind, DAY, new)

    assert (silence, until) == (case.silence, case.until(DAY, new))


NAMES = {
    "16 CFR 435.2(b)": "16 CFR Part 435",
    "16  cfr part 435": "16 CFR Part 435",
    "Directive 2011/83/EU Art. 18": "Directive 2011/83/EU",
    "Consumer Rights Act 2015 s. 28": "Consumer Rights Act 2015",
    "16 CFR Part 4350": "*",
    "Consumer Protection Act": "*",
}


@pytest.mark.parametrize(("written", "expected"), NAMES.items())
def test_a_rule_is_found_by_the_beginning_of_its_name(written: str, expected: str) -> None:
    """A paragraph may follow; a longer number is another rule, and of one that is not known nothing is said."""
    assert expected == of_rule(written).rule.name


def test_every_sentence_ships_in_english() -> None:
    """No sentence of a notice lacks its English words, and each rule says where it comes from."""
    texts = shipped_texts()

    assert set(Sentences.model_fields) == set(texts.sentences.given())
    assert all("en" in words for words in texts.sentences.given().values())
    assert all(rule.source and rule.overdue and rule.refund for rule in texts.rule if rule.name != "*")


def test_days_are_those_of_the_rule_unless_the_settings_say_otherwise(tmp_path: Path) -> None:
    """`days` may be left out of a [[notice]] section: 16 CFR 435.2(a)(1) and Directive 2011/83/EU Art. 18(1) have thirty."""
    settings, _ = read(tmp_path, "", MAKER + '\n[[notice]]\nmarkets = ["AT"]\nrule = "Directive 2011/83/EU"\ndays = 14\n')
    assert settings is not None

    assert [30, 14] == [section.limit for section in settings.notice]


OWN = """[sentences]
choice = { en = "Wait or cancel.", de = "Warten oder stornieren." }

[[rule]]
name = "16 CFR Part 435"
[rule.soon]
within = 10
"""


def test_a_makers_file_lies_over_what_ships(tmp_path: Path) -> None:
    """Only what it names changes: a sentence, the days of a case; the case keeps its silence and its source."""
    own, shipped = terms(tmp_path, OWN), of_rule("16 CFR Part 435")

    assert {"en": "Wait or cancel.", "de": "Warten oder stornieren."} == own.sentences["choice"]
    assert shipped.sentences["late"] == own.sentences["late"]
    assert ("cancellation", "consent") == tuple(own.rule.case("notice", DAY, date(2026, 3, day)).silence for day in (12, 11))
    assert shipped.rule.renewed == own.rule.renewed


def test_a_makers_file_may_know_another_rule(tmp_path: Path) -> None:
    """A new rule needs its name, its days and what silence means; its sentences are the shipped ones unless it has its own."""
    own = '[[rule]]\nname = "Moor Act"\ndays = 20\n[rule.notice]\nsilence = "consent"\nwords = { en = "Silence is consent." }\n'
    found = terms(tmp_path, own, MAKER.replace("16 CFR Part 435", "Moor Act s. 3"))

    assert ("Moor Act", 20) == (found.rule.name, found.rule.days)
    assert {"en": "Silence is consent."} == found.silence(found.rule.notice)
    assert of_rule("*").sentences["told"] == found.sentences["told"]


FAULTS: dict[str, tuple[str, list[tuple[str, int, int]]]] = {
    "an unknown key": ("[sentences]\nchoise = { en = \"x\" }\n", [("setting-unknown", 2, 1)]),
    "an unknown blank": ('[sentences]\nlate = { en = "By {untill}." }\n', [("setting-wrong", 2, 10)]),
    "a lone brace": ('[sentences]\nlate = { en = "By {by." }\n', [("setting-wrong", 2, 10)]),
    "a new date without its date": ('[sentences]\nnew_date = { en = "Later." }\n', [("setting-wrong", 2, 14)]),
    "no locale": ('[sentences]\nlate = { english = "Late." }\n', [("setting-wrong", 2, 10)]),
    "no such silence": (
        '[[rule]]\nname = "16 CFR Part 435"\n[rule.notice]\nsilence = "perhaps"\n',
        [("setting-wrong", 4, 1)],
    ),
    "a rule without days": (
        '[[rule]]\nname = "Moor Act"\n[rule.notice]\nsilence = "nothing"\n',
        [("setting-missing", 1, 3)],
    ),
    "a cancellation without its day": (
        '[[rule]]\nname = "Moor Act"\ndays = 9\n[rule.notice]\nsilence = "cancellation"\n',
        [("setting-missing", 4, 7)],
    ),
    "no toml": ("[sentences\n", [("settings-not-toml", 1, 11)]),
}


@pytest.mark.parametrize(("own", "expected"), FAULTS.values(), ids=FAULTS)
def test_a_fault_is_told_where_it_stands(tmp_path: Path, own: str, expected: list[tuple[str, int, int]]) -> None:
    """Line and column are those of the maker's own file, whatever lies under it."""
    assert [(rule, Place("counsel.toml", line, column)) for rule, line, column in expected] == faults(tmp_path, own)


def test_a_near_miss_is_offered(tmp_path: Path) -> None:
    """A blank that nothing fills has the nearest one beside it."""
    _, problems = read(tmp_path, '[sentences]\nconsent = { en = "By {untill}.", de = "Bis {until}." }\n')

    assert ["{until}"] == [problem.offer for problem in problems]


WHERE = {
    "a file that is not there": ("", "notice-texts-missing"),
    "a file outside": ("../counsel.toml", "notice-texts-outside"),
}


@pytest.mark.parametrize(("texts", "expected"), WHERE.values(), ids=WHERE)
def test_the_file_lies_in_the_data_folder(tmp_path: Path, texts: str, expected: str) -> None:
    """A missing file and one outside the folder are errors at the key that names it."""
    settings, problems = read(tmp_path, None, MAKER.replace("counsel.toml", texts or "counsel.toml"))

    assert settings is None
    assert [(expected, Place("bulletin.toml", 9, 1))] == [(problem.rule, problem.place) for problem in problems]


def test_words_that_a_reader_lacks_are_told(tmp_path: Path) -> None:
    """English words alone are a warning for a maker who also writes in German; with both there is none."""
    alone = '[sentences]\nchoice = { en = "Wait or cancel." }\n'

    assert [("notice-words-untranslated", Place("counsel.toml", 2, 12))] == faults(tmp_path, alone)
    assert [] == faults(tmp_path, OWN)


def test_an_unknown_rule_is_a_warning(tmp_path: Path) -> None:
    """Notices go out under it, and say nothing of silence."""
    settings, problems = read(tmp_path, "", MAKER.replace("16 CFR Part 435", "Moor Act"))
    assert settings is not None

    assert [("notice-rule-unknown", Place("bulletin.toml", 8, 1))] == [(problem.rule, problem.place) for problem in problems]
    assert "nothing" == settings.notice[0].terms.rule.notice.silence
