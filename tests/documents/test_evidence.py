"""The evidence for the maker."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from hashlib import sha256
from typing import Any

from justhtml import JustHTML

from bulletin.documents import evidence
from bulletin.documents.letter import letter_of
from bulletin.documents.marks import bare_figures
from bulletin.model import Passed, Place, Problem, TableRead, Waived, Waiver
from tests.documents.builders import LETTER, NAMES, Lines, bulletin, fact

ATTESTED = """\
Title: Tested
Attested: Every beam is tested at 40 kg. | Ann Moor | 2026-12-31

[Our best week]{boxed.week > boxed.best_week}.
"""
FINDING = Problem("hedge", "warn", Place("drafts/2026-13.en.md", 5, 3), "probably", offer="{{ boxed.week }}")
WAIVER = Waiver(Place("drafts/2026-13.en.md", 3), "hedge", "probably", "Ann Moor", "it is what we know")


def told(**options: Any) -> dict[str, Any]:
    """The evidence as JSON."""
    made: dict[str, Any] = json.loads(evidence.documents(letter_of(bulletin(**options)))[1].content)
    return made


def page(**options: Any) -> str:
    """The evidence as HTML."""
    return evidence.documents(letter_of(bulletin(**options)))[0].content.decode()


def test_claim_has_its_condition_filled_with_values() -> None:
    """A claim shows its condition, and the same with its values in it."""
    claim = told()["claims"][2]

    assert "our best week so far" == claim["words"]
    assert "boxed.week > boxed.best_week" == claim["condition"]
    assert "41 > 39" == claim["filled"]
    assert "supported" == claim["verdict"]
    assert (5, 44) == (claim["line"], claim["column"])


def test_windows_that_were_put_out_are_told_of() -> None:
    """A letter with windows says by how many working days they are put out, or that they are not; one without says nothing."""
    made = [letter_of(replace(bulletin(), widened=days)) for days in (None, 0, 3)]
    pages = [evidence.as_html(letter) for letter in made]
    shown = ["The windows" in each for each in pages], [evidence.as_json(letter)["widened"] for letter in made]

    assert ([False, True, True], [None, 0, 3]) == shown
    assert 'put out by <data value="3">3</data> working days' in pages[2]


def test_fact_has_value_basis_and_rows() -> None:
    """Each fact tells its exact value, basis, explanation and the lines of its rows."""
    actual = told()["claims"][1]["facts"][0]

    assert {
        "key": "boxed.week",
        "value": 41,
        "unit": "unit",
        "basis": "record",
        "as_of": "2026-03-27",
        "how": "What boxed.week counts.",
        "rows": {"boxing.csv": {"count": 4, "lines": [2, 3, 4, 9]}},
    } == actual


def test_opinions_are_the_authors_own_view() -> None:
    """An opinion is listed as such and bears no facts."""
    actual = told()["claims"][-1]

    assert ("opinion", "the author's own", []) == (actual["verdict"], actual["view"], actual["facts"])
    assert "the author’s own view" in page()


def test_findings_waivers_and_attested_lines_are_named() -> None:
    """Warnings, what was waived by whom and why, and attested lines stand in it."""
    actual = told(text=ATTESTED, findings=(FINDING,), waived=(Waived(FINDING, WAIVER),))

    assert ["hedge"] == [finding["rule"] for finding in actual["findings"]]
    assert [("Ann Moor", "it is what we know")] == [(waived["who"], waived["why"]) for waived in actual["waived"]]
    assert [{"text": "Every beam is tested at 40 kg.", "who": "Ann Moor", "until": "2026-12-31"}] == actual["attested"]


def test_it_says_what_the_checker_cannot_know() -> None:
    """Causes, pictures and what the tables leave out are beyond it, and it says so."""
    assert all(line in page() for line in evidence.NOT_KNOWN)


def test_it_is_for_the_maker_only_and_says_so_on_top() -> None:
    """Nobody sends it on by mistake."""
    actual = page()

    assert actual.index("For Fennmoor Looms only") < actual.index("<h1>")


def test_draft_is_named_by_its_digest() -> None:
    """The digest is that of the draft's text."""
    assert sha256(LETTER.encode()).hexdigest() == told()["digests"]["draft"]


def test_page_is_valid_and_marked() -> None:
    """The page parses strictly, and no figure in it stands bare."""
    actual = page(text=ATTESTED, findings=(FINDING,), waived=(Waived(FINDING, WAIVER),))

    assert [] == JustHTML(actual, strict=True).errors
    assert [] == bare_figures(actual, NAMES)


def test_attested_words_without_a_condition_are_told_so() -> None:
    """A statement that stands in an `Attested:` line alone has no condition to show."""
    made = bulletin("Title: Week\n\n[Beech]{boxed.week > 0}.\n")
    judged = replace(
        made.verdict.judged[0], judgement="attested", claim=replace(made.verdict.judged[0].claim, condition="", expression=None)
    )
    actual = evidence.documents(letter_of(replace(made, verdict=Passed(replace(made.verdict, judged=(judged,))))))[
        0
    ].content.decode()

    assert "is <strong>attested</strong>." in actual


def test_long_lists_of_lines_are_cut_on_the_page_alone() -> None:
    """A fact with very many scattered rows shows the first of them; the JSON form holds all."""
    scattered = replace(fact("boxed.week", 41), rows=Lines(boxing=list(range(2, 200, 2))))
    options = {"text": "Title: Week\n\n{{ boxed.week }} looms\n", "facts": [scattered]}

    assert "and more, all of them in evidence.json" in page(**options)
    assert list(range(2, 200, 2)) == told(**options)["claims"][0]["facts"][0]["rows"]["boxing.csv"]["lines"]


def test_neighbouring_lines_are_told_as_a_span_and_lead_to_their_rows() -> None:
    """Lines 2, 3, 4 and 9 read as 2 to 4 and 9, each a link to the row as its file has it."""
    actual = page()

    assert (
        '<a href="#boxing.csv-2"><data value="2">2</data></a>–<a href="#boxing.csv-4"><data value="4">4</data></a>, '
        '<a href="#boxing.csv-9"><data value="9">9</data></a>'
    ) in actual
    assert '<li id="boxing.csv-9">' in actual


def test_every_link_leads_to_a_row_of_the_page() -> None:
    """No link within the page is broken, and no row stands there twice."""
    actual = page()
    links, anchors = set(re.findall(r'href="#([^"]+)"', actual)), re.findall(r'<li id="([^"]+)"', actual)

    assert links
    assert (set(), len(anchors)) == (links - set(anchors), len(set(anchors)))


def test_a_fact_of_very_many_rows_is_not_listed_row_by_row() -> None:
    """Its lines are told without links, and the page says where they can be seen."""
    many = replace(fact("boxed.week", 41), rows=Lines(boxing=list(range(2, 200))))
    options = {"text": "Title: Week\n\n{{ boxed.week }} looms\n", "facts": [many]}

    assert 'href="#' not in page(**options)
    assert {} == told(**options)["rows"]


def test_rows_that_the_settings_leave_out_and_digests_of_tables_are_listed() -> None:
    """What facts know nothing of is told with its line and cells; each table is named with the digest it was read with."""
    read = TableRead("orders.csv", "ab" * 32, ((7, (("amount", ""), ("order", "1001"))),))
    documents = evidence.documents(letter_of(replace(bulletin(), tables=(read,))))
    html, made = documents[0].content.decode(), json.loads(documents[1].content)

    assert [{"file": "orders.csv", "line": 7, "cells": {"amount": "", "order": "1001"}}] == made["left_out"]
    assert "ab" * 32 == made["digests"]["orders.csv"]
    assert 'order <data value="1001">1001</data>' in html
    assert [] == bare_figures(html, NAMES)


def test_a_bulletin_that_speaks_of_a_defect_carries_the_caution_on_top() -> None:
    """Whoever may publish it is told to ask first; a bulletin without defects is not."""
    spoken = {"text": "Title: Week\n\n{{ defects.open }} faults\n", "facts": [fact("defects.open", 4, "defect")]}

    assert ([evidence.SAFETY], []) == (told(**spoken)["cautions"], told()["cautions"])
    assert page(**spoken).index("qualified person") < page(**spoken).index("<main>")


def test_each_claim_has_the_sentence_it_stands_in() -> None:
    """The JSON form tells the passage as readers get it, and findings their message."""
    worded = replace(FINDING, sentence='"{words}" leaves open whether it is so')
    actual = told(findings=(worded,))

    assert actual["claims"][2]["sentence"].startswith("We boxed 41 looms this week, our best week so far.")
    assert '"probably" leaves open whether it is so' == actual["findings"][0]["message"]
