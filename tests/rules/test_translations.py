"""Translations held against their originals."""

from __future__ import annotations

import pytest

from bulletin.draft.following import follows_line
from bulletin.draft.reading import read_text
from tests.rules.builders import judged

ORIGINAL = (
    "Title: News\nReaders: waiting\n\n{{ boxed.week }} looms, [more]{boxed.week > boxed.last_week}.\n\n"
    '{{ defects["D-12"].affected }}\n'
)


def differing(text: str, original: str = ORIGINAL, header: str = "Readers: waiting") -> list[tuple[str, str]]:
    """Words and reason of what differs; the translation follows the original as it is unless its text says otherwise."""
    read, _ = read_text(original, "news", "fr", "news.fr.md")
    assert read is not None
    line = "" if "Follows:" in header else f"\nFollows: {follows_line(read)}"
    findings = judged(f"Title: Neues\n{header}{line}\n\n{text}", original=read).findings
    return [(finding.words, finding.details["what"]) for finding in findings if finding.rule == "translation-differs"]


SAME = {
    "in another order": '{{ defects["D-12"].affected }}\n\n[mehr]{boxed.week > boxed.last_week}: {{ boxed.week }}.',
    "in words": '[60]{defects["D-12"].affected}, {{ boxed.week }}, [mehr]{boxed.week > boxed.last_week}',
    "typed otherwise": '{{defects["D-12"].affected | words}}, {{ boxed.week }}, [mehr]{ boxed.week>boxed.last_week }',
    "said twice": '{{ boxed.week }}, {{ boxed.week }}, [mehr]{boxed.week > boxed.last_week} {{ defects["D-12"].affected }}',
    "with an opinion": '{{ boxed.week }}, [mehr]{boxed.week > boxed.last_week} {{ defects["D-12"].affected }} [fein]{opinion}',
}


@pytest.mark.parametrize("text", SAME.values(), ids=SAME)
def test_the_same_facts_and_claims(text: str) -> None:
    """Order, filters, spaces and words are the translator's; facts and conditions are not."""
    assert [] == differing(text)


def test_what_is_missing_and_what_is_added() -> None:
    """Each fact or condition that only one of them has is named, with its line in the original."""
    found = differing("{{ boxed.week }}, [mehr]{boxed.week >= boxed.last_week}")

    assert {"boxed.week > boxed.last_week", "boxed.week >= boxed.last_week", 'defects["D-12"].affected'} == {
        words for words, _ in found
    }
    assert any("news.fr.md:4 and not here" in what for _, what in found)


def test_other_readers() -> None:
    """A translation is for the readers of its original."""
    text = '{{ defects["D-12"].affected }}\n\n[mehr]{boxed.week > boxed.last_week}: {{ boxed.week }}.'

    assert ["As-of and Readers"] == [words for words, _ in differing(text, header="Readers: all")]


def test_a_changed_original_makes_a_translation_stale() -> None:
    """The changed paragraph is named by its line and its first words."""
    text = '{{ defects["D-12"].affected }}\n\n[mehr]{boxed.week > boxed.last_week}: {{ boxed.week }}.'
    read, _ = read_text(ORIGINAL.replace("looms", "frames"), "news", "fr", "news.fr.md")
    assert read is not None
    found = differing(text, header=f"Readers: waiting\nFollows: {follows_line(read)}")

    assert 1 == len(found)
    assert "line 4 ({{ boxed.week }} looms" in found[0][1]


def test_an_original_follows_nothing() -> None:
    """A draft in the first locale needs no mark."""
    assert [] == [finding for finding in judged("Hello.").findings if finding.rule == "translation-differs"]


FOLLOWING = "\n\nOne.\n\nTwo that is rather long and goes on for longer than is shown.\n\nThree.\n"


def followed(now: str, before: str = f"Title: News{FOLLOWING}", mark: bool = True) -> list[tuple[str, str]]:
    """Words and reason of what differs where the original has changed from `before` since it was followed."""
    original, old = (read_text(text, "news", "fr", "news.fr.md")[0] for text in (now, before))
    assert original is not None
    assert old is not None
    line = f"Follows: {follows_line(old)}\n" if mark else ""
    findings = judged(f"Title: Neues\n{line}\nEins.", original=original).findings
    return [(finding.words, finding.details["what"]) for finding in findings if finding.rule == "translation-differs"]


RUN = "once this follows, run bulletin follow news"
CHANGED = {
    "two paragraphs": (
        ("One.", "Two that"), ("1.", "2 that"),
        f"line 3 (1....), line 5 (2 that is rather long and goes on for lo...); {RUN}",
    ),
    "one gone": (("\n\nOne.",), ("",), f"1 paragraphs gone; {RUN}"),
    "the readers": (("Title: News",), ("Title: News\nReaders: waiting",), f"its day or its readers; {RUN}"),
}  # fmt: skip


@pytest.mark.parametrize(("old", "new", "what"), CHANGED.values(), ids=CHANGED)
def test_what_has_changed_is_named_and_what_to_run(old: tuple[str, ...], new: tuple[str, ...], what: str) -> None:
    """Changed paragraphs by line and first words, those that are gone by their number, else the top of the draft."""
    before = f"Title: News{FOLLOWING}"
    now = before
    for out, into in zip(old, new, strict=True):
        now = now.replace(out, into)
    read, _ = read_text(before, "news", "fr", "news.fr.md")
    assert read is not None
    mark = follows_line(read).split(" ")[0]

    assert (mark, f"the original has changed since: {what}") in followed(now)


def test_a_translation_that_nobody_has_marked() -> None:
    """It is told what to run once it is right, and nothing else where it says the same."""
    expected = ("Follows", "nobody has marked what it follows; once it is right, run bulletin follow news")

    assert [expected] == followed(f"Title: News{FOLLOWING}", mark=False)


def test_reasons_of_what_differs() -> None:
    """What only the translation says is told as that, other readers as other readers."""
    text = '{{ defects["D-12"].affected }}\n\n[mehr]{boxed.week > boxed.last_week}: {{ boxed.week }}, {{ boxed.total }}.'

    assert [("boxed.total", "boxed.total stands here and not there")] == [
        (words, what.removeprefix("{{ ").replace(" }}", "")) for words, what in differing(text)
    ]
    assert ("As-of and Readers", "they are of another day or for other readers") in differing(text, header="Readers: all")
