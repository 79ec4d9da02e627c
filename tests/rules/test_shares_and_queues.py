"""True figures that mislead: a share beside a shortage, a queue that people left, a result without its number, kits as cures."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from bulletin.model import Value
from tests.rules.builders import VALUES, MadeFacts, facts, found

SHARE = 'Of the part lines of the Heron 8 {{ coverage.of("Heron 8").parts_in_house }} are here.'
BUILDABLE = 'They make {{ coverage.of("Heron 8").buildable }} looms.'


def by(rule: str, text: str, **values: Value) -> list[str]:
    """The words that a rule finds, with some facts of other values; `__` stands for a dot."""
    changed = {name.replace("__", "."): (value, "order") for name, value in values.items()}
    made = replace(facts(), values={**VALUES, **changed})
    return [words for name, words in found(text, made=made) if name == rule]


def short(text: str, **values: Value) -> list[str]:
    return by("share-hides-shortage", text, **values)


def test_a_share_stands_beside_what_can_be_built() -> None:
    """In the same paragraph or the next one, but not further away."""
    assert ['coverage.of("Heron 8").parts_in_house'] == short(SHARE)
    assert [] == short(f"{SHARE} {BUILDABLE}")
    assert [] == short(f"{SHARE}\n\n{BUILDABLE}")
    assert ['coverage.of("Heron 8").parts_in_house'] == short(f"{SHARE}\n\nTea.\n\n{BUILDABLE}")


def test_a_share_hides_nothing_where_the_week_is_covered() -> None:
    """As much as the plan of the next week takes is enough."""
    made = {**VALUES, 'coverage.of("Heron 8").buildable': (49, "unit")}

    assert [] == [rule for rule, _ in found(SHARE, made=replace(facts(), values=made)) if rule == "share-hides-shortage"]


RATES = {
    "less than five days make": (Fraction(61, 10), 1),
    "as much as five days make": (Fraction(6), 0),
    "nobody knows the rate": (None, 1),
}


@pytest.mark.parametrize(("rate", "expected"), RATES.values(), ids=RATES)
def test_without_a_plan_five_days_at_the_usual_rate_count(rate: Fraction | None, expected: int) -> None:
    """30 looms that can be built are short of a rate above 6 a working day, or where neither plan nor rate is known."""
    values = {name: value for name, value in VALUES.items() if not name.startswith("plan.")}
    values |= {} if rate is None else {'boxed.of("Heron 8").rate': (rate, "unit a working day")}

    assert expected == [rule for rule, _ in found(SHARE, made=MadeFacts(values))].count("share-hides-shortage")


def test_only_a_share_of_parts_is_held_against_what_can_be_built() -> None:
    """What can be built, and a share of another family, stand alone."""
    made = MadeFacts({**VALUES, "outlook.parts_in_house": (Fraction(37, 40), "share"), "outlook.buildable": (3, "unit")})
    text = f"{BUILDABLE} Of the lines {{{{ outlook.parts_in_house }}}} are here."

    assert [] == [rule for rule, _ in found(text, made=made) if rule == "share-hides-shortage"]


FELL = "The queue is shorter now."
QUEUES = {
    "by cancelling": ({"last__orders__waiting": 330, "last__orders__cancelled": 10}, 1),
    "by exactly those who cancelled": ({"last__orders__waiting": 333, "last__orders__cancelled": 10}, 1),
    "by boxing too": ({"last__orders__waiting": 334, "last__orders__cancelled": 10}, 0),
    "it did not fall": ({"last__orders__waiting": 316, "last__orders__cancelled": 10}, 0),
}


@pytest.mark.parametrize(("values", "expected"), QUEUES.values(), ids=QUEUES)
def test_when_a_queue_fell_by_cancelling(values: dict[str, Value], expected: int) -> None:
    """It did where it would not be shorter without those who cancelled since the last bulletin."""
    assert expected == len(by("queue-fell-by-cancelling", FELL, **values))


def test_without_a_record_the_week_counts() -> None:
    """Where no bulletin is on record, what came, left and was cancelled this week says why the queue fell."""
    known = {name: value for name, value in VALUES.items() if not name.startswith("last.")}

    def finds(placed: int, boxed: int, gone: int) -> int:
        week = {"orders.placed_week": placed, "boxed.week": boxed, "orders.gone_week": gone}
        made = replace(facts(), values={**known, **{name: (value, "order") for name, value in week.items()}})
        return sum(rule == "queue-fell-by-cancelling" for rule, _ in found(FELL, made=made))

    assert [1, 0, 0] == [finds(50, 50, 1), finds(50, 51, 1), finds(50, 40, 10)]


@pytest.mark.parametrize("told", ["{{ orders.gone_week }} cancelled.", "[17 cancelled]{orders.gone_week}."])
def test_cancellations_told_beside_it_end_it(told: str) -> None:
    """Who tells how many gave up hides nothing; a word about it alone does not do."""
    assert [] == by("queue-fell-by-cancelling", f"{FELL} {told}")
    assert ["queue is shorter"] == by("queue-fell-by-cancelling", f"{FELL} Some cancelled.")


def test_a_result_needs_its_number_in_the_same_paragraph() -> None:
    """The number of another inspection, or of another paragraph, does not do."""
    result = 'In the sample {{ inspections["I-5"].failed }} failed.'

    assert ["I-5"] == by("sample-size-missing", result)
    assert ["I-5"] == by("sample-size-missing", result + '\n\nThere were {{ inspections["I-5"].checked }} beams.')
    assert [] == by("sample-size-missing", result + ' There were {{ inspections["I-5"].checked }} beams.')


BETTER = '[The new beams are better]{inspections["I-5"].better_than("I-6")}'
RESULTS: dict[str, tuple[Value, str]] = {
    'inspections["I-5"].better_than("I-6")': (True, "yes/no"),
    'inspections["I-5"].share': (Fraction(0), "share"),
    'inspections["I-6"].checked': (30, "unit"),
    'inspections["I-5"].part': ("P-104", "text"),
    "inspections.open": (2, "inspection"),
    "parts.wear.share": (Fraction(1, 4), "share"),
}
COMPARED = {
    "two inspections": (f"{BETTER}.", ["I-5", "I-6"]),
    "with the number of one": (f'{BETTER}: of {{{{ inspections["I-5"].checked }}}}.', ["I-6"]),
    "with the numbers of both": (
        f'{BETTER}: of {{{{ inspections["I-5"].checked }}}} and {{{{ inspections["I-6"].checked }}}}.', [],
    ),
    "a share": ('{{ inspections["I-5"].share }} failed.', ["I-5"]),
    "what was inspected": ('It was part {{ inspections["I-5"].part }}.', []),
    "all inspections": ("{{ inspections.open }} inspections are open.", []),
    "a share of another family": ("{{ parts.wear.share }} of them wore.", []),
}  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), COMPARED.values(), ids=COMPARED)
def test_whose_number_a_result_needs(text: str, expected: list[str]) -> None:
    """That of its inspection, of both where two are compared; what is no result of an inspection needs none."""
    made = MadeFacts({**VALUES, **RESULTS})

    assert expected == [words for rule, words in found(text, made=made) if rule == "sample-size-missing"]


KITS = {
    "kits": ('{{ defects["D-20"].kits }} looms are repaired.', 1),
    "affected": ('At least {{ defects["D-20"].affected }} looms are fixed.', 1),
    "remedied": ('{{ defects["D-20"].remedied }} looms are fixed.', 0),
    "not yet": ('At least {{ defects["D-20"].unremedied }} looms are not yet fixed.', 0),
    "kits on the shelf": ('{{ defects["D-20"].kits }} kits are on the shelf.', 0),
}


@pytest.mark.parametrize(("text", "expected"), KITS.values(), ids=KITS)
def test_what_is_no_count_of_remedied_units(text: str, expected: int) -> None:
    """Kits, addresses and affected units are not told as units put right."""
    assert expected == len({"repaired", "fixed"} & set(by("fact-beside-words", text)))


GROWING = {
    "printed": ('It is about {{ defects["D-14"].affected }} looms.', 1),
    "at least": ('At least {{ defects["D-14"].affected }} looms have it.', 0),
    "so far": ('So far {{ defects["D-14"].affected }} looms have it.', 0),
    "a figure": ('[60 looms]{defects["D-14"].affected} have it.', 1),
    "a lower bound": ('[More than 50 looms]{defects["D-14"].affected > 50} have it.', 0),
    "an upper bound": ('[Fewer than 100 looms]{defects["D-14"].affected < 100} have it.', 1),
    "an upper bound without a figure": ('[A handful of looms]{defects["D-14"].affected < 100} have it.', 1),
    "a lower bound without a figure": ('[A good many looms]{defects["D-14"].affected > 50} have it.', 0),
    "a complete count": ('{{ defects["D-12"].affected }} looms have it.', 0),
}


@pytest.mark.parametrize(("text", "expected"), GROWING.values(), ids=GROWING)
def test_a_count_that_may_grow_is_told_as_one(text: str, expected: int) -> None:
    """A count of a defect that is not traced completely has no upper end, unless the words say that it is of today."""
    assert expected == len(by("words-stronger-than-basis", text))
