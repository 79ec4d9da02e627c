"""A draft's body: what readers get of claims, facts and prose."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bulletin.documents.body import render
from bulletin.documents.marks import bare_figures
from bulletin.documents.tree import parse_fragment
from bulletin.model import Basis
from tests.documents.builders import NAMES, bulletin, fact

HEADER = "Title: Week 13\nAs-of: 2026-03-27\n\n"


def body(text: str, **options: object) -> str:
    """The HTML of a body in one line."""
    return str(render(bulletin(HEADER + text + "\n", **options)).html).replace("\n", "")  # type: ignore[arg-type]


def test_printed_fact_carries_its_exact_value() -> None:
    """A printed fact stands in a data element with its exact value."""
    actual = body("We boxed {{ boxed.total }} looms.")

    assert '<p>We boxed <data value="1287">1,287</data> looms.</p>' == actual


def test_printed_date_carries_its_iso_form() -> None:
    """A printed date stands in a time element."""
    actual = body('Due on {{ coverage.part["P-104"].next_arrival }}.')

    assert '<p>Due on <time datetime="2026-04-10">April 10, 2026</time>.</p>' == actual


def test_money_in_several_currencies_has_a_value_each() -> None:
    """Each currency of an amount has its own exact value."""
    actual = body("We owe {{ credits.owed }}.")

    assert '<data value="1240.00">€1,240.00</data>' in actual
    assert '<data value="15000">¥15,000</data>' in actual


def test_rounded_figure_in_a_claim_carries_the_exact_fact() -> None:
    """The figure of a rounding claim shows the typed words and holds the fact's exact value."""
    actual = body("[About 1,300]{boxed.total} have left the bench.")

    assert '<p>About <data value="1287">1,300</data> have left the bench.</p>' == actual


def test_bound_in_a_claim_carries_its_own_value() -> None:
    """A bound is not the fact: it holds the value that was typed."""
    actual = body("[More than 1,200 looms]{boxed.total > 1200} have left the bench.")

    assert '<data value="1200">1,200</data>' in actual


def test_claims_and_opinions_show_plain_words() -> None:
    """Readers see the words of claims and opinions without any mark."""
    actual = body("It was [our best week]{boxed.week > boxed.best_week}, and [a joy]{opinion}.")

    assert "<p>It was our best week, and a joy.</p>" == actual


def test_words_of_a_claim_may_hold_emphasis_and_a_link() -> None:
    """An author's own marks within a claim work as outside."""
    actual = body("[our **best** week, [see](https://fennmoor.example/13)]{boxed.week > boxed.best_week}")

    assert '<p>our <strong>best</strong> week, <a href="https://fennmoor.example/13">see</a></p>' == actual


def test_a_name_of_a_table_is_never_read_as_markdown_or_html() -> None:
    """What a cell holds reaches readers letter by letter."""
    actual = body("We watch {{ coverage.tightest }}.")

    assert "<p>We watch Bolt M8 &lt;b&gt;*x*&lt;/b&gt;.</p>" == actual


def test_a_name_in_a_claim_is_never_read_as_markdown_either() -> None:
    """The same holds for facts printed inside the words of a claim."""
    actual = body("[All but {{ coverage.tightest }}]{boxed.week > 0}")

    assert "<p>All but Bolt M8 &lt;b&gt;*x*&lt;/b&gt;</p>" == actual


@pytest.mark.parametrize(
    ("source", "seen"),
    [
        ("1986. A year.", "1986. A year."),
        ("{{ boxed.week }}. That many.", "41. That many."),
        ("[1,287. That many]{boxed.total}", "1,287. That many"),
        ("See part_8_a and 5_6_7.", "See part_8_a and 5_6_7."),
    ],
)
def test_markdown_never_changes_a_figure(source: str, seen: str) -> None:
    """Figures that Markdown would take for lists or emphasis stay what they are (traps from measured use of Python-Markdown)."""
    actual = parse_fragment(body(source)).text()

    assert seen == actual


@given(
    st.lists(st.sampled_from(["1986. ", "2*3*4 ", "**7** ", "- 12 ", "\n\n", "_5_6_ ", "`9` ", "# 3 ", "| 4 | 5 |\n", "word "]))
)
def test_digits_of_source_and_result_are_the_same(parts: list[str]) -> None:
    """However figures are mixed with marks, readers get the same digits in the same order; marks of ordered lists are no text."""
    source = "x " + "".join(parts)
    expected = [character for character in source if character.isdecimal()]

    actual = [character for character in parse_fragment(body(source)).text() if character.isdecimal()]

    assert expected == actual


def test_ordered_list_stays_a_list() -> None:
    """Small numbers that open lines are list marks."""
    actual = body("1. Cut\n2. Wind")

    assert "<ol><li>Cut</li><li>Wind</li></ol>" == actual


def test_figures_of_the_prose_are_marked_too() -> None:
    """What the gate let through as free still carries its value."""
    actual = body("In week 13 of 2026 we moved.")

    assert [] == bare_figures(actual, NAMES)
    assert 'datetime="2026-W13"' in actual


def test_product_names_with_digits_stay_words() -> None:
    """A known name is no figure."""
    actual = body("The Heron 8 is light.")

    assert "<p>The Heron 8 is light.</p>" == actual


def test_figures_in_an_address_stay_in_the_address() -> None:
    """A link's address is not marked up."""
    actual = body("[our story](https://fennmoor.example/2026/13?a=1)")

    assert '<p><a href="https://fennmoor.example/2026/13?a=1">our story</a></p>' == actual


def test_scripts_and_foreign_schemes_are_taken_away() -> None:
    """Even if a rule let them through, raw scripts and javascript links do not reach a document."""
    actual = body("<script>alert(1)</script> [x](javascript:alert(2)) [y](http://fennmoor.example)")

    assert "script" not in actual
    assert "http:" not in actual


def test_notes_are_dropped() -> None:
    """A note reaches nobody."""
    actual = render(bulletin(HEADER + "We thank you.{# ask Ann #}\n"))

    assert "<p>We thank you.</p>" == actual.html
    assert "Ann" not in actual.text + actual.markdown


def test_characters_of_our_placeholders_cannot_be_smuggled_in() -> None:
    """A private-use character in a draft becomes the mark of an unknown one."""
    actual = body("A \U000f0000 here and {{ boxed.week }} there.")

    assert '<p>A \ufffd here and <data value="41">41</data> there.</p>' == actual


def test_claims_stand_in_table_cells() -> None:
    """Tables hold claims and facts in their cells."""
    actual = body("| what | how many |\n| --- | --- |\n| boxed | {{ boxed.week }} |\n| all | [about 1,300]{boxed.total} |")

    assert '<td><data value="41">41</data></td>' in actual
    assert '<td>about <data value="1287">1,300</data></td>' in actual


def test_title_prints_facts() -> None:
    """A title may print facts; it comes as plain text and as marked HTML."""
    actual = render(bulletin("Title: {{ boxed.week }} looms\n\nThank you.\n"))

    assert "41 looms" == actual.title
    assert '<data value="41">41</data> looms' == actual.title_html


def test_markdown_for_others_escapes_names() -> None:
    """In the Markdown of a post, names of tables hold no marks, and figures that open a line open no list."""
    actual = render(bulletin(HEADER + "{{ boxed.week }}. {{ coverage.tightest }}\n"))

    assert "41\\. Bolt M8 \\<b\\>\\*x\\*\\</b\\>\n" == actual.markdown


def test_share_carries_the_exact_ratio() -> None:
    """A share that does not end in decimals is told as the ratio it is."""
    facts = [fact("inspections.share", Fraction(1, 3), "share", Basis.SAMPLE, 1)]

    actual = body("{{ inspections.share }}", facts=facts)

    assert '<p><data value="1/3">33.3%</data></p>' == actual


def test_dates_in_the_words_of_a_claim_are_marked() -> None:
    """A written date within a claim stands in a time element."""
    facts = [fact("promises.due", date(2026, 4, 10), "date", Basis.COMMITMENT)]

    actual = body("We will answer [by April 10, 2026]{promises.due}.", facts=facts)

    assert '<time datetime="2026-04-10">April 10, 2026</time>' in actual
