"""Figures with their values beside them, and the last check."""

from __future__ import annotations

from bulletin.documents.marks import Bare, bare_figures, data, mark_words, moment
from bulletin.documents.reader import Reader
from tests.documents.builders import AS_OF, NAMES

ENGLISH = Reader("en", AS_OF, NAMES)


def test_planted_figure_is_found() -> None:
    """A figure outside the marks is found, with the words around it."""
    actual = bare_figures("<p>We boxed 87 looms and <data value='41'>41</data> more.</p>", NAMES)

    assert [Bare("87", "We boxed 87 looms and")] == actual


def test_figure_behind_an_entity_is_found() -> None:
    """A figure does not hide behind a character reference."""
    actual = bare_figures("<p>&#56;7 looms</p>", NAMES)

    assert ["87"] == [bare.figure for bare in actual]


def test_figure_in_other_digits_is_found() -> None:
    """Full-width and Arabic digits are digits."""
    actual = bare_figures("<p>４１ and ٤١</p>", NAMES)

    assert ["４１", "٤١"] == [bare.figure for bare in actual]


def test_marked_figures_are_not_bare() -> None:
    """Text within data and time is marked, however deep."""
    actual = bare_figures("<p><data value='1'><b>1</b></data> <time datetime='2026'>2026</time></p>", NAMES)

    assert [] == actual


def test_known_names_are_not_bare() -> None:
    """A product's name with digits is a name, but not a part of a longer word."""
    actual = bare_figures("<p>Heron 8, Heron 80, HHeron 8</p>", NAMES)

    assert ["80", "8"] == [bare.figure for bare in actual]


def test_head_and_drawing_are_not_looked_at() -> None:
    """The head is not shown, and figures of a drawing stand again in its table."""
    page = "<head><title>Week 13</title><style>p{margin:0 1px}</style></head><svg><text>41</text></svg><p>none</p>"

    assert [] == bare_figures(page, NAMES)


def test_words_that_no_reading_knows_are_marked_as_themselves() -> None:
    """A word with digits that is no quantity carries itself."""
    actual = mark_words("a 3D print", ENGLISH)

    assert 'a <data value="3D">3D</data> print' == actual


def test_marks_escape_what_they_hold() -> None:
    """Nothing shown or held by a mark becomes HTML."""
    actual = data("<1>", '"2"') + moment("&", "2026")

    assert '<data value="&#34;2&#34;">&lt;1&gt;</data><time datetime="2026">&amp;</time>' == actual
