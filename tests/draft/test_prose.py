"""Prose as a reader sees it, with every character's offset in the source."""

from __future__ import annotations

import pytest

from bulletin.draft.prose import Block, prose_of
from bulletin.draft.reading import read_text


def blocks(body: str, title: str = "News") -> tuple[Block, ...]:
    """The blocks of a draft with this body."""
    draft, _ = read_text(f"Title: {title}\n\n{body}", "news", "en", "news.en.md")
    assert draft is not None
    return prose_of(draft)


def seen(body: str) -> list[tuple[str, str]]:
    """Kind and visible text of every block below the title."""
    return [(block.kind, block.text) for block in blocks(body)[1:]]


@pytest.mark.parametrize(
    ("source", "text"),
    [
        ("We boxed *8*7 looms", "We boxed 87 looms"),
        ("**eigh**_t_", "eight"),
        ("snake_case stays, 2 * 3 too", "snake_case stays, 2 * 3 too"),
        ("&#56;7 &amp; &frac12;", "87 & ½"),
        ("８７ ٨٧ 8​7 8­7 ⁸⁷ 𝟖𝟕 ⑧", "87 87 87 87 87 87 8"),
        (r"\*not emphasis\* and \[no link\]", "*not emphasis* and [no link]"),
        ("a [link](https://a.example/87) here", "a link here"),
        ("a <https://a.example> here", "a https://a.example here"),
        ("no <b>tags</b> and <!-- no comments -->.", "no tags and ."),
        ("two\nlines", "two lines"),
        ("> quoted\n> twice", "quoted twice"),
        ("a {# note #}word", "a word"),
        ("an open [bracket", "an open [bracket"),
    ],
)
def test_markup_is_seen_through(source: str, text: str) -> None:
    """Marks vanish, entities and compatibility signs become what they look like."""
    assert [("paragraph", text)] == seen(source)


def test_claims_keep_their_words_and_lose_their_condition() -> None:
    """The words of a claim are visible but not plain; a printed fact is one sign."""
    block = blocks("So [about {{ boxed.week }} looms]{boxed.week} left.")[1]

    assert block.text == "So about ￼ looms left."
    assert block.plain == "So ￼￼￼￼￼￼￼￼￼￼￼￼￼ left."


def test_blocks_are_told_apart() -> None:
    """Headings, items, cells, pictures and tips of links are prose of their own."""
    body = (
        "# 1. One\n\nUnder\n=====\n\n1. first\n2. second\n\n| a | b |\n|---|---|\n| c | d |\n\n![alt](x.png)\n\n"
        '[l](https://a.example "tip")\n\n[ref]: https://a.example "label tip"\n'
    )
    expected = [
        ("heading", "One"), ("heading", "Under"), ("item", "first"), ("item", "second"), ("cell", "a"), ("cell", "b"),
        ("cell", "c"), ("cell", "d"), ("paragraph", " "), ("picture", "alt"), ("paragraph", "l"), ("tip", "tip"),
        ("tip", "label tip"),
    ]  # fmt: skip

    assert expected == seen(body)


def test_a_number_out_of_order_is_a_word() -> None:
    """A list that begins with 87 shows the reader 87; steps in their order are free."""
    assert [("item", "87. looms")] == seen("87. looms")
    assert [("item", "a"), ("item", "b"), ("item", "9. c")] == seen("1. a\n2. b\n9. c")


def test_a_label_makes_a_link_of_brackets() -> None:
    """`8[7]` is read as 87 only where 7 is the label of a link."""
    assert seen("8[7] looms") == [("paragraph", "8[7] looms")]
    assert seen("8[7] looms\n\n[7]: https://a.example") == [("paragraph", "87 looms")]


def test_characters_know_where_they_came_from() -> None:
    """Every visible character has the offset of its source, whatever stood between."""
    draft, _ = read_text("Title: A *b*\n\nWe &#56;7 [x *y*]{boxed.week > 1} z", "news", "en", "news.en.md")
    assert draft is not None
    title, block = prose_of(draft)

    assert [draft.source[title.origin(at)] for at in range(len(title.text))] == ["A", " ", "b"]
    assert [draft.source[block.origin(at)] for at in range(len(block.text))] == list("We &7 x y z")


def test_many_open_brackets_cost_little() -> None:
    """Twenty thousand brackets are read in the time of as many letters, since pairs are found once."""
    assert len(blocks("[" * 20_000)[1].text) == 20_000
