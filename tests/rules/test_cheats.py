"""Ways in which a hurried or sly founder might get an untrue or overstrong sentence past the gate, each of them blocked.

Each is a draft of its own: what the records say of the made-up day stands in `builders.py` (41 looms boxed this week, 20 last
week, 316 orders waiting, nobody past a date, a plan of 52 looms for next week). What still gets past is told in DEVELOPERS.md.
"""

from __future__ import annotations

from datetime import date

import pytest

from bulletin.draft.reading import read_text
from tests.rules.builders import SETTINGS, judged, titled

CHEATS = {
    # conditions that are true and empty, or of something else
    "a condition that always holds": "[We did well this week]{boxed.week >= 0}.",
    "a condition of constants": "[All is well with every loom]{1 < 2}.",
    "a fact compared with itself": "[Our best week]{boxed.best_week >= boxed.best_week}.",
    "a number reckoned from nothing": "[We boxed 900 looms]{boxed.week / boxed.week * 900}.",
    "a count of one told as nobody": "[Nobody waits]{orders.placed_week >= 1}.",
    "a hundred told as the whole": "[All orders are out]{orders.shipped >= 100}.",
    "two equal counts told as the whole": "[All looms are boxed]{defects.open == defects.open + boxed.week - boxed.week}.",
    "not equal told as all": "[Everybody has a loom]{orders.waiting != 100}.",
    "a zero of one market told of all": '[Nobody is past the date we told]{orders.in_market("JP").past_promise == 0}.',
    "a zero of one part told of all": '[Nothing is short]{coverage.part["P-110"].short == 0}.',
    "a yes/no that answers something else": '[Every loom left on time]{policies["P-1"].in_force}.',
    "a yes/no beside a rule": '[The warranty is in force]{changes["C-1"].rate_fell}.',
    "a state that says the contrary": '[The crank fault is solved]{defects["D-20"].state == "open"}.',
    "a count told as solved": "[The crank problem is solved]{boxed.week > 10}.",
    "a few remedied told as solved": '[The crank problem is solved]{defects["D-12"].affected > 10}.',
    "orders told as stock": "[Warp beams are back in stock]{boxed.week > 10}.",
    "an empty shelf told as stock": '[Pawl springs are in stock]{coverage.part["P-110"].short > 0 - 1}.',
    "refunds told as delivery": "[All of you have your looms]{refunds.open >= 1}.",
    # comparisons
    "a trend of one number": "[Output is rising]{boxed.week > 30}.",
    "a trend of two models": '[Output is rising]{boxed.of("Heron 12").week > boxed.of("Heron 8").week}.',
    "more than a number": "[More than last week]{boxed.week > 30} were boxed.",
    "a day against a week": "[Fewer than last week]{boxed.last_week > boxed.today} were boxed.",
    "a month against a record of weeks": "[Our best month ever]{boxed.week > boxed.best_week}.",
    "the worst by the record of the best": "[Our worst week]{boxed.week > boxed.best_week}.",
    "quality by output": "[The looms are better made]{boxed.week > boxed.last_week}.",
    "reliability by output": '[The Heron 12 is more reliable]{boxed.of("Heron 12").week > boxed.of("Heron 12").last_week}.',
    "excellence by a count": "[Our looms are the envy of the trade]{boxed.week > boxed.last_week}.",
    "cancelled orders told as progress": "[The queue is shorter]{orders.waiting < last.orders.waiting}.",
    "an unfinished week told as behind": (
        "Title: N\nAs-of: 2026-03-25\n\nThis week we boxed fewer looms, {{ boxed.week }}, than {{ boxed.last_week }} last week."
    ),
    # what basis bears
    "a forecast for certain": "[We expect it for certain]{forecast.cleared}: the queue is gone.",
    "a forecast by its first day": "We expect the queue to be gone [by 4 May]{forecast.cleared}.",
    "a small chance expected": '[We expect the queue to be gone]{forecast.chance_cleared_by("2026-10-31") > 0.1} by then.',
    "a plan told as done": "[We built 52 looms]{plan.next_week}.",
    "a plan told for certain": "Next week we plan, and guarantee, {{ plan.next_week }} looms.",
    "a promise told sooner": 'We will send a guard well before {{ promises["PR-5"].due }}.',
    "a promise told as kept": '[The guards are delivered]{promises["PR-5"].state == "open"}.',
    "an idea told as a rule": '[Old looms are taken back]{policies["P-2"].state == "idea"}.',
    "all from a sample": '[All beams hold]{inspections["I-5"].failed == 0}, as {{ inspections["I-5"].checked }} show.',
    "a sample without its size": '[None cracked]{inspections["I-5"].failed == 0} that we tested.',
    "a growing count told as final": '[60 looms]{defects["D-14"].affected} have it.',
    "a share that hides a shortage": 'Of the Heron 8, [over 90 %]{coverage.of("Heron 8").parts_in_house} of the parts are here.',
    # signed statements
    "an expired statement": "Attested: Every frame is oiled by hand | Ines Holm | 2026-03-01\n\nEvery frame is oiled by hand.",
    "a statement of other words": '[Every frame is oiled by hand and never squeaks]{attested["oil"]}.',
    "a statement of one word": "Attested: every | Ines Holm | 2026-12-31\n\nEvery loom is boxed.",
    "a statement that has expired in the table": '[The lens never clouds]{attested["lens"]}.',
    # half-marks, opinions, waivers
    "a mark over half a sentence": "[41 looms]{boxed.week} were boxed and all are shipped.",
    "a mark over more than it holds": "[41 looms, and the queue is gone]{boxed.week}.",
    "a printed fact for another half": "We boxed {{ boxed.week }} looms: the queue is gone.",
    "an opinion over a number": "[We feel that 87 looms is a lot]{opinion}.",
    "an opinion over a comparison": "[The queue is shrinking, we feel]{opinion}.",
    "an opinion over a state": "[We believe the pawl is fixed]{opinion}.",
    "a waiver of what can't be waived": 'Waive: number-off-fact "900" | Ines | so\n\n[We boxed 900 looms]{boxed.week > 10}.',
    "a waiver by a common word": (
        'Waive: absolute-without-fact "every loom" | Ines | so\n\nEvery loom is dry. Every loom is oiled here.'
    ),
    "a waiver of part of a number": 'Waive: number-without-fact "17 looms" | Ines | so\n\nWe have 17 looms and 7 frames.',
    # other facts than the words
    "another period": "We boxed {{ boxed.last_week }} looms this week.",
    "another model": 'We boxed {{ boxed.of("Heron 8").week }} Heron 12 this week.',
    "boxed told as shipped": "We shipped {{ boxed.week }} looms.",
    "looms against days": "[A good week]{boxed.week < orders.oldest_wait}.",
    "a median told of everybody": "[You wait three months]{orders.median_wait}.",
    "a queue told as gone": "[The queue is gone]{orders.waiting < 900}.",
    "an average told as the least": "[We box 7.8 looms a day and never fewer]{boxed.rate}.",
    "a share of something else": "[a third]{boxed.of(\"Heron 8\").week / boxed.week} of the orders are shipped.",
    "kits told as units put right": '{{ defects["D-20"].kits }} looms are repaired.',
    # hidden figures
    "in the text of a link": "See [how we boxed 87 looms](https://fennmoor.example/).",
    "in the text of a picture": "![87 looms in a row](row.png)",
    "in the tip of a link": '[See](https://fennmoor.example/ "87 looms boxed").',
    "in a cell": "| Looms |\n| --- |\n| 87 |",
    "in a code span": "We boxed `87` looms.",
    "in an HTML entity": "We boxed &#56;7 looms.",
    "with a zero-width space": "We boxed 8\u200b7 looms.",
    "with a soft hyphen": "We boxed 8\u00ad7 looms.",
    "in fullwidth digits": "We boxed \uff18\uff17 looms.",
    "in mathematical digits": "We boxed \U0001d7d6\U0001d7d5 looms.",
    "in homoglyphs": "We b\u043exed eighty-s\u0435ven looms.",
    "in Roman numerals": "We boxed LXXXVII looms.",
    "spelled out": "We boxed eighty-seven looms.",
    "spelled out in another language": "Siebenundachtzig, that is our number.",
    "split over a claim's border": "We boxed 1[8]{boxed.today} looms today.",
    "split by marks": "We boxed 8**7** looms.",
    "times a word": "We boxed {{ boxed.week }} thousand looms.",
    # ways of saying
    "a question that tells": "Did you know that all looms are shipped?",
    "an order that tells": "Note that every loom is shipped.",
    "a heading": "## All looms shipped",
    "a heading with a colon": "## The pawl: solved",
    "the maker quoted as if a reader": '"All looms are shipped," says our foreman.',
    "a denied opposite": "It is not true that any loom still waits.",
    "no single one": "Not a single one of you is still waiting.",
    "a title": "Title: Every loom is shipped\n\nGood day.",
    "a vague time in a claim": "[Your loom ships soon]{forecast.cleared}.",
    "a future of the past": "[Your loom will ship next week]{boxed.week > 10}.",
}  # fmt: skip


@pytest.mark.parametrize("text", CHEATS.values(), ids=CHEATS)
def test_a_cheat_is_blocked(text: str) -> None:
    """No such draft becomes a bulletin."""
    verdict = judged(text)

    assert verdict.blocked, [finding.rule for finding in verdict.findings]


def test_a_name_of_the_settings_frees_no_claim() -> None:
    """A claiming word does not become a name by being listed."""
    maker = SETTINGS.maker.model_copy(update={"names": ("solved", "every loom", "all looms")})
    named = SETTINGS.model_copy(update={"maker": maker})
    plain = frozenset({"solved", "every loom", "all looms"})
    verdict = judged("The pawl: solved. Every loom is boxed.", settings=named, plain=plain)

    assert verdict.blocked


def test_a_translation_that_says_more_is_blocked() -> None:
    """A translation holds what its original holds, and nothing else."""
    original, _ = read_text(titled("Gut [41]{boxed.week}."), "news", "de", "news.de.md")
    verdict = judged("Good [41]{boxed.week}, after {{ boxed.last_week }}.", original=original)

    assert verdict.blocked


def test_old_tables_do_not_go_out() -> None:
    """A draft of a day long past is blocked when it is issued."""
    assert judged("We boxed {{ boxed.week }} looms.", published=date(2026, 5, 1), issuing=True).blocked
