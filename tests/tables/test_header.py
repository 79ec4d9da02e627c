"""A file that is separated by another sign: one problem with the cause, and none of what follows from it."""

from pathlib import Path

import pytest

from bulletin.report import word
from tests.tables.documents import read_case
from tests.tables.folders import ORDERS, problems_in

GOOD = read_case("good")[0]["orders.csv"]


@pytest.mark.parametrize(("sign", "told"), [(";", '";"'), ("\t", '"\\t"'), ("|", '"|"')])
def test_orders_separated_by_another_sign(sign: str, told: str, tmp_path: Path) -> None:
    """An export with semicolons or tabs is told as such, once, where the first one stands."""
    problems = problems_in(tmp_path, {"orders.csv": GOOD.replace(",", sign)})
    signs = {";": "semicolons", "\t": "tabs", "|": "vertical bars"}[sign]
    expected = f"this file is separated by {signs}: write delimiter = {told} under [tables.orders] in bulletin.toml"

    assert [f"orders.csv:1:6: error: {expected} [delimiter-otherwise]"] == [word(problem) for problem in problems]


def test_commas_where_the_settings_say_semicolons(tmp_path: Path) -> None:
    """The settings may be the ones that are wrong."""
    problems = problems_in(tmp_path, {}, '[tables.orders]\ndelimiter = ";"\n')

    assert [("delimiter-otherwise", '","')] == [(problem.rule, problem.details["delimiter"]) for problem in problems]


def test_semicolons_between_foreign_names(tmp_path: Path) -> None:
    """A header of which no name is known, but which another sign parts, is told of the sign first."""
    problems = problems_in(tmp_path, {"orders.csv": '\n"Auftrag";Datum;Stand\n1;05.01.2026;Storno\n'})

    assert [("delimiter-otherwise", 2, 10)] == [(p.rule, p.place.line, p.place.column) for p in problems]


@pytest.mark.parametrize("header", [ORDERS.replace("\n", ',"a;b;c"\n'), ORDERS.replace("order", '"order;placed"', 1)])
def test_other_signs_inside_of_names(header: str, tmp_path: Path) -> None:
    """A sign that stands in a name of a column parts nothing."""
    rules = {problem.rule for problem in problems_in(tmp_path, {"orders.csv": header})}

    assert "delimiter-otherwise" not in rules
