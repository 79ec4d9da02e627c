"""The three forms in the source of a draft, and everything that comes near one."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bulletin.draft.reading import read_text
from bulletin.draft.scanner import scan
from bulletin.model import Claim, Draft, Problem

HEAD = "Title: Weaving on\n\n"


def read(body: str) -> tuple[Draft, list[Problem]]:
    """A draft with a title and this body."""
    draft, problems = read_text(HEAD + body, "week-13", "en", "week-13.en.md")
    assert draft is not None
    return draft, problems


def only(body: str) -> Claim:
    """The one claim of a body without a fault."""
    draft, problems = read(body)
    assert problems == []
    assert len(draft.claims) == 1
    return draft.claims[0]


@pytest.mark.parametrize(
    ("body", "words", "condition"),
    [
        ("So [our best week]{boxed.week > boxed.best_week}.", "our best week", "boxed.week > boxed.best_week"),
        ("[brackets [inside] balance]{boxed.week}", "brackets [inside] balance", "boxed.week"),
        (
            "[see [our page](https://fennmoor.example/a_(b)) now]{boxed.week}",
            "see [our page](https://fennmoor.example/a_(b)) now",
            "boxed.week",
        ),
        (
            "[![a loom](https://fennmoor.example/l.png) new]{boxed.week}",
            "![a loom](https://fennmoor.example/l.png) new",
            "boxed.week",
        ),
        ('[a brace]{defects["}"].open}', "a brace", 'defects["}"].open'),
        ("[typographic]{defects[“}”].open}", "typographic", "defects[“}”].open"),
        ("[over two\nlines]{boxed.week\n> 3}", "over two\nlines", "boxed.week\n> 3"),
        ("- [an item]{boxed.week}", "an item", "boxed.week"),
        ("# [a heading]{boxed.week}", "a heading", "boxed.week"),
        ("| a | b |\n|---|---|\n| [a | cell]{boxed.week} | x |", "a | cell", "boxed.week"),
        ("[with `code ]{x}` inside]{boxed.week}", "with `code ]{x}` inside", "boxed.week"),
        ("[escaped \\] bracket]{boxed.week}", "escaped \\] bracket", "boxed.week"),
        ("a [ stray one, then [words]{boxed.week}", "words", "boxed.week"),
        ("[prose] and [words]{boxed.week}", "words", "boxed.week"),
    ],
)
def test_words_and_condition_are_cut_out_exactly(body: str, words: str, condition: str) -> None:
    """Words run to their own bracket, a condition to the first brace outside quotes."""
    claim = only(body)

    assert (words, condition) == (claim.words, claim.condition)
    assert "claim" == claim.kind
    assert claim.expression is not None


def test_a_printed_fact_stands_by_itself_or_in_words() -> None:
    """A fact inside the words of a claim belongs to the claim."""
    draft, problems = read(
        'We boxed {{ boxed.week | units }}, [all {{ boxed.week }} of them]{boxed.week == boxed.total} {{ a["}}"] }}.'
    )

    assert [] == problems
    assert ["printed", "claim", "printed"] == [claim.kind for claim in draft.claims]
    assert ["{{ boxed.week }}"] == [inside.words for inside in draft.claims[1].inside]
    assert 'a["}}"]' == draft.claims[2].condition


def test_an_opinion_has_no_condition_to_parse() -> None:
    """`{opinion}` marks words as no claim, with spaces around or without."""
    for body in ("[a joy]{opinion}", "[a joy]{ opinion }"):
        claim = only(body)

        assert ("opinion", "a joy", None) == (claim.kind, claim.words, claim.expression)


def test_places_count_lines_and_characters() -> None:
    """Columns are characters, not bytes, from 1; a condition has its own place."""
    claim = only("First line.\n\n„Größe“ 🧵 [wörds]{boxed.week}")

    assert (5, 11) == (claim.place.line, claim.place.column)
    assert claim.condition_place is not None
    assert (5, 19) == (claim.condition_place.line, claim.condition_place.column)


@pytest.mark.parametrize(
    "body",
    [
        "`[words]{boxed.week}`", "``[a]{b} ` {{ c }}``", "```\n[words]{boxed.week}\n{{ x }}\n```", "~~~ text\n{{ x }\n~~~",
        "\\[words\\]\\{boxed.week\\}", "[a link](https://fennmoor.example)", "[a mail](mailto:help@fennmoor.example)",
        "[sic] and (so on)",
        "[a][b]", "［全角］の括弧と【見出し】", "[ ] a task", "![a loom](https://fennmoor.example/l.png)", "a * b _c_ <https://x.example>",
        "{# a note with [words]{boxed.week} and } #}", "[up](#top)",
    ],
)  # fmt: skip
def test_what_is_no_form_stays_prose(body: str) -> None:
    """Code, escapes, links, notes and brackets alone hold no claim and are no fault."""
    draft, problems = read(body)

    assert ((), []) == (draft.claims, problems)


@pytest.mark.parametrize(
    ("body", "near_miss", "offer"),
    [
        ("so [words] {boxed.week}.", "[words] {boxed.week}", "[words]{boxed.week}"),
        ("so [words]\n{boxed.week}.", "[words] {boxed.week}", "[words]{boxed.week}"),
        ("so [words](boxed.week).", "[words](boxed.week)", "[words]{boxed.week}"),
        ("so [words](boxed.week > 3).", "[words](boxed.week > 3)", "[words]{boxed.week > 3}"),
        ("so [words](opinion).", "[words](opinion)", "[words]{opinion}"),
        ("so [words]{{ boxed.week }}.", "[words]{{ boxed.week }}", "[words]{boxed.week}"),
        ("so ［words］{boxed.week}.", "［words］{boxed.week}", "[words]{boxed.week}"),
        ("so ［words］｛boxed.week｝.", "［words］｛boxed.week｝", "[words]{boxed.week}"),
        ("so 【words】{boxed.week}.", "【words】{boxed.week}", "[words]{boxed.week}"),
        ("so [words]｛boxed.week｝.", "[words]｛boxed.week｝", "[words]{boxed.week}"),
        ("so ｛words", "｛", "{"),
        ("so {boxed.week}.", "{boxed.week}", "{{ boxed.week }}"),
        ("so words]{boxed.week}.", "{boxed.week}", "{{ boxed.week }}"),
        ("so [words]{Opinion}.", "{Opinion}", "[words]{opinion}"),
        ("so [words]{opinions}.", "{opinions}", "[words]{opinion}"),
        ("so [a](https://x.example){boxed.week}.", "[a](https://x.example){boxed.week}", "[[a](https://x.example)]{boxed.week}"),
        ("so []{boxed.week}.", "[]", ""),
        ("so [a [b]{boxed.week} c]{boxed.week}.", "[a [b]{boxed.week} c]", ""),
        ("so [a {# b #} c]{boxed.week}.", "[a {# b #} c]", ""),
        (
            "so [[a](https://x.example) [b](https://x.example)]{boxed.week}.",
            "[[a](https://x.example) [b](https://x.example)]",
            "",
        ),
        ("so {% if boxed.week %}.", "{% if boxed.week %}", ""),
        ("so {{ boxed.week.", "{{", ""),
        ("so {{ boxed.week }.", "{{", ""),
        ("so {# never ends", "{#", ""),
        ("so }.", "}", ""),
        ("so [words]{boxed.week\n\n}.", "{", ""),
        ("so [words]{" + "a" * 301 + "}.", "{", ""),
        ("a\x02b", "", ""),
    ],
)
def test_a_near_miss_is_a_fault(body: str, near_miss: str, offer: str) -> None:
    """Whatever looks like a form and is none is told, with the form it should have."""
    _, problems = read(body)

    faults = [(problem.words.strip("\x02"), problem.offer) for problem in problems if problem.rule == "form-unreadable"]

    assert (near_miss, offer) == faults[0]
    assert {"block"} == {problem.level for problem in problems}


def test_words_do_not_run_over_a_paragraph_or_an_item() -> None:
    """A bracket that opens in another paragraph or item opens nothing here."""
    for body in ("[words\n\nmore]{boxed.week}", "- [words\n- more]{boxed.week}"):
        draft, problems = read(body)

        assert () == draft.claims
        assert ["{boxed.week}"] == [problem.words for problem in problems]


def test_a_broken_form_keeps_its_words_out_of_the_prose() -> None:
    """A form with a fault is still a form, without an expression."""
    draft, problems = read("[words] {boxed.week} and [more]{a = 3} and {{ 5 }}")

    assert [("claim", None), ("claim", None), ("printed", None)] == [(claim.kind, claim.expression) for claim in draft.claims]
    assert ["form-unreadable", "condition-unreadable", "condition-unreadable"] == [problem.rule for problem in problems]


def test_notes_and_code_are_told_by_their_offsets() -> None:
    """A note nobody reads and code that holds no claim, so that others can pass over them."""
    draft, _ = read("a {# note\n\nover paragraphs #} b `code`")

    assert ["{# note\n\nover paragraphs #}"] == [draft.source[start:end] for start, end in draft.notes]
    assert ["`code`"] == [draft.source[start:end] for start, end in draft.code]


def test_a_condition_may_have_300_characters() -> None:
    """The longest condition that is allowed is read."""
    condition = "a >" + " " * 296 + "1"

    assert condition == only(f"[words]{{{condition}}}").condition


FORMS = st.sampled_from(
    ["[", "]", "{", "}", "{{", "}}", "{#", "#}", "{%", "%}", "(", ")", "`", "\n", "\n\n", '"',
     "“", "a", "boxed.week", " ", "\\", "［", "］", "｛", "｝", "- "]
)  # fmt: skip


@given(st.lists(FORMS | st.text(max_size=3), max_size=40))
def test_any_text_can_be_scanned(pieces: list[str]) -> None:
    """Nothing raises, forms do not overlap, and offsets slice back to words and condition."""
    draft, _ = read_text("Title: x\n\n" + "".join(pieces) + "x", "a", "en", "a.en.md")

    assert draft is not None
    ends = 0
    for claim in draft.claims:
        assert ends <= claim.start <= claim.words_start <= claim.words_end <= claim.end
        assert claim.words == draft.source[claim.words_start : claim.words_end]
        assert all(claim.words_start <= inside.start < inside.end <= claim.words_end for inside in claim.inside)
        ends = claim.end


def test_a_long_row_of_brackets_is_scanned_in_time() -> None:
    """Twenty thousand open brackets are read in one pass."""
    found = scan("[" * 20_000 + "]" * 20_000, 0, 40_000)

    assert ([], []) == (found.forms, found.faults)
