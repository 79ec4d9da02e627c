"""What no public text may hold, read off the tables."""

from __future__ import annotations

from bulletin.facts.private import private_of
from tests.facts.builders import boxed, day_of, order


def test_the_tables_know_what_is_private() -> None:
    """Orders and serials as they are written, people and addresses in lower case; an empty cell is nobody's."""
    contacts = [
        {"order": "A-1", "name": "Edda Kirschlauer", "email": "Edda@Post.example", "bulletins": "yes"},
        {"order": "A-2", "name": "", "email": "", "bulletins": "no"},
    ]
    day = day_of("2026-03-27", orders=[order("A-1"), order("A-2")], boxing=[boxed("H8-1", "2026-03-26")], contacts=contacts)
    private = private_of(day.tables)

    assert [True, False] == ["A-1" in private.orders, "A-3" in private.orders]
    assert [True, False] == ["H8-1" in private.serials, "h8-1" in private.serials]
    assert [True, False] == ["edda kirschlauer" in private.people, "" in private.people]
    assert [True, False] == ["edda@post.example" in private.emails, "" in private.emails]


def test_a_missing_table_knows_nobody() -> None:
    """Without contacts no name and no address is private."""
    private = private_of(day_of("2026-03-27", orders=[order("A-1")]).tables)

    assert "edda kirschlauer" not in private.people
