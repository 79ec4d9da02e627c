"""Letters as plain text that reads well aloud."""

from __future__ import annotations

from bulletin.documents.plain import columns, plain_text, wrap


def test_lines_end_within_seventy_two_columns() -> None:
    """Words are folded at 72 columns."""
    actual = plain_text(f"<p>{'loom ' * 40}</p>").split("\n")

    assert 72 >= max(map(columns, actual))
    assert 3 == len(actual)


def test_an_address_stays_whole() -> None:
    """A word longer than a line is not cut."""
    address = "https://fennmoor.example/" + "a" * 80

    assert address in wrap(f"see {address} now").split("\n")


def test_japanese_breaks_between_characters_but_not_before_a_full_stop() -> None:
    """Wide characters count two columns; no line begins with a mark that may not (JIS X 4051)."""
    actual = wrap("織" * 5 + "。" + "機" * 3, 10).split("\n")

    assert ["織織織織", "織。機機機"] == actual


def test_no_break_spaces_hold() -> None:
    """A figure is not torn from its sign."""
    actual = wrap("aaaa 45\u00a0% of it", 8).split("\n")

    assert ["aaaa", "45\u00a0% of", "it"] == actual


def test_lists_keep_their_marks_and_hang() -> None:
    """Bullets become dashes, numbers stay numbers, long items hang below their words."""
    actual = plain_text("<ul><li>aa bb cc dd</li><li>ee</li></ul><ol start='3'><li>ff</li></ol>", 8)

    assert "- aa bb\n  cc dd\n- ee\n\n3. ff" == actual


def test_nested_lists_are_indented() -> None:
    """A list within an item stands below it, indented."""
    actual = plain_text("<ul><li>warp<ul><li>beam</li></ul></li></ul>")

    assert "- warp\n  - beam" == actual


def test_links_are_written_out() -> None:
    """The address stands behind the words, once."""
    link = '<a href="https://fennmoor.example/a">our shop</a>, <a href="mailto:help@fennmoor.example">help@fennmoor.example</a>'

    assert "our shop (https://fennmoor.example/a), help@fennmoor.example" == plain_text(f"<p>{link}</p>")


def test_tables_become_a_line_a_row() -> None:
    """Each row names what its cells are, as one would say it."""
    table = (
        "<table><thead><tr><th>Model</th><th>boxed</th><th>waiting</th></tr></thead>"
        "<tbody><tr><td>Heron 8</td><td>3</td><td>4</td></tr></tbody></table>"
    )

    assert "Heron 8: boxed 3, waiting 4" == plain_text(table)


def test_quotes_headings_breaks_and_pictures() -> None:
    """Quotes are marked, headings stand alone, a break is a break, a picture is its words."""
    actual = plain_text('<h2>News</h2><blockquote><p>so<br>good</p></blockquote><p><img alt="A loom" src="a.png"></p><hr>')

    assert "News\n\n> so\n> good\n\nA loom\n\n* * *" == actual
