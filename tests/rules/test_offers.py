"""What findings say besides the words they are about: what the records hold against them, and what to write instead."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from bulletin.model import Concern, Name, NoticesDue, Problem, Value
from bulletin.settings import Settings
from tests.rules.builders import SETTINGS, VALUES, MadeFacts, facts, judged

NOTICE = (
    'Stop using your loom: [the spring can snap]{defects["D-20"].state == "open"} and cut a hand. At least '
    '{{ defects["D-20"].affected }} looms have it so far; we replace it. Write to help@fennmoor.example.'
)
WEDNESDAY = facts(date(2026, 3, 25))


def by(rule: str, text: str, **options: Any) -> list[Problem]:
    """The findings of one rule."""
    return [finding for finding in judged(text, **options).findings if finding.rule == rule]


def told(rule: str, text: str, **options: Any) -> list[tuple[str, dict[str, str], str]]:
    """Words, details and offer of the findings of one rule."""
    return [(finding.words, dict(finding.details), finding.offer) for finding in by(rule, text, **options)]


FIGURES = {
    "one fact": ("[Plenty]{boxed.week} were boxed.", "boxed.week is 41", "{{ boxed.week }}"),
    "two facts": ("[Plenty]{boxed.week + boxed.last_week} came.", "boxed.week is 41; boxed.last_week is 20", ""),
    "a figure": ("[We boxed 900 looms]{boxed.week > 10}.", "boxed.week is 41", "{{ boxed.week }}"),
    "no fact": ("[We boxed 900 looms]{1 < 2}.", "the condition touches no fact", ""),
    "a name": ("[Something]{coverage.tightest} is short.", "coverage.tightest is Warp beam 40 cm", "{{ coverage.tightest }}"),
}


@pytest.mark.parametrize(("text", "values", "offer"), FIGURES.values(), ids=FIGURES)
def test_figures_that_disagree(text: str, values: str, offer: str) -> None:
    """The message says what every fact of the condition is; the only one of them is offered for printing."""
    assert [(values, offer)] == [(finding.details["values"], finding.offer) for finding in by("number-off-fact", text)]


MADE_OF: dict[str, tuple[Value, str]] = {
    "boxed.models": ((Name("model", "H8", "Heron 8"), Name("model", "H12", "Heron 12")), "name"),
    "boxed.woods": (("oak", "ash"), "text"),
}
TELLING = {
    "nothing": ("[None]{orders.past_promise} are late.", 0),
    "a name": ("[The warp beam 40 cm]{coverage.tightest} is short.", 0),
    "another name": ("[The pawl spring]{coverage.tightest} is short.", 1),
    "a text": ('[A guard to every owner]{promises["PR-5"].text} is promised.', 0),
    "another text": ('[A gift to every owner]{promises["PR-5"].text} is promised.', 1),
    "a printed fact inside": ("[{{ boxed.week }} looms]{boxed.week} were boxed.", 0),
    "words for a window": ("[In due time]{forecast.cleared} we expect the queue to be gone.", 1),
    "names": ("[Heron 8 and Heron 12]{boxed.models} were boxed.", 0),
    "one of the names": ("[Heron 8]{boxed.models} were boxed.", 1),
    "texts": ("[Oak and ash]{boxed.woods} were used.", 0),
    "one of the texts": ("[Oak]{boxed.woods} was used.", 1),
}


@pytest.mark.parametrize(("text", "expected"), TELLING.values(), ids=TELLING)
def test_words_that_tell_a_value_without_a_figure(text: str, expected: int) -> None:
    """Names and texts are told up to inflection, lists whole; a window has no words of its own."""
    made = replace(facts(), values={**VALUES, **MADE_OF})

    assert expected == len(by("number-off-fact", text, made=made))


NO_SUCH = "there is no fact of this name"
UNKNOWN = {
    "printed": ("We boxed {{ boxed.weak }} looms.", "boxed.weak", NO_SUCH, "boxed.week"),
    "in a condition": ("[Plenty]{boxed.weak > 3}.", "boxed.weak", NO_SUCH, "boxed.week"),
    "its family first": ("{{ boxed.waiting }} wait.", "boxed.waiting", NO_SUCH, "boxed.rate"),
    "a fact of an item": (
        '{{ defects["D-12"].effected }} wait.', 'defects["D-12"].effected', NO_SUCH, 'defects["D-12"].affected',
    ),
    "another family": ("{{ order.waiting }} wait.", "order.waiting", NO_SUCH, "orders.waiting"),
    "like nothing": ("{{ zebra.crossing }} wait.", "zebra.crossing", NO_SUCH, ""),
    "behind an opinion": ("[Fine]{opinion}. {{ boxed.weak }} came.", "boxed.weak", NO_SUCH, "boxed.week"),
    "a table lacks": (
        "{{ coverage.buildable }} can be built.", "coverage.buildable", "needs structure.csv, which the data folder lacks", "",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("text", "words", "why", "offer"), UNKNOWN.values(), ids=UNKNOWN)
def test_the_nearest_name_is_offered(text: str, words: str, why: str, offer: str) -> None:
    """The likest name of the same family is offered and may be put in; no name where a table is missing."""
    found = by("fact-unknown", text)

    assert [(words, {"why": why}, offer)] == told("fact-unknown", text)
    assert [bool(offer)] == [finding.applies for finding in found]


PARTS = {
    "all but the units": (
        'At least {{ defects["D-20"].affected }} looms have it so far.',
        "what can happen, what to do now, the remedy, whom to ask",
        '{{ defects["D-20"].hazard }} {{ defects["D-20"].do_now }} {{ defects["D-20"].remedied }} help@fennmoor.example',
    ),
    "the units": (NOTICE.replace('{{ defects["D-20"].affected }}', "some"), "which units", '{{ defects["D-20"].affected }}'),
    "the contact": (NOTICE.replace("help@fennmoor.example", "us"), "whom to ask", "help@fennmoor.example"),
}


@pytest.mark.parametrize(("text", "missing", "offer"), PARTS.values(), ids=PARTS)
def test_what_a_notice_lacks_is_offered(text: str, missing: str, offer: str) -> None:
    """The defect's own facts for the parts that are missing, and the contact only where that is."""
    assert [("D-20", {"missing": missing}, offer)] == told("safety-notice-incomplete", text)


@pytest.mark.parametrize(
    ("fact", "part"),
    [
        ("hazard", "what can happen"),
        ("do_now", "what to do now"),
        ("lot", "which units"),
        ("unremedied", "which units"),
        ("affected", "which units"),
        ("remedied", "the remedy"),
        ("unremedied", "the remedy"),
        ("kits", "the remedy"),
        ("remedy", "the remedy"),
        ("remedy_part", "the remedy"),
    ],
)
def test_the_defects_own_facts_tell_a_part(fact: str, part: str) -> None:
    """Each part of a notice may be told by printing what the tables say of it."""
    told_by_words: dict[str, tuple[Value, str]] = {
        'defects["D-20"].remedy': ("a new spring", "text"), 'defects["D-20"].remedy_part': ("P-110", "text"),
    }  # fmt: skip
    made = MadeFacts({**VALUES, **told_by_words})
    (found,) = by("safety-notice-incomplete", f'So far: {{{{ defects["D-20"].{fact} }}}}.', made=made)

    assert part not in found.details["missing"].split(", ")


def test_a_model_says_which_units() -> None:
    """The name of a model does, the name of a part does not."""
    named = NOTICE.replace('At least {{ defects["D-20"].affected }} looms have it so far', "It is the {}")

    assert [[], ["which units"]] == [
        [finding.details["missing"] for finding in by("safety-notice-incomplete", named.replace("{}", name))]
        for name in ("Heron 8", "Warp beam 40 cm")
    ]


ASKED = {
    "a number": ("Call us on +43 660 1234567.", []),
    "an address": ("Write to help@fennmoor.example.", []),
    "a page": ("See https://fennmoor.example.", []),
    "nobody": ("Ask us.", ["whom to ask"]),
}


@pytest.mark.parametrize(("text", "missing"), ASKED.values(), ids=ASKED)
def test_without_a_contact_in_the_settings_any_address_does(text: str, missing: list[str]) -> None:
    """Where the settings name no contact, a number, an address or a page says whom to ask; none can be offered."""
    settings = SETTINGS.model_copy(update={"maker": SETTINGS.maker.model_copy(update={"contact": ""})})
    found = by("safety-notice-incomplete", NOTICE.replace("Write to help@fennmoor.example.", text), settings=settings)

    assert [(part, "") for part in missing] == [(finding.details["missing"], finding.offer) for finding in found]


def test_a_closed_safety_defect_needs_no_notice() -> None:
    """Once it is closed, a letter may speak of a safety defect without all the parts."""
    made = replace(facts(), values={**VALUES, 'defects["D-20"].state': ("closed", "state")})

    assert [] == told("safety-notice-incomplete", 'It was {{ defects["D-20"].affected }} looms.', made=made)


SAMPLES = {
    "printed": ('{{ inspections["I-5"].failed }} failed.', (3, 1)),
    "claimed": ('[None cracked]{inspections["I-5"].failed == 0}.', (3, 2)),
}


@pytest.mark.parametrize(("text", "place"), SAMPLES.values(), ids=SAMPLES)
def test_the_number_checked_is_offered(text: str, place: tuple[int, int]) -> None:
    """It stands at the printed fact, or at the words of the claim."""
    fact = 'inspections["I-5"].checked'

    assert [("I-5", {"fact": fact}, f"{{{{ {fact} }}}}")] == told("sample-size-missing", text)
    assert [place] == [(finding.place.line, finding.place.column) for finding in by("sample-size-missing", text)]


def test_what_can_be_built_is_offered() -> None:
    """A share of parts in house is told with the units they make."""
    share, buildable = 'coverage.of("Heron 8").parts_in_house', 'coverage.of("Heron 8").buildable'

    assert [(share, {"buildable": f"{buildable} is 30"}, f"{{{{ {buildable} }}}}")] == told(
        "share-hides-shortage", f"Of the part lines of the Heron 8 {{{{ {share} }}}} are here."
    )


QUEUES = {
    "fewer now": "{orders.waiting < last.orders.waiting}",
    "not more now": "{orders.waiting <= last.orders.waiting}",
    "more then": "{last.orders.waiting > orders.waiting}",
    "not fewer then": "{last.orders.waiting >= orders.waiting}",
}


@pytest.mark.parametrize("condition", QUEUES.values(), ids=QUEUES)
def test_the_cancellations_are_offered(condition: str) -> None:
    """However the condition compares the queue with what it was, the number of those who gave up is offered, once."""
    expected = ("The queue is shorter", {"cancelled": "orders.gone_week is 17"}, "{{ orders.gone_week }}")

    assert [expected] == told("queue-fell-by-cancelling", f"[The queue is shorter]{condition}.")


def test_cancellations_that_nobody_counted_are_named_all_the_same() -> None:
    """Without a count of the week there is nothing to print, and the message still names the fact."""
    made = replace(facts(), values={name: value for name, value in VALUES.items() if name != "orders.gone_week"})
    text = "[We are getting there]{orders.waiting < last.orders.waiting}."

    assert [("We are getting there", {"cancelled": "orders.gone_week"}, "")] == told("queue-fell-by-cancelling", text, made=made)


NOT_SHORTER = ("orders.waiting > 3", "last.orders.waiting < orders.waiting + 40", "orders.waiting != last.orders.waiting")


@pytest.mark.parametrize("condition", NOT_SHORTER)
def test_other_comparisons_of_the_queue_hide_nothing(condition: str) -> None:
    """Only a condition that sets the queue below what it was tells it as shorter."""
    assert [] == told("queue-fell-by-cancelling", f"[Some of you wait]{{{condition}}}.")


def test_values_of_a_false_condition() -> None:
    """The message says what each fact is, or that a condition without facts does not hold."""
    week = {"values": "boxed.week is 41; boxed.last_week is 20", "condition": "boxed.week < boxed.last_week"}

    assert [("Fewer", week, "")] == told("condition-false", "[Fewer]{boxed.week < boxed.last_week} than last week.")
    assert [("Fine", {"values": "1 > 2 does not hold", "condition": "1 > 2"}, "")] == told("condition-false", "[Fine]{1 > 2}.")


CARRIED = {
    "a fact with itself": ("[a fine week]{boxed.week == boxed.week}", "it holds whatever the records say"),
    "no fact": ("[a fine week]{1 < 2}", "it touches no fact"),
    "a number": ("[A fine week]{boxed.week > boxed.last_week + 7}", "it reckons with 7, which the words do not tell"),
}


@pytest.mark.parametrize(("text", "why"), CARRIED.values(), ids=CARRIED)
def test_why_a_condition_carries_nothing(text: str, why: str) -> None:
    """The message says what is wrong with the condition."""
    assert [{"why": why}] == [details for _, details, _ in told("condition-beside-words", text)]


def test_a_statement_is_offered_in_its_own_words() -> None:
    """Words that go beyond a signed statement are offered as it was signed."""
    details = {"fact": 'attested["oil"]', "basis": "signed statement", "advice": "use the statement's own words and no others"}
    words = "Every frame is oiled by hand and lasts"

    assert [(words, details, '[Every frame is oiled by hand.]{attested["oil"]}')] == told(
        "words-stronger-than-basis", f'[{words}]{{attested["oil"]}}.'
    )


def test_how_to_tell_a_count_that_may_grow() -> None:
    """The message says what the count is and how to tell it."""
    details = {"fact": 'defects["D-14"].affected', "basis": "count that may still grow", "advice": 'say "at least" or "so far"'}

    text = '[60 looms]{defects["D-14"].affected} have it.'

    assert [("60 looms have it.", details, "")] == told("words-stronger-than-basis", text)


def test_an_unfinished_week_told_as_behind() -> None:
    """On a Wednesday the week's count is no less than last week's; the message says of which fact, and why."""
    why = 'this week is not over yet, so it can\'t be told as behind; say "so far"'
    text = "This week we boxed fewer looms ({{ boxed.week }}) than last week ({{ boxed.last_week }})."

    assert [("last week", {"fact": "boxed.week", "why": why}, "")] == told("fact-beside-words", text, made=WEDNESDAY)


def test_a_fact_of_another_period_is_offered_the_right_one() -> None:
    """The fact of the period that the words name is offered."""
    details = {"fact": "boxed.last_week", "why": "it counts last week"}

    assert [("this week", details, "{{ boxed.week }}")] == told(
        "fact-beside-words", "We boxed {{ boxed.last_week }} looms this week."
    )


def test_a_filter_is_offered_to_be_left_out() -> None:
    """Of two printed facts the one with the misfit is found; a fact without a filter is none."""
    why = "`share` is for a part of a whole, and boxed.week is a number of units"

    assert [("boxed.week", {"why": why}, "{{ boxed.week }}")] == told(
        "filter-off-fact", "We boxed {{ boxed.week | share }} and {{ boxed.week }} looms."
    )


def test_a_figure_in_an_opinion_is_not_put_right_by_itself() -> None:
    """Which words stop being an opinion is the author's to say, even where one fact fits the figure."""
    text = "[We think 1304 looms is fine]{opinion}."

    assert [False] == [finding.applies for finding in by("opinion-over-claim", text)]
    assert [True] == [finding.applies for finding in by("number-without-fact", "We think 1304 looms is fine.")]


def test_a_language_without_words_is_answered_for() -> None:
    """The line to write is offered, by the language and not by its country."""
    offer = 'Waive: unread-language "pl" | who has read it | what was looked at'

    assert [("pl", {}, offer)] == told("unread-language", "Dobrze.", locale="pl-PL")
    assert [] == told("unread-language", f"{offer}\n\nDobrze.", locale="pl-PL")


def test_what_is_left_out_is_offered() -> None:
    """A concern brings the words that would speak of it."""
    refunds = Concern("late refunds", "refunds.late", "2 refunds are late", offer="{{ refunds.late }}")
    details = {"told": "2 refunds are late", "kind": "late refunds"}

    assert [("refunds.late", details, "{{ refunds.late }}")] == told("unmentioned", "Good day.", concerns=(refunds,))


DUE = {
    1: ("1 order", "F-1"),
    2: ("2 orders", "F-1, F-2"),
    10: ("10 orders", "F-1, F-2, F-3, F-4, F-5, F-6, F-7, F-8, F-9, F-10"),
    12: ("12 orders", "F-1, F-2, F-3, F-4, F-5, F-6, F-7, F-8, F-9, F-10, and 2 more"),
}


@pytest.mark.parametrize("orders", DUE)
def test_ten_orders_that_are_due_a_notice_are_named(orders: int) -> None:
    """The first ten by name, the others by their number."""
    due = NoticesDue("16 CFR Part 435", tuple(f"F-{number}" for number in range(1, orders + 1)))
    count, named = DUE[orders]

    assert [("16 CFR Part 435", {"count": count, "orders": named}, "")] == told("notice-due", "Good day.", notices=(due,))


def test_an_as_of_date_that_has_not_come() -> None:
    """A day that lies ahead in the maker's own time zone is told with both days."""
    details = {"why": "2026-03-27 has not come on 2026-03-26"}

    assert [("the as-of date", details, "")] == told("tables-stale", "Good day.", published=date(2026, 3, 26))


def test_the_day_of_publishing_is_the_makers() -> None:
    """15:00 in Greenwich on the 26th is the 27th in Auckland."""
    settings = Settings.model_validate({"maker": {"name": "Fennmoor Looms", "time_zone": "Pacific/Auckland"}})

    assert [] == told("tables-stale", "Good day.", published=date(2026, 3, 26), settings=settings)


def test_tables_that_nobody_brought_up_to_date() -> None:
    """Working days are counted from the day after the newest row."""
    made = facts(boxed=date(2026, 3, 20))
    details = {"why": "5 working days lie between 2026-03-20 and 2026-03-27, more than 3"}

    assert [("boxed", details, "")] == told("tables-stale", "We boxed {{ boxed.week }} looms.", made=made)


SIGNED: dict[str, tuple[Value, str]] = {**VALUES, 'attested["lens"].by': ("Ines Holm", "text")}


@pytest.mark.parametrize(("made", "who"), [(facts(), "somebody"), (MadeFacts(SIGNED), "Ines Holm")], ids=["unknown", "known"])
def test_who_signed_a_statement_of_the_table(made: MadeFacts, who: str) -> None:
    """An expired statement of the table is told with its person, where one is known, and its last day."""
    text = '[Every reed is looked at]{attested["lens"]}.'

    assert [('attested["lens"]', {"who": who, "until": "2026-03-02"}, "")] == told("attested-expired", text, made=made)


def test_a_statement_holds_on_its_last_day() -> None:
    """It is past on the day after."""
    text = '[Every reed is looked at]{attested["lens"]}.'
    days = (date(2026, 3, 2), date(2026, 3, 3))

    assert [0, 1] == [len(by("attested-expired", text, made=facts(day))) for day in days]


def test_who_signed_a_statement_on_top_of_a_draft() -> None:
    """It is told with its person and its last day."""
    line = "Attested: Every frame is oiled by hand | Ines Holm | 2026-03-01"
    details = {"who": "Ines Holm", "until": "2026-03-01"}

    assert [("Every frame is oiled by hand", details, "")] == told("attested-expired", f"{line}\n\nGood day.")


def test_pictures_and_links_are_named_by_their_targets() -> None:
    """The file, the name of a definition, or the mark itself where it has neither."""
    pictures = "![](loom.png) ![][loom] ![][]\n\n[loom]: https://fennmoor.example/loom.png"

    assert ["loom.png", "loom", "![][]"] == [words for words, _, _ in told("picture-without-words", pictures)]
    assert ["http://fennmoor.example", "boxing", "data:image/png"] == [
        words for words, _, _ in told("bare-link", "[A](http://fennmoor.example) [B](boxing) ![C](data:image/png)")
    ]


def test_marks_of_pictures_and_tags_that_nobody_reads() -> None:
    """Code, notes and conditions hold neither pictures nor HTML; the words of a claim do."""
    assert [] == told("picture-without-words", "`![](a.png)` is how a picture begins. {# ![](b.png) #}")
    assert [] == told("raw-html", '`<b>` {# <i> #} [open]{defects["D-12"].state == "<b>"}')
    assert ["a.png"] == [words for words, _, _ in told("picture-without-words", "`code`![](a.png)")]
    assert ["<i>"] == [words for words, _, _ in told("raw-html", "`code`<i>")]
    assert ["<b>"] == [words for words, _, _ in told("raw-html", "[<b>more]{boxed.week > boxed.last_week}")]


REMARKS = {
    "excellence-without-evidence": "It is the finest loom.",
    "comparison-without-fact": "More were boxed than ever.",
    "absolute-without-fact": "Every loom is oiled.",
    "state-without-fact": "The pawl problem is solved.",
    "future-without-fact": "We will box soon.",
    "vague-time": "We will box soon.",
    "hedge": "We might box more.",
}


@pytest.mark.parametrize("rule", REMARKS)
def test_the_line_that_answers_for_a_remark_is_shown(rule: str) -> None:
    """It names the rule and the words, and put on top of the draft it answers for them."""
    (found,) = by(rule, REMARKS[rule])
    line = f'Waive: {rule} "{found.words}" | who | why'

    assert found.details["ways"].endswith(f"or answer for it: {line}")
    assert [] == by(rule, f"{line}\n\n{REMARKS[rule]}")


@pytest.mark.parametrize(
    ("text", "offers"),
    [
        ("Our best week so far for looms.", ["[Our best week]{boxed.week > boxed.best_week}"]),
        ("We boxed more looms than last week.", ["[more looms]{boxed.week > boxed.last_week}"]),
        ("We boxed fewer looms than last week.", [""]),
        ("Every loom is oiled.", [""]),
        ("The new shuttle feels smoother.", ["[smoother]{opinion}"]),
    ],
)
def test_what_is_offered_for_a_remark_is_of_its_sort(text: str, offers: list[str]) -> None:
    """A record for a superlative, more for "more", the opinion mark for a feeling; nothing where it would be refused."""
    kinds = ("comparison-without-fact", "absolute-without-fact")

    assert [finding.offer for finding in judged(text).findings if finding.rule in kinds] == offers
