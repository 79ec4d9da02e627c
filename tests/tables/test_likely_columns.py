"""Headers that call a column by another name."""

from pathlib import Path

from bulletin.model import Problem
from bulletin.report import word
from tests.tables.documents import write_alone
from tests.tables.folders import ORDERS, problems_in

ROW = "1001,2026-01-05,Heron 8,AT,de,EUR,waiting\n"


def of_orders(folder: Path, orders: str, settings: str = "") -> list[Problem]:
    """The problems in orders.csv, which boxing.csv does not refer to here."""
    return problems_in(folder, {"orders.csv": orders, "boxing.csv": "serial,model,event,at\n"}, settings)


def test_blanks_and_capitals_in_a_header(tmp_path: Path) -> None:
    """A column that is written a little otherwise is one problem with one offer."""
    problems = of_orders(tmp_path, ORDERS.replace("placed", '" Placed "') + ROW)

    assert [("column-misspelt", 7, "placed")] == [(p.rule, p.place.column, p.offer) for p in problems]


def test_a_misspelt_optional_column(tmp_path: Path) -> None:
    """A column that need not be there is warned about, with the same offer."""
    problems = of_orders(tmp_path, ORDERS.replace("\n", ",promissed\n") + ROW.replace("\n", ",\n"))

    assert [("column-unknown", "warn", "promised")] == [(p.rule, p.level, p.offer) for p in problems]


def test_a_column_with_another_name(tmp_path: Path) -> None:
    """The one unknown column that holds days is offered for the missing day, as the setting."""
    problems = of_orders(tmp_path, ORDERS.replace("placed", "date").replace("\n", ",colour\n") + ROW.replace("\n", ",red\n"))
    told = 'the column "placed" is missing; if it is the one called "date", say so under [tables.orders] in bulletin.toml'

    assert [f'orders.csv:1:1: error: {told} [column-elsewhere]\n    write: columns = {{ placed = "date" }}'] == [
        word(problem) for problem in problems if problem.level == "error"
    ]


def test_several_columns_with_other_names(tmp_path: Path) -> None:
    """Columns that are offered together stand in one setting, beside those that it has; ids take what is left."""
    header = "Auftrag,Datum,Modell,market,locale,Währung,status\n"
    problems = of_orders(tmp_path, header + ROW, '[tables.orders]\ncolumns = { model = "Modell" }\n')
    offer = 'columns = { model = "Modell", placed = "Datum", currency = "Währung", order = "Auftrag" }'

    assert [offer] * 3 == [problem.offer for problem in problems if problem.rule == "column-elsewhere"]
    assert [] == of_orders(tmp_path, header + ROW, f"[tables.orders]\n{offer}\n")


def test_two_columns_that_would_fit(tmp_path: Path) -> None:
    """Where two unknown columns hold days, neither is offered; nor where there is no row to judge by."""
    two = ORDERS.replace("placed", "date").replace("\n", ",day\n")
    problems = of_orders(tmp_path, two + ROW.replace("\n", ",2026-01-06\n")) + of_orders(
        tmp_path, ORDERS.replace("placed", "date")
    )

    assert ["column-missing", "column-missing"] == [problem.rule for problem in problems if problem.level == "error"]


def test_one_column_that_would_fit_two(tmp_path: Path) -> None:
    """Where one unknown column could be either of two that are missing, it is offered for neither."""
    problems = problems_in(tmp_path, {"promises.csv": "promise,day,text,state\nPR-1,2026-01-05,a spring,open\n"})

    assert ["column-missing", "column-missing"] == [problem.rule for problem in problems if problem.level == "error"]


def test_unread_columns_are_not_private(tmp_path: Path) -> None:
    """A header may be shown, the cells by which it was judged are not."""
    contacts = "order,name,mail,weekly\n1001,Edda Kirschlauer,edda@de.example,yes\n"
    write_alone(tmp_path, {})
    told = "".join(word(problem) for problem in problems_in(tmp_path, {"contacts.csv": contacts}))

    assert 'columns = { bulletins = "weekly" }' in told
    assert "Kirschlauer" not in told
