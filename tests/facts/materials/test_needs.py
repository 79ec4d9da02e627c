"""Needs down the structure and how far shelves reach, held against published and hand-made cases."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from bulletin.facts.materials.needs import Growth, Needs
from bulletin.facts.materials.structure import Structure

Uses = dict[str, dict[str, int | Fraction]]


def structure(uses: Uses) -> Structure:
    return Structure({parent: tuple((part, Fraction(one)) for part, one in parts.items()) for parent, parts in uses.items()})


def needs(uses: Uses, shelves: dict[str, int | Fraction] | None = None) -> Needs:
    return Needs(structure(uses), {part: Fraction(free) for part, free in (shelves or {}).items()})


def units_of(model: str) -> Growth:
    return Growth(lambda count: {model: count})


def test_a_shared_part_is_summed_over_its_parents() -> None:
    """Materials-planning exercise printed in several textbooks: A = 2 B + 4 C; B = 3 D + 2 E; C = 2 F + 2 E; 100 A."""
    expected = {"B": 200, "C": 400, "D": 600, "E": 1200, "F": 800}

    actual = needs({"A": {"B": 2, "C": 4}, "B": {"D": 3, "E": 2}, "C": {"F": 2, "E": 2}}).of({"A": 100}, "BCDEF")

    assert expected == actual


def test_a_part_of_two_levels_is_summed_over_both() -> None:
    """Heizer & Render, Operations Management, speaker-kit example (from memory; arithmetic recomputed): 50 A."""
    uses: Uses = {"A": {"B": 2, "C": 3}, "B": {"D": 2, "E": 2}, "C": {"E": 2, "F": 2}, "F": {"D": 2, "G": 1}}
    expected = {"B": 100, "C": 150, "D": 800, "E": 500, "F": 300, "G": 300}

    actual = needs(uses).of({"A": 50}, "BCDEFG")

    assert expected == actual


def test_the_scarcest_part_says_how_many_can_be_built() -> None:
    """Clear-to-build, common practice, no source: 930/1, 3500/8, 412/1, 900/2 cover 930, 437, 412 and 450: 412 can be built."""
    covering = needs({"M": {"a": 1, "b": 8, "c": 1, "d": 2}}, {"a": 930, "b": 3500, "c": 412, "d": 900})
    expected = [930, 437, 412, 450, 412]

    actual = [covering.reach(units_of("M"), parts) for parts in ("a", "b", "c", "d", "abcd")]

    assert expected == actual


def test_a_missing_part_lets_nothing_be_built() -> None:
    """One part that is not there makes it zero, however much there is of the others."""
    actual = needs({"M": {"a": 1, "b": 1}}, {"a": 1000}).reach(units_of("M"), "ab")

    assert 0 == actual


def test_a_made_shelf_is_taken_off_the_sum_of_needs_once() -> None:
    """A sub-assembly that two others share lends its shelf to the sum, not to each of them."""
    uses: Uses = {"M": {"left": 1, "right": 1}, "left": {"beam": 1}, "right": {"beam": 1}, "beam": {"wood": 3}}
    expected = {"beam": 20, "wood": 45}

    actual = needs(uses, {"beam": 5}).of({"M": 10}, ["beam", "wood"])

    assert expected == actual


def test_scrap_is_exact() -> None:
    """100 units that lose 3 % of a part need 10000/97 of it, and 10000/97 of it cover them exactly."""
    uses: Uses = {"M": {"a": 1 / (1 - Fraction("0.03"))}}
    expected = ({"a": Fraction(10000, 97)}, 100, 99)

    covered = [
        needs(uses, {"a": Fraction(stock)}).reach(units_of("M"), "a") for stock in (Fraction(10000, 97), Fraction(10309, 100))
    ]
    actual = (needs(uses).of({"M": 100}, "a"), *covered)

    assert expected == actual


def test_a_mix_is_split_in_exact_shares() -> None:
    """Two of three units take one part: 10 of it are enough for 15 units, the 16th would need two thirds of one more."""
    covering = needs({"M": {"a": 1}, "N": {"b": 1}}, {"a": 10, "b": 100})

    actual = covering.reach(Growth(lambda n: {"M": 2 * n, "N": n}, parts_of_unit=3), "ab")

    assert 15 == actual


def test_more_reserved_than_there_covers_nothing() -> None:
    """A shelf below zero covers no need, and is no need itself for a part that nobody needs."""
    covering = needs({"M": {"a": 1, "b": 1}}, {"a": -1, "b": 5, "spare": -7})

    actual = [covering.reach(Growth(lambda n: {"M": n}, 10), parts) for parts in (["a"], ["b"], ["spare"])]

    assert [0, 5, 10] == actual


def test_a_model_that_is_a_part_of_another_takes_only_that_use_from_its_shelf() -> None:
    """An order for the model itself is built, whatever stands on the shelf for the one that holds it."""
    covering = needs({"Set": {"Heron": 2}, "Heron": {"wood": 1}}, {"Heron": 3})

    actual = covering.of({"Set": 5, "Heron": 4}, ["Heron", "wood"])

    assert {"Heron": 10, "wood": 11} == actual


LEVELS = ("M", "A", "B", "C")


@st.composite
def makers(draw: st.DrawFn) -> tuple[Uses, dict[str, int | Fraction]]:
    """A structure of up to four levels with shared parts and scrap, and shelves."""
    quantities = st.builds(Fraction, st.integers(1, 4), st.integers(1, 3))
    uses: Uses = {}
    for at, parent in enumerate(LEVELS):
        below = (*LEVELS[at + 1 :], "x", "y", "z")
        uses[parent] = draw(st.dictionaries(st.sampled_from(below), quantities, min_size=1, max_size=4))
    shelves = draw(st.dictionaries(st.sampled_from((*LEVELS[1:], "x", "y", "z")), st.integers(0, 60)))
    return uses, dict(shelves)


def buildable(uses: Uses, shelves: dict[str, int | Fraction]) -> int:
    covering = needs(uses, shelves)
    bought = [part for part in covering.structure.below(["M"]) if not covering.structure.is_made(part)]
    return covering.reach(units_of("M"), bought)


def plain_needs(uses: Uses, shelves: dict[str, int | Fraction], units: int) -> dict[str, Fraction]:
    """The same in the plainest way: level by level from the top, each made part after everything that it goes into."""
    gross = dict.fromkeys(("A", "B", "C", "x", "y", "z"), Fraction(0))
    for parent in LEVELS:
        rest = Fraction(units) if parent == "M" else max(gross[parent] - shelves.get(parent, 0), Fraction(0))
        for part, one in uses[parent].items():
            gross[part] += rest * one
    return gross


@given(makers(), st.integers(0, 50))
def test_needs_are_those_of_a_plain_run_down(maker: tuple[Uses, dict[str, int | Fraction]], units: int) -> None:
    """Grains and topological order give what level by level computation gives."""
    uses, shelves = maker
    expected = {part: need for part, need in plain_needs(uses, shelves, units).items() if need}

    actual = {part: need for part, need in needs(uses, shelves).of({"M": units}, expected).items() if need}

    assert expected == actual


@given(makers())
def test_buildable_is_the_last_number_that_is_covered(maker: tuple[Uses, dict[str, int | Fraction]]) -> None:
    """The needs of so many units are on the shelves, those of one more are not."""
    uses, shelves = maker
    found = buildable(uses, shelves)

    covered = [
        all(plain_needs(uses, shelves, units)[part] <= shelves.get(part, 0) for part in "xyz") for units in (found, found + 1)
    ]

    assert [True, False] == covered


@given(makers(), st.sampled_from(("A", "B", "C", "x", "y", "z")), st.integers(1, 30))
def test_more_stock_never_lets_less_be_built(maker: tuple[Uses, dict[str, int | Fraction]], part: str, more: int) -> None:
    """Adding stock of any part never lowers what can be built."""
    uses, shelves = maker
    before = buildable(uses, shelves)

    after = buildable(uses, shelves | {part: shelves.get(part, 0) + more})

    assert before <= after


@given(makers())
def test_a_further_level_changes_nothing(maker: tuple[Uses, dict[str, int | Fraction]]) -> None:
    """A made part without a shelf between a parent and its components needs what they need."""
    uses, shelves = maker
    phantom = uses | {"M": {"phantom": 1}, "phantom": uses["M"]}
    expected = (buildable(uses, shelves), needs(uses, shelves).of({"M": 7}, "ABCxyz"))

    actual = (buildable(phantom, shelves), needs(phantom, shelves).of({"M": 7}, "ABCxyz"))

    assert expected == actual
