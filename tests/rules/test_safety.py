"""Notices of safety defects: where calming words are found, and what a notice must hold, in every language with word lists."""

from __future__ import annotations

import tomllib
from importlib import resources

import pytest

from bulletin.draft.language import any_of
from bulletin.model import Concern
from tests.rules.builders import found

NOTICE = (
    'Stop using your loom: [the spring can snap]{defects["D-20"].state == "open"} and cut a hand. At least '
    '{{ defects["D-20"].affected }} looms have it so far; we replace it. Write to help@fennmoor.example.'
)
OPEN = Concern("safety defect", "D-20", "the safety defect D-20 is open", item_key="defects.D-20")


def calming(text: str, *concerns: Concern) -> list[str]:
    return [words for rule, words in found(text, concerns=concerns) if rule == "soft-safety-words"]


def missing(text: str) -> list[str]:
    return [words for rule, words in found(text) if rule == "safety-notice-incomplete"]


PLACES = {
    "in the same section": (f"{NOTICE}\n\nIt happens rarely.", ["rarely"]),
    "in another section": (f"{NOTICE}\n\n## Tea\n\nIt rains rarely.", []),
    "about safety in another section": (f"{NOTICE}\n\n## Tea\n\nAccidents are rare.", ["rare"]),
    "in a claim": (f'{NOTICE} [In rare cases]{{defects["D-20"].state == "open"}} it snaps.', ["In rare cases"]),
    "denied": (f"{NOTICE} This is not voluntary.", []),
    "in a notice to owners": ("Title: Notice\nReaders: owners D-20\n\n## Tea\n\nIt is a minor thing.", ["minor"]),
    "to the owners of another": ("Title: News\nReaders: owners D-12\n\nIt is a minor thing.", []),
    "without any safety defect": ("Accidents are rare.", []),
}


@pytest.mark.parametrize(("text", "expected"), PLACES.values(), ids=PLACES)
def test_where_calming_words_are_found(text: str, expected: list[str]) -> None:
    """They are found in what is said of a safety defect, and in sentences about safety while one is open."""
    assert expected == calming(text)


def test_an_open_defect_that_the_draft_keeps_quiet_about_counts() -> None:
    """While a safety defect is open, words about safety may not calm in any letter."""
    assert ["precautionary"] == calming("The recall is purely precautionary.", OPEN)
    assert [] == calming("We took a precautionary coat along.", OPEN)


LAW = (
    "voluntary", "precautionary", "discretionary", "in rare situations", "in specific situations", "no accidents were reported",
)  # fmt: skip
"""Regulation (EU) 2023/988 Art. 36(2), put together from several copies."""


@pytest.mark.parametrize("words", LAW)
def test_the_words_of_the_regulation(words: str) -> None:
    """Each wording that the regulation names is found."""
    assert calming(f"{NOTICE} It is a step taken {words}.")


TRANSLATED = {
    "de": ["freiwilliger Rückruf", "vorsorglich", "in seltenen Fällen", "keine Unfälle", "niemand wurde verletzt", "keine Sorge"],
    "fr": ["rappel volontaire", "par précaution", "dans de rares cas", "aucun accident", "personne n'a été blessé", "rare"],
    "es": ["retirada voluntaria", "por precaución", "en raras ocasiones", "ningún accidente", "nadie resultó herido", "leve"],
    "ja": ["自主的な回収です", "念のため交換します", "まれに外れます", "事故は報告されていません", "ご安心ください"],
}
"""Translations of our own."""


def classes(tag: str) -> dict[str, list[str]]:
    file = resources.files("bulletin.draft") / "languages" / tag / "candour.toml"
    data: dict[str, list[str]] = tomllib.loads(file.read_text(encoding="utf-8"))["classes"]
    return data


@pytest.mark.parametrize("tag", TRANSLATED)
def test_the_same_in_other_languages(tag: str) -> None:
    """Each translation of the regulation's words is found by its language's list."""
    pattern = any_of(classes(tag)["calming"], spaced=tag != "ja")

    assert [] == [words for words in TRANSLATED[tag] if not pattern.search(words)]


@pytest.mark.parametrize("tag", TRANSLATED)
def test_every_language_has_every_class(tag: str) -> None:
    """A language without one of the classes would let everything of that kind pass."""
    assert set(classes("en")) == set(classes(tag))


PARTS = {
    "all of it": (NOTICE, []),
    "no hazard": (NOTICE.replace(" and cut a hand", ""), ["D-20"]),
    "nothing to do now": (NOTICE.replace("Stop using your loom: ", ""), ["D-20"]),
    "no units": (NOTICE.replace('{{ defects["D-20"].affected }} looms have', "some have"), ["D-20"]),
    "the lot by its name": (NOTICE.replace('{{ defects["D-20"].affected }} looms', "those of lot L-2602"), []),
    "no remedy": (NOTICE.replace("we replace it", "we think of it"), ["D-20"]),
    "nobody to ask": (NOTICE.replace("help@fennmoor.example", "us"), ["D-20"]),
    "the contact behind a link": (NOTICE.replace("help@fennmoor.example", "[us](mailto:help@fennmoor.example)"), []),
    "the contact in another section": (NOTICE.replace("Write", "\n\n## Else\n\nWrite"), ["D-20"]),
}


@pytest.mark.parametrize(("text", "expected"), PARTS.values(), ids=PARTS)
def test_what_a_notice_must_hold(text: str, expected: list[str]) -> None:
    """Units, hazard, what to do, remedy and contact are all there, in the sections that speak of the defect."""
    assert expected == missing(text)


def test_a_letter_about_other_defects_is_no_notice() -> None:
    """What is no safety defect needs none of it."""
    assert [] == missing('At least {{ defects["D-12"].affected }} looms have it so far.')


NAMED = {("part", "P-104", "en", "one", ""): "Warp beam"}


def test_the_name_of_the_part_of_an_open_defect_is_about_safety() -> None:
    """What is said of that part may not calm, though no word of it is about safety; what is said of another may."""
    said = ("The warp beam rarely snaps.", "The pawl rarely snaps.")

    assert [["rarely"], []] == [
        [words for rule, words in found(text, concerns=(OPEN,), forms=NAMED) if rule == "soft-safety-words"] for text in said
    ]


def test_a_defect_without_a_part_makes_no_sentence_about_safety() -> None:
    """Where the tables name no part, or the part has no name, only words of safety count."""
    partless = Concern("safety defect", "D-12", "the safety defect D-12 is open", item_key="defects.D-12")

    assert [] == [rule for rule, _ in found("The warp beam rarely snaps.", concerns=(partless,), forms=NAMED) if "soft" in rule]
    assert [] == calming("The warp beam rarely snaps.", OPEN)


def test_each_sentence_is_held_against_its_own_words() -> None:
    """A calming word in the sentence behind one about safety is not found."""
    assert ["rare"] == calming("Accidents are rare. Rain is rare here.", OPEN)
