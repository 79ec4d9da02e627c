"""Running the rules: places, levels, waivers, and what a verdict says of each form."""

from __future__ import annotations

from datetime import date

import pytest

from bulletin.model import NoticesDue, Place
from tests.rules.builders import facts, found, judged, titled

WAIVER = 'Waive: number-without-fact "{}" | Ines Holm | counted by hand\n\n'


def test_a_finding_stands_where_its_words_do() -> None:
    """Lines and columns count from 1 in characters, in the source and not in what is visible."""
    findings = judged("We *boxed*\nsome &amp; 87 looms.").findings

    assert [finding.place for finding in findings] == [Place("news.en.md", 4, 12)]


def test_a_waiver_takes_out_its_words_alone() -> None:
    """A waiver answers for the figure it names; another figure stays."""
    verdict = judged(WAIVER.format("87") + "We boxed 87 looms and 3 frames.")

    assert [finding.words for finding in verdict.findings] == ["3"]
    assert [(waived.finding.words, waived.waiver.who) for waived in verdict.waived] == [("87", "Ines Holm")]


def test_waived_findings_are_told_in_the_order_of_the_text() -> None:
    """Not in the order of the rules, nor in that of the `Waive:` lines."""
    lines = "".join(
        f'Waive: {rule} "{words}" | Ines Holm | as said\n'
        for rule, words in (("number-without-fact", "87"), ("absolute-without-fact", "every loom"), ("hedge", "might"))
    )
    verdict = judged(f"{lines}\nWe might box. Every loom is new. We boxed 87 looms.")

    assert ["might", "Every loom", "87"] == [waived.finding.words for waived in verdict.waived]


def test_a_waiver_may_name_words_around_the_figure() -> None:
    """Words of the same sentence that hold the figure name it too; words of another sentence don't."""
    assert found(WAIVER.format("87 looms on the shelf") + "We have 87 looms on the shelf.") == []
    assert found(WAIVER.format("87 looms on the shelf") + "We have 87 looms. They lie on the shelf.") != []


def test_a_waiver_is_held_to_whole_words_where_the_finding_stands() -> None:
    """Words that only hold the finding's letters, or the same words elsewhere in the sentence, don't name it."""
    text = "We have 17 looms, and 7 frames wait for them."

    assert [words for _, words in found(WAIVER.format("17 looms") + text)] == ["7"]
    assert [words for _, words in found(WAIVER.format("7 looms") + text)] == ['number-without-fact "7 looms"', "17", "7"]


def test_a_waiver_answers_for_one_sentence() -> None:
    """A common word lets nothing through elsewhere; a second sentence takes a second line."""
    line = 'Waive: absolute-without-fact "every loom" | Ines Holm | we know them all\n'
    text = "\nEvery loom leaves here oiled. Every loom leaves here waxed."
    once, twice = found(line + text), found(line * 2 + text)

    assert [words for rule, words in once if rule == "absolute-without-fact"] == ["Every loom"]
    assert [words for rule, words in twice if rule == "absolute-without-fact"] == []


BARE = "We boxed 87"
EDGES = {
    "the first words of a block": ("87 looms", "87 looms.\n\nFine."),
    "the last words of a block": ("boxed 87", BARE),
    "however they are spaced and written": ("We  BOXED 87.", "We boxed\n87 looms."),
    "in quotes": ("'87 looms'", "We boxed 87 looms."),
}


@pytest.mark.parametrize(("words", "text"), EDGES.values(), ids=EDGES)
def test_words_of_a_waiver_are_found_where_they_stand(words: str, text: str) -> None:
    """Case, spaces and marks at their ends are nothing, and the first and last word of a block count like others."""
    assert [] == found(WAIVER.format(words) + text)


ITEMS = {
    "sample-size-missing": ("I-5", 'Then {{ inspections["I-5"].failed }} failed.'),
    "queue-fell-by-cancelling": ("orders.waiting", "[The queue is shorter]{orders.waiting < last.orders.waiting}."),
    "fact-beside-words": ("boxed.last_week", "We boxed {{ boxed.last_week }} looms this week."),
    "fact-unknown": ("coverage.buildable", "[We can build plenty]{coverage.buildable > 5}."),
}


@pytest.mark.parametrize("rule", ITEMS)
def test_an_item_is_answered_for_wherever_it_is_found(rule: str) -> None:
    """One line that names the item lets it through in two paragraphs, where words would take two lines."""
    item, text = ITEMS[rule]
    line = f'Waive: {rule} "{item}" | Ines Holm | as said'

    assert 2 == [name for name, _ in found(f"{text}\n\n{text}")].count(rule)
    assert not {rule, "waiver-unused"} & {name for name, _ in found(f"{line}\n\n{text}\n\n{text}")}


WHOLE = {
    "notice-due": ("notices of delay", {"notices": (NoticesDue("16 CFR Part 435", ("F-1",)),)}),
    "unread-language": ("pl-PL", {"locale": "pl-PL"}),
    "tables-stale": ("the as-of date", {"published": date(2026, 3, 26)}),
}


@pytest.mark.parametrize("rule", WHOLE)
def test_what_concerns_the_whole_draft_is_answered_for_by_its_item(rule: str) -> None:
    """The item of a finding without a place answers for it."""
    item, run = WHOLE[rule]

    assert [rule] == [name for name, _ in found("Dobrze.", **run)]
    assert [] == found(f'Waive: {rule} "{item}" | Ines Holm | as said\n\nDobrze.', **run)


def test_some_rules_cannot_be_waived() -> None:
    """Nobody can answer for a claim that the facts contradict."""
    text = 'Waive: condition-false "our worst week" | Ines Holm | so it felt\n\n[our worst week]{boxed.week < boxed.last_week}'

    assert ("condition-false", "our worst week") in found(text)


def test_a_printed_fact_that_is_absent_cannot_be_waived() -> None:
    """There is nothing to print in its place."""
    text = 'Waive: fact-unknown "boxed.weak" | Ines Holm | as said\n\nWe boxed {{ boxed.weak }} looms.'

    assert ("fact-unknown", "boxed.weak") in found(text)


WAIVERS = {
    "used": ('number-without-fact "87"', []),
    "of other words": ('number-without-fact "88"', [('number-without-fact finds no "88"', "")]),
    "spelled wrongly": (
        'numbers-without-fact "87"',
        [("there is no rule called numbers-without-fact", 'Waive: number-without-fact "87" | Ines Holm | counted')],
    ),
    "like no rule": ('quux "87"', [("there is no rule called quux", "")]),
    "not to be waived": ('raw-html "87"', [("nobody can answer for raw-html", "")]),
}


@pytest.mark.parametrize(("waiver", "expected"), WAIVERS.values(), ids=WAIVERS)
def test_a_waiver_that_answers_for_nothing_is_told(waiver: str, expected: list[tuple[str, str]]) -> None:
    """It warns with the reason, and offers the rule that was meant where one is alike."""
    findings = judged(f"Waive: {waiver} | Ines Holm | counted\n\nWe boxed 87 looms.").findings
    unused = [finding for finding in findings if finding.rule == "waiver-unused"]

    assert expected == [(finding.details["why"], finding.offer) for finding in unused]
    assert all(finding.level == "warn" for finding in unused)


def test_faults_of_reading_are_findings() -> None:
    """A condition that can't be read, or can't be compared, blocks like any finding."""
    assert [rule for rule, _ in found("[fine]{boxed.week > }")] == ["condition-unreadable"]
    assert [rule for rule, _ in found('[fine]{boxed.week > coverage.part["P-104"].next_arrival}')] == ["condition-unreadable"]


def test_stale_tables_warn_and_block_an_issue() -> None:
    """Old rows are worth a warning while writing, and stop the draft on the day it goes out."""
    stale = facts(boxed=date(2026, 3, 20))
    levels = [judged("{{ boxed.week }} looms.", made=stale, issuing=issuing).findings[0].level for issuing in (False, True)]

    assert levels == ["warn", "block"]


def test_three_working_days_are_not_stale() -> None:
    """Exactly as many working days as the settings allow pass; one more does not."""
    assert found("{{ boxed.week }} looms.", made=facts(boxed=date(2026, 3, 24))) == []
    assert found("{{ boxed.week }} looms.", made=facts(boxed=date(2026, 3, 23))) == [("tables-stale", "boxed")]


def test_a_late_day_of_publishing_is_stale() -> None:
    """Facts of Friday are told on Wednesday at the latest, with three working days allowed."""
    assert found("Hello.", published=date(2026, 4, 1)) == []
    assert found("Hello.", published=date(2026, 4, 2)) == [("tables-stale", "the as-of date")]


def test_findings_come_in_the_order_of_their_places() -> None:
    """Whichever rule finds them, the first in the draft comes first."""
    places = [finding.place for finding in judged("<b>We</b> boxed 87 looms on Monday, <i>all</i> of them.").findings]

    assert sorted(places) == places


def test_the_same_draft_gives_the_same_verdict() -> None:
    """Nothing hidden goes into a verdict."""
    text = titled("We boxed 87 looms, [our best week]{boxed.week > boxed.best_week}.")

    assert judged(text).findings == judged(text).findings
