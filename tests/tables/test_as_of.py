"""Tables as they stood on an earlier day: what did not exist yet, what was not known yet, and states read back."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from bulletin.settings import read_settings
from bulletin.tables.as_of import as_of
from bulletin.tables.reading import read_tables
from bulletin.tables.table import Tables
from tests.tables.documents import SETTINGS, write_folder

ORDERS = "order,line,placed,model,market,locale,currency,status,serial,closed,delivered\n"
BOXING = "serial,model,event,at,order,purpose\n"


def tables_of(folder: Path, **files: str) -> Tables:
    empty = {"orders": ORDERS, "boxing": BOXING}
    (folder / "bulletin.toml").write_text(SETTINGS)
    for name, text in {**empty, **files}.items():
        (folder / f"{name}.csv").write_text(text)
    settings, _ = read_settings(folder)
    assert settings is not None
    tables, problems = read_tables(folder, settings)
    assert [] == [problem for problem in problems if problem.level == "error"]
    return tables


def on(tables: Tables, name: str, day: str, *columns: str) -> list[Any]:
    """The columns of a table as of a day, as text, days short."""
    frame = as_of(tables, date.fromisoformat(day))[name].frame
    texts = [frame[column].astype("str").fillna("").tolist() for column in columns]
    return texts[0] if len(texts) == 1 else [list(row) for row in zip(*texts, strict=True)]


def order(number: str, status: str, serial: str = "", closed: str = "", delivered: str = "", line: str = "") -> str:
    return f"{number},{line},2026-01-05,Heron 8,AT,de,EUR,{status},{serial},{closed},{delivered}\n"


def event(serial: str, what: str, day: str, number: str = "", purpose: str = "") -> str:
    return f"{serial},Heron 8,{what},{day}T09:00,{number},{purpose}\n"


@pytest.mark.parametrize(
    ("table", "own"),
    [
        ("orders", "2026-01-09"),
        ("boxing", "2026-02-02"),
        ("told", "2026-02-01"),
        ("stock", "2026-01-31"),
        ("defects", "2026-01-31"),
        ("credits", "2026-02-06"),
        ("promises", "2026-01-04"),
        ("attested", "2026-01-11"),
        ("holds", "2026-02-28"),
        ("refunds", "2026-01-31"),
        ("inspections", "2026-02-01"),
    ],
)
def test_later_rows_do_not_exist(table: str, own: str, tmp_path: Path) -> None:
    """Rows whose own date is after the day are gone, those of the day itself are there."""
    settings, _ = read_settings(write_folder(tmp_path, {}))
    assert settings is not None
    tables, _ = read_tables(tmp_path, settings)
    column = tables[table].layout.own
    expected = [row for row, day in enumerate(tables[table].frame[column].dt.date) if day <= date.fromisoformat(own)]

    assert expected == as_of(tables, date.fromisoformat(own))[table].frame.index.tolist()
    assert len(expected) < len(tables[table].frame)


def test_undated_tables_stand_as_they_are(tmp_path: Path) -> None:
    """What is known ahead stays: the plan, known stops, the structure, policies with the day they come into force."""
    settings, _ = read_settings(write_folder(tmp_path, {}))
    assert settings is not None
    tables, _ = read_tables(tmp_path, settings)
    earlier = as_of(tables, date(2025, 1, 1))

    for name in ("plan", "stops", "structure", "policies", "parts", "lanes", "names", "contacts", "reserved", "changes"):
        assert len(tables[name].frame) == len(earlier[name].frame), name


def test_orders_closed_later(tmp_path: Path) -> None:
    """An order closed later is boxed if its unit stands boxed that day, else waiting; delivered later but gone, shipped."""
    tables = tables_of(
        tmp_path,
        orders=ORDERS + order("1", "delivered", "A", "2026-02-10", "2026-02-14") + order("2", "cancelled", "", "2026-02-10"),
        boxing=BOXING + event("A", "boxed", "2026-02-05"),
    )
    days = {
        "2026-02-04": [["waiting", "", ""], ["waiting", "", ""]],
        "2026-02-05": [["boxed", "", ""], ["waiting", "", ""]],
        "2026-02-10": [["shipped", "2026-02-10", ""], ["cancelled", "2026-02-10", ""]],
        "2026-02-14": [["delivered", "2026-02-10", "2026-02-14"], ["cancelled", "2026-02-10", ""]],
    }

    for day, expected in days.items():
        assert expected == on(tables, "orders", day, "status", "closed", "delivered"), day


def test_orders_boxed_later(tmp_path: Path) -> None:
    """The events of a unit contradict `boxed` before it was boxed, and `waiting` before it was opened again."""
    events = event("A", "boxed", "2026-02-05") + event("B", "boxed", "2026-02-03", "2") + event("B", "reopened", "2026-02-08")
    orders = ORDERS + order("1", "boxed", "A") + order("2", "waiting") + order("3", "boxed")
    tables = tables_of(tmp_path, orders=orders, boxing=BOXING + events)

    assert ["waiting", "waiting", "boxed"] == on(tables, "orders", "2026-02-02", "status")
    assert ["waiting", "boxed", "boxed"] == on(tables, "orders", "2026-02-04", "status")
    assert ["boxed", "waiting", "boxed"] == on(tables, "orders", "2026-02-08", "status")


def test_units_by_order(tmp_path: Path) -> None:
    """Lines without a serial get the boxed units of their order one after another; replacements are not theirs."""
    lines = "".join(order("1", "shipped", closed="2026-02-20", line=str(line)) for line in (1, 2, 3))
    events = event("A", "boxed", "2026-02-05", "1") + event("B", "boxed", "2026-02-06", "1", "replacement")
    tables = tables_of(tmp_path, orders=ORDERS + lines, boxing=BOXING + events + event("C", "boxed", "2026-02-07", "1", "order"))

    assert ["boxed", "waiting", "waiting"] == on(tables, "orders", "2026-02-06", "status")
    assert ["boxed", "boxed", "waiting"] == on(tables, "orders", "2026-02-08", "status")


def test_lines_are_read_back_in_turn(tmp_path: Path) -> None:
    """Of one unit and two lines, the line that is shipped later stood boxed, whichever the file has first; 2 before 10."""
    shipped = "".join(order("1", "shipped", closed="2026-02-20", line=line) for line in ("10", "2"))
    lines = order("1", "waiting", line="1") + shipped
    boxing = BOXING + event("H-1", "boxed", "2026-02-02", "1")
    tables = tables_of(tmp_path, orders=ORDERS + lines, boxing=boxing)

    assert [["1", "waiting"], ["10", "waiting"], ["2", "boxed"]] == on(tables, "orders", "2026-02-10", "line", "status")


def test_second_dates_and_states(tmp_path: Path) -> None:
    """A later second date reads as empty, and the state goes back with it; without a date it stands as written."""
    tables = tables_of(
        tmp_path,
        orders=ORDERS + order("1", "waiting"),
        told="order,told,kind,answer,answered\n1,2026-02-01,notice,consent,2026-02-09\n1,2026-02-02,notice,cancel,\n",
        supply="purchase,part,quantity,due,state,ordered,received\n"
        "S1,P,1,2026-02-01,received,2026-01-01,2026-02-09\nS2,P,1,2026-02-01,received,,\nS3,P,1,2026-02-01,ordered,2026-02-07,\n",
        defects="defect,title,severity,opened,state,closed\nD1,a,safety,2026-01-01,closed,2026-02-09\nD2,b,safety,2026-01-01,contained,\n",
        affected="defect,serial,kit_sent,remedied\nD1,A,2026-02-09,2026-02-10\n",
        promises="promise,made,text,due,state,done,withdrawn\nP1,2026-01-01,a,2026-03-01,kept,2026-02-09,\n"
        "P2,2026-01-01,b,2026-03-01,withdrawn,,2026-02-09\nP3,2026-01-01,c,2026-03-01,kept,,\n",
        refunds="order,asked,paid,amount,currency\n1,2026-02-01,2026-02-09,1.00,EUR\n",
        boxing=BOXING + event("A", "boxed", "2026-02-05"),
    )
    day, after = "2026-02-08", "2026-02-10"

    assert [["", ""], ["cancel", ""]] == on(tables, "told", day, "answer", "answered")
    assert [["ordered", ""], ["received", ""], ["ordered", ""]] == on(tables, "supply", day, "state", "received")
    assert ["ordered", "received"] == on(tables, "supply", "2026-02-06", "state")
    assert [["open", ""], ["contained", ""]] == on(tables, "defects", day, "state", "closed")
    assert [["", ""]] == on(tables, "affected", day, "kit_sent", "remedied")
    assert [["open", "", ""], ["open", "", ""], ["kept", "", ""]] == on(tables, "promises", day, "state", "done", "withdrawn")
    assert [""] == on(tables, "refunds", day, "paid")
    assert [["consent", "2026-02-09"], ["cancel", ""]] == on(tables, "told", after, "answer", "answered")
    assert ["closed", "contained"] == on(tables, "defects", after, "state")
    assert ["kept", "withdrawn", "kept"] == on(tables, "promises", after, "state")


def test_newest_count_is_the_stock(tmp_path: Path) -> None:
    """Of each part, the rows of its newest count not after the day are the stock."""
    rows = [
        "P1,usable,5,2026-01-01",
        "P1,usable,9,2026-02-01",
        "P1,inspection,2,2026-02-01",
        "P2,usable,7,2026-01-01",
        "P1,usable,1,2026-03-01",
    ]
    tables = tables_of(tmp_path, stock="part,state,quantity,counted\n" + "\n".join(rows) + "\n")

    assert [["P1", "9"], ["P1", "2"], ["P2", "7"]] == on(tables, "stock", "2026-02-15", "part", "quantity")
    assert [["P1", "5"], ["P2", "7"]] == on(tables, "stock", "2026-01-31", "part", "quantity")
    assert [] == on(tables, "stock", "2025-12-31", "part")


def test_local_day_of_a_moment(tmp_path: Path) -> None:
    """A unit boxed late in the evening of one zone is of the day it was in the maker's (Vienna: UTC+1 in winter)."""
    rows = "A,Heron 8,boxed,2026-02-05T23:30:00Z,,\nB,Heron 8,boxed,2026-02-05T23:30,,\n"
    tables = tables_of(tmp_path, boxing=BOXING + rows)

    assert ["B"] == on(tables, "boxing", "2026-02-05", "serial")


def test_lazy_and_kept(tmp_path: Path) -> None:
    """A table as of a day is worked out once; the tables as read stay as they are."""
    tables = tables_of(tmp_path, orders=ORDERS + order("1", "shipped", "", "2026-02-10"))
    earlier = as_of(tables, date(2026, 2, 1))

    assert earlier["orders"] is earlier["orders"]
    assert (["shipped"], date(2026, 2, 1), None) == (tables["orders"].frame["status"].tolist(), earlier.day, tables.day)
