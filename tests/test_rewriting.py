"""Changes to drafts that somebody asked for: marks of translations, and copies with offers in them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bulletin.draft.following import follows_line
from bulletin.draft.reading import read_draft
from bulletin.model import Place, Problem
from bulletin.rewriting import apply, follow, put, with_offers
from bulletin.workshop import Workshop, open_workshop
from tests.rules.builders import judged

ENGLISH = "Title: News\n\nWe boxed looms.\n"
FRENCH = "Title: Nouvelles\n\nDes métiers.\n"


@pytest.fixture
def shop(tmp_path: Path) -> Workshop:
    """A folder with a letter in three languages; the first locale is English."""
    (tmp_path / "bulletin.toml").write_text(
        '[maker]\nname = "Fennmoor Looms"\ntime_zone = "UTC"\nlocales = ["en", "fr", "ja"]\n', encoding="utf-8"
    )
    (tmp_path / "orders.csv").write_text("order,placed,model,market,locale,currency,amount,status\n", encoding="utf-8")
    (tmp_path / "boxing.csv").write_text("serial,model,event,at\n", encoding="utf-8")
    (tmp_path / "drafts").mkdir()
    for locale, text in {"en": ENGLISH, "fr": FRENCH, "ja": FRENCH}.items():
        (tmp_path / "drafts" / f"news.{locale}.md").write_text(text, encoding="utf-8")
    workshop, problems = open_workshop(tmp_path)
    assert workshop is not None, problems
    return workshop


def follows(shop: Workshop) -> list[str]:
    """What the French and the Japanese letter say they follow."""
    read = [read_draft(shop.folder / "drafts" / f"news.{locale}.md")[0] for locale in ("fr", "ja")]
    return [draft.header.follows if draft else "" for draft in read]


def wanted(shop: Workshop) -> str:
    original, _ = read_draft(shop.folder / "drafts" / "news.en.md")
    assert original is not None
    return follows_line(original)


def test_all_translations_are_marked(shop: Workshop) -> None:
    """Named without a locale, or by its original's path, every translation of a draft follows it."""
    by_name, problems = follow(shop, "news")

    assert (["news.fr.md", "news.ja.md"], []) == ([path.name for path in by_name], problems)
    assert [wanted(shop)] * 2 == follows(shop)
    assert ENGLISH == (shop.folder / "drafts" / "news.en.md").read_text(encoding="utf-8")

    by_path, _ = follow(shop, str(shop.folder / "drafts" / "news.en.md"))

    assert by_name == by_path


def test_one_file_is_marked_alone(shop: Workshop) -> None:
    """The path of a translation marks that one."""
    follow(shop, str(shop.folder / "drafts" / "news.fr.md"))

    assert [wanted(shop), ""] == follows(shop)


def test_nothing_to_follow(shop: Workshop) -> None:
    """A translation without an original and an original without translations are told as problems."""
    drafts = shop.folder / "drafts"
    (drafts / "alone.fr.md").write_text(FRENCH, encoding="utf-8")
    (drafts / "single.en.md").write_text(ENGLISH, encoding="utf-8")

    assert ["original-missing"] == [problem.rule for problem in follow(shop, "alone")[1]]
    assert ["translation-missing"] == [problem.rule for problem in follow(shop, "single")[1]]
    assert ["draft-missing"] == [problem.rule for problem in follow(shop, "nowhere")[1]]


def test_line_ends_and_marks_stay(tmp_path: Path) -> None:
    """A file keeps the line ends and the byte order mark that it had, and nothing else lies beside it."""
    file = tmp_path / "a.md"
    file.write_bytes(b"\xef\xbb\xbfold\r\n")

    assert [] == put(file, "new\nlines\n")
    assert b"\xef\xbb\xbfnew\r\nlines\r\n" == file.read_bytes()
    assert [file] == list(tmp_path.iterdir())


def test_a_place_that_is_not_there(tmp_path: Path) -> None:
    """What can't be written is a problem with its reason."""
    assert ["draft-unwritten"] == [problem.rule for problem in put(tmp_path / "no" / "a.md", "text")]


def test_sure_offers_are_applied_to_a_copy(tmp_path: Path) -> None:
    """Only offers that say so take the place of their words, in a file beside the draft; the difference is told."""
    text = "Title: News\n\nWe boxed 41 looms this week. It will be fine soon.\n"
    (tmp_path / "news.en.md").write_text(text, encoding="utf-8")
    verdict = judged(text)
    draft, _ = read_draft(tmp_path / "news.en.md")
    assert draft is not None
    copy, difference, problems = apply(replace(verdict, draft=draft))

    assert [] == problems
    assert text.replace("41", "{{ boxed.week }}") == copy.read_text(encoding="utf-8")
    assert text == (tmp_path / "news.en.md").read_text(encoding="utf-8")
    assert "-We boxed 41 looms" in difference
    assert "+We boxed {{ boxed.week }} looms" in difference
    assert copy.name == "news.applied.en.md"


def finding(column: int, words: str, offer: str, *, applies: bool = True) -> Problem:
    return Problem("any", "block", Place("news.en.md", 3, column), words, offer=offer, applies=applies)


def test_offers_that_overlap_or_stand_elsewhere_are_left() -> None:
    """Of two that overlap the first is applied; words that are not there, and offers that are not sure, change nothing."""
    draft = judged("one two three").draft
    sure = [finding(1, "one two", "1 2"), finding(5, "two", "2"), finding(9, "four", "4")]
    offers = [*sure, finding(9, "three", "3", applies=False)]

    assert "Title: News\n\n1 2 three" == with_offers(draft, offers)
