"""The small language of conditions: what it reads, what it refuses and what it offers instead."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bulletin.draft.expressions import (
    Arithmetic,
    Both,
    Comparison,
    Expression,
    Not,
    Number,
    Reference,
    Text,
    comparisons,
    is_value,
    key,
    negated,
    numbers,
    parse_key,
    references,
    spell,
)
from bulletin.draft.parsing import parse, parse_printed
from bulletin.model import Call, Step


def read(text: str) -> Expression:
    """The tree of a condition that has no fault."""
    expression, faults = parse(text)
    assert faults == []
    assert expression is not None
    return expression


@pytest.mark.parametrize(
    "text",
    [
        "boxed.week",
        'boxed.of("Heron 8").week',
        'defects["D-12"].affected',
        'boxed.between("2026-03-01", "2026-03-08")',
        "attested['S-1']",
    ],
)
def test_a_fact_reads_as_it_is_spelled(text: str) -> None:
    """A path spelled out again is the text it was read from, with double quotes."""
    expected = text.replace("'", '"')

    actual = read(text)

    assert isinstance(actual, Reference)
    assert expected == spell(actual.path)


def test_arguments_of_a_call_are_steps_of_their_own() -> None:
    """`of("Heron 8")` is the name `of` and one argument."""
    expected = (Step("name", "boxed"), Step("name", "of"), Step("call", "Heron 8"), Step("name", "week"))

    actual = read('boxed.of("Heron 8").week')

    assert isinstance(actual, Reference)
    assert expected == actual.path


def test_numbers_are_exact() -> None:
    """0.1 is a tenth, and nothing near it."""
    assert [Fraction(1, 10)] == [number.value for number in numbers(read("credits.orders > 0.1"))]


def test_times_binds_before_plus_and_to_the_left() -> None:
    """A - b - c is (a - b) - c, and a + b * c is a + (b * c)."""
    left = read("a - b - c")
    product = read("a + b * c")

    assert ("-", "a - b") == (left.operator, "a - b - c"[left.left.start : left.left.end])  # type: ignore[union-attr]
    assert ("+", "b * c") == (product.operator, "a + b * c"[product.right.start : product.right.end])  # type: ignore[union-attr]


def test_comparisons_are_joined_by_and_and_not_stands_before_one() -> None:
    """The questions that rules ask of a condition: what must hold, what must not."""
    tree = read('a > b and not c == "open" and d')

    assert isinstance(tree, Both)
    assert [">"] == [comparison.operator for comparison in comparisons(tree)]
    assert ["=="] == [inner.operator for inner in negated(tree) if isinstance(inner, Comparison)]
    assert ["a", "b", "c", "d"] == [spell(reference.path) for reference in references(tree)]


@pytest.mark.parametrize(
    ("text", "expected"), [("boxed.week", True), ("a / b * 2", True), ("a > b", False), ("not a", False), ("a and b", False)]
)
def test_a_value_is_a_fact_or_arithmetic(text: str, expected: bool) -> None:
    """Only for these the words of a claim must hold a figure."""
    assert expected == is_value(read(text))


@pytest.mark.parametrize(
    ("written", "plain"),
    [
        ("a ≥ 3", "a >= 3"),
        ("a ≤ 3", "a <= 3"),
        ("a ≠ 3", "a != 3"),
        ("a × 2 > b − 1", "a * 2 > b - 1"),
        ("a\u00a0>\u202fb", "a > b"),
        ("defects［“D-12”］.open", 'defects["D-12"].open'),
        ("defects[„D-12“].open", 'defects["D-12"].open'),
        ("defects[«D-12»].open", 'defects["D-12"].open'),
        ("boxed.of（“Heron 8”）.week", 'boxed.of("Heron 8").week'),
        ("forecast.place(12)", 'forecast.place("12")'),
        ("a > ３", "a > 3"),
    ],
)
def test_what_a_word_processor_made_of_it_is_understood(written: str, plain: str) -> None:
    """Typographic quotes, no-break spaces, full-width brackets and mathematical signs mean what they look like."""
    assert _shape(read(plain)) == _shape(read(written))


@pytest.mark.parametrize(
    ("text", "offer"),
    [
        ("boxed.total > 1,300", "boxed.total > 1300"),
        ("boxed.total > 1\u202f300", "boxed.total > 1300"),
        ("boxed.rate > 1,5", "boxed.rate > 1.5"),
        ("a = 3", "a == 3"),
        ("a === 3", "a == 3"),
        ("a <> 3", "a != 3"),
        ("a => 3", "a >= 3"),
        ("a && b", "a and b"),
        ("a AND b", "a and b"),
        ("a < b < c", "a < b and b < c"),
        ("a < b < c < d", "a < b and b < c and c < d"),
        ("share > 45 %", "share > 0.45"),
        ("share == 12.5%", "share == 0.125"),
        ("boxed.week()", "boxed.week"),
        ("boxed.of(Heron 8).week", 'boxed.of("Heron 8").week'),
        ("defects[D-12].open", 'defects["D-12"].open'),
    ],
)
def test_a_slip_is_offered_in_its_right_form(text: str, offer: str) -> None:
    """The offer is the whole condition, ready to paste, and reads without a fault."""
    tree, faults = parse(text)

    assert (None, {offer}) == (tree, {fault.offer for fault in faults})
    assert [] == parse(offer)[1]


@pytest.mark.parametrize(
    "text",
    [
        "", "   ", "5", "5 + 3", '"open"', "a >", "> a", "a > > b", "(a", "a)", "a[", 'a["x"', "a[]", "a.", ".a", "a b",
        "a or b", "a || b",
        "a if b", "if a", "a in b", "a is b", "not not a", "a and", "and a", "a ** 2", "a % 2", "-a", "[a]", "{a}", "a; b",
        "a ? b : c",
        '"open" == state', 'a < "b"', 'a + "b" == c', "(a > b) + 1", "not a + 1", "a + 1 and b", "a > 3€", 'a == "x', "a @ b",
        "a\x00",
        "lambda: a", "a := b", "1_000 < a b", "(" * 200 + "a" + ")" * 200, "a" * 301, "9" * 40 + " < a", "a.b(c.d) e",
    ],
)  # fmt: skip
def test_everything_else_is_refused(text: str) -> None:
    """A condition outside the language has a fault that lies within it, and no tree."""
    tree, faults = parse(text)

    assert tree is None
    assert [] != faults
    assert all(0 <= fault.start < fault.end <= len(text) + 1 and fault.what for fault in faults)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "there is nothing between the braces"),
        ("a and", "a fact or a number is missing at the end"),
        ("a > )", "a fact or a number is missing before )"),
        ("and b", "`and` stands between two comparisons"),
        ("a > 3 )", ") closes nothing"),
        ("a > 3 ]", "] closes nothing"),
        ("a > 3 b", "b is not expected here"),
        ("[a] > 3", "there are no lists: [ ] stands right behind the family whose item it takes"),
        ("a - -b > 3", "- stands between two values or before a number"),
        ("a < b < c", "comparisons are not chained: join two by `and`"),
        ("boxed.week() > 3", "what takes no arguments is written without brackets"),
        ("boxed.of(", "a string is missing after ("),
        ("boxed.of(,)", "a string is missing after ("),
        ('boxed.of("a"', "( is not closed by )"),
        ("defects[]", "a string is missing after ["),
        ('defects["D-12"', "[ is not closed by ]"),
        ("defects[D 12.5]", 'items and arguments stand in quotes: "D 12.5"'),
        ("defects[12.x]", 'items and arguments stand in quotes: "12.x"'),
        ("a. > 3", "a name is missing after the point"),
        ("a or b", "there is no `or`: make two claims of it"),
        ("if a", "there is no `if`: a claim holds or it does not"),
        ("a in b", "there is no `in`: compare with == or take the item"),
        ("a is b", "there is no `is`: compare with =="),
        ("a ** 2 > 3", "there are no powers, only + - * /"),
        ("not not a", "`not` stands once, before a comparison"),
        ("(" * 31 + "a" + ")" * 31, "the brackets are nested too deeply"),
    ],
)
def test_a_fault_says_what_stands_there_or_is_missing(text: str, told: str) -> None:
    """The message names the sign and, where there is one, the way to say it."""
    assert [fault.what for fault in parse(text)[1]] == [told]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("3", "between {{ and }} stands the name of a fact"),
        ("a + 3", "one fact is printed here, nothing is reckoned: arithmetic stands in a claim"),
        ("a | foo", "after | stands one of units, words, short, date, share"),
    ],
)
def test_a_fault_of_a_printed_fact_says_what_may_stand_there(text: str, told: str) -> None:
    """Filters are named, so that nobody needs to look them up."""
    assert [fault.what for fault in parse_printed(text)[2]] == [told]


def test_brackets_may_follow_each_other_and_nest() -> None:
    """Only depth is bounded, and thirty deep is read; a node in brackets stands where they stand."""
    deep = "(" * 30 + "a + b" + ")" * 30 + " > 3"
    many = " + ".join(["(a)"] * 40) + " > 3"
    tree = read("(a + b) * 2 > -2 and (d > 3)")

    assert [[], []] == [parse(text)[1] for text in (deep, many)]
    assert isinstance(tree, Both)
    assert [(0, 16), (21, 28)] == [(part.start, part.end) for part in tree.parts]
    assert (0, 28) == (tree.start, tree.end)
    assert [Fraction(2), Fraction(-2), Fraction(3)] == [number.value for number in numbers(tree)]


def test_a_denied_part_stands_from_its_not() -> None:
    """`not` belongs to what it denies, in a condition of one part as of several."""
    text = "a > 3 and not b == c and d < -1"
    tree = read(text)

    assert isinstance(tree, Both)
    assert ["a > 3", "not b == c", "d < -1"] == [text[part.start : part.end] for part in tree.parts]
    assert (0, len(text)) == (tree.start, tree.end)


def test_offers_within_a_longer_draft() -> None:
    """What is repeated in an offer is cut from the condition itself, wherever in the draft it stands."""
    offers = {fault.offer for text in ("a < b + 1 < c", "defects[D-12].open > 3") for fault in parse(text, base=500)[1]}

    assert offers == {"a < b + 1 and b + 1 < c", 'defects["D-12"].open > 3'}


def test_all_faults_are_found_at_once() -> None:
    """A fault in one part does not hide those of others."""
    text = "a = 3 and b > 1,300 and c or d"

    _, faults = parse(text)

    assert ["=", "1,300", "or"] == [text[fault.start : fault.end] for fault in faults]


def test_offsets_count_from_the_base() -> None:
    """Nodes and faults stand where they stand in the draft."""
    tree, _ = parse("boxed.week > 3", base=100)
    _, faults = parse("a = 3", base=100)

    assert isinstance(tree, Comparison)
    assert (100, 110, 113, 114) == (tree.left.start, tree.left.end, tree.right.start, tree.right.end)
    assert [(102, 103)] == [(fault.start, fault.end) for fault in faults]


def test_a_printed_fact_takes_filters() -> None:
    """Filters stand behind |, with arguments or without."""
    expected = (Call("units", ("dative",)), Call("words"))

    reference, filters, faults = parse_printed(' boxed.week | units("dative") | words ')

    assert reference is not None
    assert ("boxed.week", expected, []) == (spell(reference.path), filters, faults)


@pytest.mark.parametrize("text", ["", "5", '"x"', "a + b", "a > b", "a |", "a | upper", "a | units(", "a, b", "not a"])
def test_nothing_but_one_fact_is_printed(text: str) -> None:
    """Literals, arithmetic and unknown filters between {{ and }} are faults."""
    reference, _, faults = parse_printed(text)

    assert reference is None
    assert [] != faults


@given(st.text(alphabet=st.characters() | st.sampled_from("ab.[]()\"'“”<>=!&|+-*/ 019,%≥"), max_size=80))
def test_reading_never_raises(text: str) -> None:
    """Any text is a tree or faults, never both and never an exception."""
    tree, faults = parse(text)
    reference, _, printed_faults = parse_printed(text)

    assert (tree is None) == bool(faults)
    assert (reference is None) == bool(printed_faults)


@pytest.mark.parametrize(
    ("dotted", "expected"),
    [
        ("boxed.week", (Step("name", "boxed"), Step("any", "week"))),
        ("boxed.of.Heron 8.week", (Step("name", "boxed"), Step("any", "of"), Step("any", "Heron 8"), Step("any", "week"))),
        ("boxed.of.Küfer.week", (Step("name", "boxed"), Step("any", "of"), Step("any", "Küfer"), Step("any", "week"))),
        ('defects["D.12"].open', (Step("name", "defects"), Step("item", "D.12"), Step("any", "open"))),
    ],
)
def test_a_dotted_key_is_a_path(dotted: str, expected: tuple[Step, ...]) -> None:
    """Parts of a key may be names or items; brackets say item."""
    assert expected == parse_key(dotted)
    assert dotted == key(expected)


@given(st.text(max_size=40))
def test_any_key_is_some_path(text: str) -> None:
    """A key that makes no sense leads nowhere instead of failing."""
    assert all(isinstance(step.text, str) for step in parse_key(text))


def _shape(node: Expression) -> object:
    """A tree without its offsets."""
    match node:
        case Number(value=value):
            return value
        case Reference(path=path):
            return path
        case Not(inner=inner):
            return ("not", _shape(inner))
        case Both(parts=parts):
            return ("and", *map(_shape, parts))
        case Arithmetic() | Comparison():
            return (node.operator, _shape(node.left), _shape(node.right))
        case Text(text=text):
            return text
