"""Lists as people write them."""

from __future__ import annotations

from bulletin.documents.spacing import join_lines, list_marks, part_lists


def test_list_below_a_line_gets_its_blank_line() -> None:
    """A list that follows a paragraph at once is parted from it, its own items are not."""
    assert "What we did:\n\n- cut\n- wind" == part_lists("What we did:\n- cut\n- wind")


def test_list_below_a_heading_or_within_a_list_is_left() -> None:
    """Nothing is added where a list begins by itself or goes on."""
    for text in ("# News\n- cut", "- cut\n  the warp\n- wind", "a\n\n1. cut"):
        assert text == part_lists(text)


def test_fenced_code_is_left() -> None:
    """Lines of code are no items."""
    text = "```\ntext\n- cut\n```"

    assert text == part_lists(text)


def test_quoted_list_is_parted_within_the_quote() -> None:
    """The blank line belongs to the quote."""
    assert "> so:\n>\n> - cut" == part_lists("> so:\n> - cut")


def test_numbers_in_order_are_list_marks() -> None:
    """One, and what follows it, are marks; a number out of order is a word."""
    text = "1. cut\n2. wind\n10. May was fine\n"

    assert [(0, 1), (7, 8)] == list_marks(text)


def test_japanese_lines_join_without_a_space() -> None:
    """A line break between wide characters is none for readers; headings and code keep theirs."""
    assert "織機を\n" + "```\n織\n機\n```" == join_lines("織機\nを\n```\n織\n機\n```")
    assert "# 今週\n織機" == join_lines("# 今週\n織機")
