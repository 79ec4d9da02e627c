"""The book: how paths lead to facts, what is said where they do not, what may be counted."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from bulletin.draft.expressions import parse_key
from bulletin.facts.book import Book, facts_of
from bulletin.facts.counting.movements import Movements
from bulletin.facts.families import FAMILIES
from bulletin.facts.scopes.day import Day
from bulletin.facts.scopes.family import FactMethod, Scope, door
from bulletin.model import Absent, Fact, Step
from tests.facts.builders import boxed, day_of, find, order, why

FRIDAY = "2026-03-27"


def defect(number: str, title: str = "Loose pawl") -> dict[str, str]:
    return {"defect": number, "title": title, "severity": "function", "opened": "2026-03-02", "state": "open"}


@pytest.fixture
def day() -> Day:
    return day_of(
        FRIDAY,
        orders=[
            order("A-1", batch="2026/03"),
            order("A-2", model="Wren 4.1", batch="waiting"),
            order("A-3", model='Weber "W" 5'),
        ],
        boxing=[boxed("H-1", "2026-03-24"), boxed("W-1", "2026-03-25", model="Küfer")],
        defects=[defect("D-12"), defect("open")],
        affected=[{"defect": "D-12", "serial": "H-1"}],
    )


def told(found: Fact | Absent) -> tuple[str, str]:
    return found.key, found.spelling


@pytest.mark.parametrize(
    ("key", "spelling"),
    [
        ("boxed.week", "boxed.week"),
        ("boxed.of.Heron 8.week", 'boxed.of("Heron 8").week'),
        ("boxed.of.Küfer.week", 'boxed.of("Küfer").week'),
        ('boxed.of["Wren 4.1"].week', 'boxed.of("Wren 4.1").week'),
        ("boxed.of['Weber \"W\" 5'].week", "boxed.of('Weber \"W\" 5').week"),
        ('orders.batch["2026/03"].waiting', 'orders.batch["2026/03"].waiting'),
        ('orders.batch["waiting"].waiting', 'orders.batch["waiting"].waiting'),
        ("defects.D-12.affected", 'defects["D-12"].affected'),
        ("defects.D-12.title", 'defects["D-12"].title'),
        ('defects["open"].state', 'defects["open"].state'),
        ("boxed.on.2026-03-24", 'boxed.on("2026-03-24")'),
        ("boxed.between.2026-03-01.2026-03-24", 'boxed.between("2026-03-01", "2026-03-24")'),
    ],
)
def test_a_fact_has_a_key_and_a_spelling(day: Day, key: str, spelling: str) -> None:
    """Brackets stand in a key where a part holds other signs than letters, digits, space, - and _, or is a fact's name."""
    actual = told(find(day, key))

    assert (key, spelling) == actual


@pytest.mark.parametrize("key", ['boxed.of["Heron 8"].week', "boxed.of['Heron 8'].week", "boxed.of.[Heron 8].week"])
def test_needless_brackets_are_understood(day: Day, key: str) -> None:
    """Whoever quotes more than needed finds the same fact."""
    actual = find(day, key).key

    assert "boxed.of.Heron 8.week" == actual


def test_a_draft_and_the_command_line_find_the_same_fact(day: Day) -> None:
    """Steps of calls and steps that do not say what they are lead to the same place."""
    book = facts_of(day)
    call = (Step("name", "boxed"), Step("name", "of"), Step("call", "Heron 8"), Step("name", "week"))

    actual = book.find(call)

    assert told(book.find(parse_key("boxed.of.Heron 8.week"))) == told(actual)


@pytest.mark.parametrize(
    "path",
    [
        (Step("name", "defects"), Step("item", "open")),
        (Step("name", "defects"), Step("item", "affected")),
        (Step("name", "boxed"), Step("item", "week")),
        (Step("name", "defects"), Step("item", "tables"), Step("name", "state")),
        (Step("name", "defects"), Step("item", "D-12"), Step("item", "affected")),
        (Step("name", "boxed"), Step("name", "units")),
        (Step("name", "boxed"), Step("name", "newest")),
        (Step("name", "boxed"), Step("name", "itself")),
        (Step("name", "boxed"), Step("call", "Heron 8"), Step("name", "week")),
        (Step("name", "boxed"), Step("name", "week"), Step("name", "total")),
        (Step("name", "boxed"), Step("name", "on")),
        (Step("name", "boxed"),),
        (Step("item", "boxed"), Step("name", "week")),
        (),
    ],
)
def test_items_never_fall_back_to_attributes(day: Day, path: tuple[Step, ...]) -> None:
    """Neither a fact nor a part of the program is reached by another way than its own."""
    actual = facts_of(day).find(path)

    assert isinstance(actual, Absent)
    assert not actual.known


@pytest.mark.parametrize(
    ("key", "reason"),
    [
        ("boxed.weak", "there is no fact of this name"),
        ("boxes.week", "there is no family of facts named boxes"),
        ("boxed.of.Heron 9.week", "there is no such item"),
        ("coverage.buildable", "needs structure.csv and stock.csv, which the data folder lacks"),
        ("orders.retold", "needs told.csv, which the data folder lacks"),
        ("orders.in_market.AT.retold", "needs told.csv, which the data folder lacks"),
        ("credits.balance", "needs credits.csv, which the data folder lacks"),
        ("last.boxed.week", "no bulletin of an earlier day is on record"),
    ],
)
def test_what_is_absent_has_a_reason(day: Day, key: str, reason: str) -> None:
    """An unknown name, an unknown item, a missing table."""
    actual = why(day, key)

    assert reason == actual


def test_a_missing_table_does_not_make_a_name_unknown(day: Day) -> None:
    """The fact exists, its table does not: a draft that asks for it is told so."""
    actual = [find(day, key) for key in ("orders.retold", "boxed.weak")]

    assert [True, False] == [isinstance(found, Absent) and found.known for found in actual]


def test_the_last_bulletin_has_its_own_values(day: Day) -> None:
    """`last.` reads what was recorded, under the name it was asked for."""
    before = facts_of(day).find(parse_key("boxed.week"))
    assert isinstance(before, Fact)
    later = Book(Day(day.as_of, day.tables, day.settings, {before.key: before}))

    found = later.find(parse_key("last.boxed.week"))

    assert isinstance(found, Fact)
    assert ("last.boxed.week", "last.boxed.week", before.value) == (*told(found), found.value)
    absent = later.find(parse_key("last.boxed.total"))
    assert isinstance(absent, Absent)
    assert ("the last recorded bulletin does not hold it", True) == (absent.why, absent.known)


def test_a_fact_is_computed_once(day: Day) -> None:
    """Whoever asks again gets what was found."""
    book = facts_of(day)

    first, second = (book.find(parse_key("boxed.week")) for _ in range(2))

    assert first is second


def test_countable_are_facts_without_free_arguments_and_not_of_single_orders(day: Day) -> None:
    """Items and models are listed, days and orders are not; each path leads to a fact, or to one that says why it is absent."""
    book = facts_of(day)
    found = [book.find(path) for path in book.countable()]

    keys = [one.key for one in found]

    assert sorted(keys) == keys
    assert len(set(keys)) == len(keys)
    assert {"boxed.of.Heron 8.week", "orders.in_market.AT.waiting", "defects.D-12.title", "defects.D-12.affected"} <= set(keys)
    assert not [key for key in keys if key.startswith(("boxed.on", "boxed.between", "credits.next", "credits.so_far"))]
    assert not [one.key for one in found if isinstance(one, Absent) and not one.known]


def test_countable_names_can_be_asked_for_by_key(day: Day) -> None:
    """Every key that is shown leads back to its fact on the command line."""
    book = facts_of(day)
    found = [book.find(path) for path in book.countable()]

    actual = [told(book.find(parse_key(one.key))) for one in found]

    assert [told(one) for one in found] == actual


@pytest.mark.parametrize("key", ["boxed", "boxed.of.Heron 8", 'orders.batch["2026/03"]', "defects", "defects.D-12", "boxed.wee"])
def test_what_stands_below_a_family_or_an_item(day: Day, key: str) -> None:
    """The countable facts whose key begins with it, in the order of all keys; none below what is no family and no item."""
    expected = [known for known in facts_of(day).keyed() if known.startswith((f"{key}.", f"{key}["))]
    book = facts_of(day)
    actual = [book.find(path).key for path in book.below(key)]

    assert expected == actual


def test_below_a_family_no_other_is_opened(day: Day) -> None:
    """Opening the forecasts would draw futures, which nobody asked for."""

    class Closed(Scope):
        """A family whose items can't be listed."""

        @door("item", choices="ids", name="")
        def item(self, number: str) -> Scope | None:
            """One of them."""
            return None

        def ids(self) -> tuple[str, ...]:
            """Whoever comes here opened it."""
            raise AssertionError

    book = facts_of(day, {"closed": Closed, "defects": FAMILIES["defects"]})

    assert book.below("defects.D-12")
    with pytest.raises(AssertionError):
        book.below("closed")


def test_below_the_last_bulletin_stand_its_own_facts(day: Day) -> None:
    """`last`, a family of it, and an item of that."""
    found = find(day, "defects.D-12.affected")
    assert isinstance(found, Fact)
    book = facts_of(replace(day, last={found.key: found}))
    keys = ["last", "last.defects", "last.defects.D-12", "last.boxed"]

    actual = [[book.find(path).key for path in book.below(key)] for key in keys]

    assert [["last.defects.D-12.affected"]] * 3 + [[]] == actual


def test_the_newest_row_of_a_family_is_known(day: Day) -> None:
    """By scans for boxed and orders; of a family without its table, or without days, none."""
    book = facts_of(day)

    actual = [book.newest(family) for family in ("boxed", "orders", "coverage", "credits", "nothing")]

    assert [date(2026, 3, 25), date(2026, 3, 25), None, None, None] == actual


def test_every_fact_has_a_sentence_and_a_unit(day: Day) -> None:
    """A fact without an explanation, or without saying what it counts, is none."""
    facts = [found for path in facts_of(day).countable() for found in [facts_of(day).find(path)] if isinstance(found, Fact)]

    lacking = [found.key for found in facts if not found.unit or not found.how.endswith(".") or len(found.how) < 20]

    assert [] == lacking


def test_facts_made_alike_stand_under_their_own_names() -> None:
    """A fact that is written as `week = ...` is `week` in keys too."""
    kinds = [*FAMILIES.values(), Movements]

    actual = {name: member.name for kind in kinds for name, member in vars(kind).items() if isinstance(member, FactMethod)}

    assert {name: name for name in actual} == actual
