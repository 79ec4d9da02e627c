"""Private details: which addresses and numbers are nobody's, and which serials of a notice stand for a range."""

from __future__ import annotations

from typing import Any

import pytest

from bulletin.settings import Settings
from tests.rules.builders import judged

MAKER = Settings.model_validate(
    {"maker": {"name": "Fennmoor Looms", "contact": "help@fennmoor.example", "time_zone": "Europe/Vienna",
               "names": ["Ines@Holm.example"]}}
)  # fmt: skip


def details(text: str, **options: Any) -> list[tuple[str, str]]:
    """Words and kind of the private details that are found."""
    found = judged(text, settings=MAKER, **options).findings
    return [(finding.words, finding.details["kind"]) for finding in found if finding.rule == "private-detail"]


ADDRESSES = {
    "the contact": ("Write to help@fennmoor.example.", []),
    "the contact in capitals": ("Write to HELP@FENNMOOR.EXAMPLE.", []),
    "the contact's domain": ("Write to anna@fennmoor.example.", []),
    "a name of the settings": ("Write to ines@holm.example.", []),
    "a role": ("Write to info@other.example.", []),
    "a role and a place": ("Write to info.vienna@other.example.", []),
    "a role and a shift": ("Write to service-night@other.example.", []),
    "a person": ("Write to anna@other.example.", [("a…", "e-mail")]),
    "a person and a role": ("Write to anna.info@other.example.", [("a…", "e-mail")]),
    "a customer": ("Write to edda@post.example.", [("e…", "e-mail")]),
    "our own number": ("Call us on +43 660 1234567.", []),
    "somebody's number": ("Ring her: +43 660 1234567.", [("+…", "telephone")]),
    "one order's credit": ('{{ credits.so_far["F-1001"] }}', [("credits.so_far", "fact of one order")]),
    "a family's facts": ("{{ credits.orders }} orders have credit.", []),
}


@pytest.mark.parametrize(("text", "expected"), ADDRESSES.values(), ids=ADDRESSES)
def test_whose_address_it_is(text: str, expected: list[tuple[str, str]]) -> None:
    """The maker's own, and those of roles, are nobody's secret; what is a customer's is found whatever it looks like."""
    assert expected == details(text)


NOTICE = (
    'Stop weaving on {}: [the spring can snap]{{defects["D-20"].state == "open"}} and cut a hand. At least '
    '{{{{ defects["D-20"].affected }}}} so far; we replace it. Write to help@fennmoor.example.'
)
JOINED = (
    "H8-101 to H8-180", "H8-101-H8-180", "H8-101 \u2013 H8-180", "H8-101 ... H8-180", "H8-101 \u2026 H8-180", "H8-101~H8-180",
)  # fmt: skip
APART = ("H8-101, H8-180", "H8-101 or to H8-180", "H8-101 .. H8-180")


@pytest.mark.parametrize("serials", JOINED)
def test_a_range_of_serials_may_stand_in_a_notice(serials: str) -> None:
    """A word or a dash between two serials makes a range of them."""
    assert [] == details(NOTICE.format(serials))


@pytest.mark.parametrize("serials", APART)
def test_single_serials_may_not(serials: str) -> None:
    """Two serials without a range between them are two customers' units."""
    assert [("H…", "serial")] * 2 == details(NOTICE.format(serials))


def test_a_serial_beside_a_range_is_found() -> None:
    """A range lets through what stands in it and nothing before or behind it."""
    assert [("H…", "serial")] == details(NOTICE.format("H12-7, and H8-101 to H8-180"))
    assert [("H…", "serial")] == details(NOTICE.format("H8-101 to H8-180, and H12-7"))


def test_a_range_outside_a_notice_is_found() -> None:
    """Elsewhere both of its ends are somebody's units."""
    assert [("H…", "serial")] * 2 == details("The looms H8-101 to H8-180 are new.")


def test_a_language_without_words_joins_by_dashes() -> None:
    """Where no list says which word makes a range, a dash still does."""
    notice = '{{{{ defects["D-20"].affected }}}} {}.'

    assert [] == details(notice.format("H8-101 – H8-180"), locale="pl")
    assert [("H…", "serial")] * 2 == details(notice.format("H8-101 to H8-180"), locale="pl")
