"""Conditions held against facts: exact, and silent about nothing."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest

from bulletin.draft.evaluating import Outcome, evaluate
from bulletin.draft.expressions import spell
from bulletin.draft.parsing import parse
from bulletin.model import Absent, Basis, Fact, Money, Name, Path, Range, Value, Window

AS_OF = date(2026, 3, 27)
VALUES: dict[str, Value] = {
    "boxed.week": 41,
    "boxed.best_week": 39,
    "rate": Fraction(1, 3),
    "tenth": Decimal("0.1"),
    "zero": 0,
    "due": date(2026, 4, 1),
    "made": date(2026, 3, 1),
    "window": Window(date(2026, 4, 1), date(2026, 4, 9)),
    "range": Range(3, 5),
    "state": "open",
    "yes": True,
    "part": Name("part", "P-104", "warp beam"),
    "same_part": Name("part", "P-104", "Kettbaum"),
    "owed": Money((("EUR", Decimal("12.50")),)),
    "balance": Money((("EUR", Decimal("100.00")),)),
    "dollars": Money((("USD", Decimal("12.50")),)),
    "both": Money((("EUR", Decimal("1.00")), ("USD", Decimal("2.00")))),
    "list": ("a", "b"),
    "nothing_owed": Money(()),
}
BASES = {"rate": Basis.FORECAST, "due": Basis.COMMITMENT, "state": Basis.SAMPLE}


class NoRows:
    """A fact's rows where none matter."""

    def counts(self) -> dict[str, int]:
        return {}

    def lines(self) -> dict[str, list[int]]:
        return {}

    def cells(self) -> dict[str, list[dict[str, str]]]:
        return {}


def find(path: Path) -> Fact | Absent:
    """A small book of facts."""
    spelling = spell(path)
    if spelling not in VALUES:
        return Absent(spelling, spelling, "there is no fact of this name", known=False)
    basis = BASES.get(spelling, Basis.RECORD)
    return Fact(spelling, spelling, VALUES[spelling], "unit", basis, AS_OF, "As told.", NoRows())


def held(text: str) -> Outcome:
    """A condition without a fault, held against the small book."""
    expression, faults = parse(text)
    assert faults == []
    assert expression is not None
    return evaluate(expression, find)


@pytest.mark.parametrize(
    "text",
    [
        "boxed.week > boxed.best_week", "boxed.week >= 41", "boxed.week == 41", "boxed.week != 40", "not boxed.week < 41",
        "boxed.week > boxed.best_week and boxed.week > 40", "rate * 3 == 1", "tenth * 3 == 0.3", "boxed.week / 2 == 20.5",
        "boxed.week - 2 == boxed.best_week", "(boxed.week + 1) * 2 == 84", 'due == "2026-04-01"', "due > made",
        "due - made == 31", "made + 31 == due", 'state == "open"', 'state != "closed"', "yes", 'yes == "yes"', "not zero > 0",
        'part == "P-104"', 'part == "warp beam"', "part == same_part", 'part != "P-105"', "owed < balance", "owed > 12",
        "12.50 == owed", "owed * 2 == owed + owed", "balance / owed == 8", "owed / 3 * 3 == owed", "list == list",
        "window == window",
        "both == both", "boxed.week > -1",
    ],
)  # fmt: skip
def test_what_the_records_bear_out_holds(text: str) -> None:
    """Exact values compare exactly: numbers, dates, money of one currency, names by id or text, yes and no."""
    outcome = held(text)

    assert (True, ()) == (outcome.holds, outcome.faults)


@pytest.mark.parametrize(
    "text", ["boxed.week > 41", "rate == 0.3333", 'part == "P-105"', "not yes", "yes and zero > 1", "owed > 12.5"]
)
def test_what_they_contradict_does_not(text: str) -> None:
    """A false condition is false and not a fault."""
    outcome = held(text)

    assert (False, ()) == (outcome.holds, outcome.faults)


@pytest.mark.parametrize(
    "text",
    [
        "boxed.week / zero", "owed / zero", "state + 1", "owed + dollars", "owed < dollars", "both > owed", "both > 3",
        "owed == dollars",
        "both == owed", "window > due", "range > 3", "state == part", 'boxed.week == "41"', 'due == "soon"', 'yes == "maybe"',
        "part < part",
        "list > 3", "yes > 0", "boxed.week and yes", "not boxed.week", "due + 0.5", "due + 10000000", "owed * owed", "made * 2",
        "boxed.week == due",
    ],
)  # fmt: skip
def test_what_cannot_be_compared_is_a_fault(text: str) -> None:
    """Values of different kinds, two currencies and a division by zero are told, never taken for false."""
    outcome = held(text)

    assert (None, None, 1) == (outcome.value, outcome.holds, len(outcome.faults))
    assert text[outcome.faults[0].start : outcome.faults[0].end] in text


@pytest.mark.parametrize(
    ("text", "where", "told"),
    [
        ("boxed.week / zero", "zero", "zero is 0, and nothing can be divided by it"),
        ("boxed.week / 0", "0", "0 is 0, and nothing can be divided by it"),
        ("state + 1", "state + 1", "state is a text, 1 a number: not reckoned with +"),
        ("owed + dollars", "owed + dollars", "owed is money in EUR, dollars money in USD: not reckoned with +"),
        ("both > 0.5", "both > 0.5", "both is money in EUR and USD, 0.5 a number: not compared by >"),
        ("nothing_owed > 1", "nothing_owed > 1", "nothing_owed is money in no currency, 1 a number: not compared by >"),
        ("window > due", "window > due", "window is a window of two days, due a date: not compared by >"),
        ("range > 3", "range > 3", "range is a range of two numbers, 3 a number: not compared by >"),
        ("state == part", "state == part", "state is a text, part a name: not compared by =="),
        ('yes == "maybe"', 'yes == "maybe"', 'yes is a yes/no, "maybe" a text: not compared by =='),
        ("list > 3", "list > 3", "list is a list, 3 a number: not compared by >"),
        ("boxed.week and yes", "boxed.week", "boxed.week is a number, where a comparison or a yes/no is wanted"),
        ("yes and owed", "owed", "owed is money in EUR, where a comparison or a yes/no is wanted"),
        ("due + 0.5", "due + 0.5", "due is a date, 0.5 a number: not reckoned with +"),
        ("due + made", "due + made", "due is a date, made a date: not reckoned with +"),
        ("due + 10000000", "due + 10000000", "this leads to no date in the calendar"),
        ("owed * owed", "owed * owed", "owed is money in EUR, owed money in EUR: not reckoned with *"),
        ("2 / owed", "2 / owed", "2 is a number, owed money in EUR: not reckoned with /"),
        ("owed + made", "owed + made", "owed is money in EUR, made a date: not reckoned with +"),
        ("made > owed + owed", "made > owed + owed", "made is a date, the value money in EUR: not compared by >"),
    ],
)
def test_a_misfit_is_told_by_what_its_sides_are(text: str, where: str, told: str) -> None:
    """The words that do not fit are marked, and the message says what each side is and what cannot be done with them."""
    faults = [(text[fault.start : fault.end], fault.what) for fault in held(text).faults]

    assert faults == [(where, told)]


def test_faults_stand_in_the_order_of_the_words() -> None:
    """What is told first stands first, though a part is judged before the whole that holds it."""
    text = "window > due and state + 1 > 2 and boxed.week / zero > 1"
    starts = [fault.start for fault in held(text).faults]

    assert starts == [0, text.index("state"), text.index("zero")]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("boxed.week / boxed.best_week", Fraction(41, 39)),
        ("owed", VALUES["owed"]),
        ("owed * 2", Money((("EUR", Decimal("25.00")),))),
        ("3 * owed", Money((("EUR", Decimal("37.50")),))),
        ("balance - owed", Money((("EUR", Decimal("87.50")),))),
        ("balance / owed", Fraction(8)),
        ("owed / 3", Money((("EUR", Decimal("4.166666666667")),))),
        ("owed * 3 / 8", Money((("EUR", Decimal("4.6875")),))),
        ("due - made", Fraction(31)),
        ("due + 3", date(2026, 4, 4)),
        ("due - 3", date(2026, 3, 29)),
    ],
)
def test_a_value_is_exact(text: str, value: Value) -> None:
    """Arithmetic yields fractions, amounts in major units, days; money that no decimal number holds is cut after 12 places."""
    assert held(text).value == value


def test_absent_facts_are_named_and_nothing_is_decided() -> None:
    """A condition with an unknown fact neither holds nor fails, and the others are still looked up."""
    outcome = held('boxed.wek > 3 and boxed.week > 3 and nothing["x"]')

    assert outcome.holds is None
    assert ["boxed.wek", 'nothing["x"]'] == [absent.spelling for absent in outcome.absent]
    assert ["boxed.week"] == [fact.key for fact in outcome.facts]


def test_touched_facts_stand_once_in_their_order_with_the_numbers_beside() -> None:
    """What a rule needs of a condition: facts, numbers, the weakest basis."""
    outcome = held("boxed.week > 40 and boxed.week < 50 and rate > 0.1 and boxed.best_week > 1")

    assert ["boxed.week", "rate", "boxed.best_week"] == [fact.key for fact in outcome.facts]
    assert (Fraction(40), Fraction(50), Fraction(1, 10), Fraction(1)) == outcome.numbers
    assert Basis.FORECAST == outcome.basis


def test_the_order_of_the_bases_is_that_of_the_design() -> None:
    """A sample is weaker than a record, a commitment weaker than a sample."""
    assert Basis.SAMPLE == held('boxed.week > 1 and state == "open"').basis
    assert Basis.COMMITMENT == held('due > made and state == "open"').basis
