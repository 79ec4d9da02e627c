"""Private details in a text, and what looks like one and is none."""

from __future__ import annotations

import pytest

from bulletin.draft.language import read_language
from bulletin.model import Private
from bulletin.scrutiny.privacy import addresses_in, details_in, mask
from tests.rules.builders import PRIVATE, found

TEXTS = {
    "an order": ("F-1001 is on its way", ["F-1001"]),
    "in small letters": ("f-1001 is on its way", ["f-1001"]),
    "within a longer code": ("F-10012 and AF-1001 are none", []),
    "at the end of a sentence": ("It was F-1001.", ["F-1001"]),
    "a serial": ("H8-101, again", ["H8-101"]),
    "digits alone": ("we boxed 1001 looms", []),
    "digits behind a label": ("order 1001 and order no. 1001", ["1001", "1001"]),
    "digits behind a sign": ("#1001 left", ["1001"]),
    "many digits": ("20317 left", ["20317"]),
    "a full name": ("Thank you, Edda Kirschlauer!", ["Edda Kirschlauer"]),
    "the family's name first": ("KIRSCHLAUER, Edda wrote", ["KIRSCHLAUER, Edda"]),
    "a first name alone": ("Thank you, Edda!", []),
    "two sentences": ("That was Edda. Kirschlauer is a place.", []),
}


@pytest.mark.parametrize(("text", "expected"), TEXTS.values(), ids=TEXTS)
def test_what_the_tables_know(text: str, expected: list[str]) -> None:
    """Orders, serials and people are found by their whole words; digits alone where a word or their length says what they are."""
    details = sorted(details_in(text, PRIVATE, read_language("en")), key=lambda detail: detail.start)

    assert expected == [text[detail.start : detail.end] for detail in details]


def test_a_language_without_spaces() -> None:
    """A number is found though letters of another script stand right beside it."""
    text = "注文F-1001は発送済みです"

    assert ["F-1001"] == [text[detail.start : detail.end] for detail in details_in(text, PRIVATE, None)]


ADDRESSES = {
    "an address": ("mail jane.doe@post.example now", ["jane.doe@post.example"]),
    "international": ("+43 660 1234567", ["+43 660 1234567"]),
    "with two zeros": ("0043 1 5551234", ["0043 1 5551234"]),
    "of a country": ("0664/1234567 and 020 7946 0958", ["0664/1234567", "020 7946 0958"]),
    "American": ("(555) 010-4477 or 555-010-4477", ["(555) 010-4477", "555-010-4477"]),
    "dates": ("04/17/2026, 03-27-2026, 2026-03-27, 27.03.2026", []),
    "amounts and codes": ("0.75, 1,304, EN 60335-1, 10-12, 08:30, ISO 24495-1:2023", []),
}


@pytest.mark.parametrize(("text", "expected"), ADDRESSES.values(), ids=ADDRESSES)
def test_addresses_by_their_shape(text: str, expected: list[str]) -> None:
    """E-mail addresses and telephone numbers look like themselves; dates and amounts do not."""
    assert expected == [text[detail.start : detail.end] for detail in addresses_in(text)]


def details(text: str, private: Private = PRIVATE) -> list[str]:
    return [words for rule, words in found(text, private=private) if rule == "private-detail"]


FREE = {
    "the contact": "Write to help@fennmoor.example.",
    "its domain": "Write to ines@fennmoor.example.",
    "a role": "Write to recall@authority.example.",
    "our number": "Call us on +43 1 5551234.",
}


@pytest.mark.parametrize("text", FREE.values(), ids=FREE)
def test_what_may_stand(text: str) -> None:
    """The maker's own addresses and those of no person may be read by everybody."""
    assert [] == details(text)


def test_a_role_of_a_customer_is_hers() -> None:
    """An address that the contacts know is private whatever it is called."""
    assert ["h…"] == details("Write to hello@post.example.", Private(emails=frozenset({"hello@post.example"})))


def test_markup_hides_nothing() -> None:
    """What emphasis cuts into pieces is found as a reader sees it; texts of pictures and targets of links too."""
    assert ["F…"] == details("F-**1001** left.")
    assert ["F…"] == details("![F-1001 in its box](box.png)")
    assert ["F…"] == details("See [it](https://fennmoor.example/F-1001).")
    assert ["F…"] == details("Title: F-1001\n\nHello.")


def test_a_range_stands_in_a_notice_alone() -> None:
    """A range of serials is part of a notice; elsewhere, and without its other end, a serial is private."""
    notice = (
        'Stop: [it can snap and cut]{defects["D-20"].state == "open"}, at least {{ defects["D-20"].affected }}; '
        "we replace it: help@fennmoor.example"
    )

    assert [] == details(f"{notice} H8-101 to H8-180.")
    assert ["H…", "H…"] == details("H8-101 to H8-180.")
    assert ["H…"] == details(f"{notice} H8-101.")


def test_a_mask_tells_no_more_than_the_beginning() -> None:
    """Messages must not spread what they find."""
    assert "e\u2026" == mask("edda@post.example")
