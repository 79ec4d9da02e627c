"""A folder read into typed frames: representations, true lines, foreign exports, encodings, and both ways of reading."""

import hashlib
from datetime import date
from decimal import Decimal
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from bulletin.model import Place, Problem
from bulletin.settings import read_settings
from bulletin.tables import cells
from bulletin.tables.reading import read_tables
from bulletin.tables.table import Tables
from tests.tables.documents import SETTINGS, read_case, write_folder

ORDERS = "order,placed,model,market,locale,currency,status\n"
EXPORT = """
[tables.orders]
file = "export_orders.csv"
encoding = "cp1252"
delimiter = ";"
decimal = ","
thousands = "."
dates = ["%d.%m.%Y", "%Y-%m-%d"]
fill = { locale = "de" }
leave_out = { order = ["1001"] }
values = { status = { Versandt = "shipped", "Wartet" = "waiting" }, model = { "Reiher 8" = "Heron 8" } }

[tables.orders.columns]
order = "Auftrag"
placed = "Datum"
model = "Modell"
market = "Land"
currency = "Währung"
amount = "Betrag"
status = "Stand"
"""
EXPORTED = (
    "Auftrag;Datum;Modell;Land;Währung;Betrag;Stand;Bemerkung\r\n"
    "1000;05.01.2026;Reiher 8;AT;EUR;1.250,00;Versandt;für Jörg\r\n"
    "\r\n"
    "1001;kaputt;?;??;EUR;;Test;\r\n"
    '1002;2026-01-07;Heron 12;DE;EUR;"1.250";Wartet;"zwei\r\nZeilen"\r\n'
    ";;;;;;;\r\n;;;;;;;\r\n"
)


def read(folder: Path) -> tuple[Tables, list[Problem]]:
    settings, problems = read_settings(folder)
    assert settings is not None, problems
    return read_tables(folder, settings)


def read_files(folder: Path, settings: str = SETTINGS, **files: str) -> tuple[Tables, list[Problem]]:
    """A folder of these tables beside orders and boxing without a row."""
    empty = {"boxing": "serial,model,event,at\n"} | ({} if "[tables.orders]\nfile" in settings else {"orders": ORDERS})
    (folder / "bulletin.toml").write_text(settings, encoding="utf-8")
    for name, text in {**empty, **files}.items():
        (folder / f"{name}.csv").write_bytes(text.encode("utf-8"))
    return read(folder)


def test_good_folder(tmp_path: Path) -> None:
    """A folder without a fault gives all its tables and no problem."""
    tables, problems = read(write_folder(tmp_path, {}))

    assert (23, []) == (len(tables), problems)


def test_kinds(tmp_path: Path) -> None:
    """Each kind of column stands in the frame as table.py says."""
    tables, _ = read(write_folder(tmp_path, {}))
    orders, parts = tables["orders"].frame, tables["parts"].frame
    kinds = {
        "order": orders["order"].dtype.name,
        "status": orders["status"].dtype.name,
        "placed": orders["placed"].dtype.name,
        "amount": orders["amount"].dtype.name,
        "priority": orders["priority"].dtype.name,
        "lead_days": parts["lead_days"].dtype.name,
        "safety_stock": parts["safety_stock"].dtype.name,
        "at": tables["boxing"].frame["at"].dtype.name,
        "day": tables["boxing"].frame["day"].dtype.name,
        "bulletins": tables["contacts"].frame["bulletins"].dtype.name,
    }
    expected = {
        "order": "str",
        "status": "category",
        "placed": "datetime64[s]",
        "amount": "Int64",
        "priority": "int64",
        "lead_days": "Int64",
        "safety_stock": "object",
        "at": "datetime64[us]",
        "day": "datetime64[s]",
        "bulletins": "bool",
    }

    assert expected == kinds


def test_values(tmp_path: Path) -> None:
    """Money is whole minor units (ISO 4217: JPY 0, EUR 2, KWD 3), decimals are exact, empty cells are what the layout says."""
    tables, _ = read(write_folder(tmp_path, {}))

    assert [89000, 129000, 129000, 350125, pd.NA] == tables["orders"].frame["amount"].tolist()
    assert [2, 0, -1, 0, 0] == tables["orders"].frame["priority"].tolist()
    assert [Decimal(5), Decimal(0), Decimal("0.5")] == tables["parts"].frame["safety_stock"].tolist()
    assert [Decimal(0), Decimal(0), Decimal("0.02"), Decimal(0)] == tables["structure"].frame["scrap"].tolist()
    assert [Decimal("0.65"), None] == tables["inspections"].frame["quality_limit"].tolist()
    assert ["", "consent"] == tables["told"].frame["answer"].astype("str").tolist()
    assert [1000, -250] == tables["credits"].frame["amount"].tolist()


def test_missing_columns_and_tables(tmp_path: Path) -> None:
    """Columns that a file lacks stand empty in the frame; a table that is not there is missing, not empty."""
    tables, problems = read_files(tmp_path, orders=ORDERS + "1,2026-01-05,Heron 8,AT,de,EUR,waiting\n")
    orders = tables["orders"]

    assert [] == problems
    assert (False, True) == (orders.has("serial"), orders.has("order"))
    assert [""] == orders.frame["serial"].tolist()
    assert (True, None, "stock.csv") == (tables.missing("stock"), tables.get("stock"), tables.file("stock"))


def test_header_alone(tmp_path: Path) -> None:
    """A table of which only the header is there has no rows, but all its columns with their kinds."""
    tables, problems = read_files(tmp_path)

    assert [] == problems
    assert (0, "datetime64[s]") == (len(tables["orders"].frame), tables["boxing"].frame["day"].dtype.name)


def test_lines_and_cells(tmp_path: Path) -> None:
    """Records know the line they begin on and what the file has in its declared columns, under our names."""
    text = ORDERS + '\n1,2026-01-05,"Heron 8",AT,de,EUR,waiting\n\n2,2026-01-05,Heron 8,AT,de,EUR,waiting\n'
    orders = read_files(tmp_path, orders=text)[0]["orders"]

    assert [5, 3] == orders.lines([1, 0])
    assert {"order": "1", "model": "Heron 8"}.items() <= orders.cells([0])[0].items()


def test_export(tmp_path: Path) -> None:
    """A real export, in cp1252 with semicolons, two ways of dates, German words and empty rows, reads as ours does."""
    (tmp_path / "export_orders.csv").write_bytes(EXPORTED.encode("cp1252"))
    tables, problems = read_files(tmp_path, SETTINGS + EXPORT)
    orders = tables["orders"]

    assert [("column-unknown", Place("export_orders.csv", 1, 48))] == [(p.rule, p.place) for p in problems]
    assert ["1000", "1002"] == orders.frame["order"].tolist()
    assert [125000, 125000] == orders.frame["amount"].tolist()
    assert ["shipped", "waiting"] == orders.frame["status"].astype("str").tolist()
    assert ["Heron 8", "Heron 12"] == orders.frame["model"].astype("str").tolist()
    assert [date(2026, 1, 5), date(2026, 1, 7)] == orders.frame["placed"].dt.date.tolist()
    assert ["de", "de"] == orders.frame["locale"].astype("str").tolist()
    assert [2, 5] == orders.lines(orders.frame.index)
    assert [("export_orders.csv", 4, "kaputt")] == [(row.file, row.line, row.cells["placed"]) for row in tables.left_out]


def test_faults_of_an_export(tmp_path: Path) -> None:
    """Faults name the columns as the file has them, at their true places, also behind letters of two bytes."""
    damaged = EXPORTED.replace("1.250,00", "1.25,00").replace("2026-01-07", "2026/01/07")
    (tmp_path / "export_orders.csv").write_bytes(damaged.encode("cp1252"))
    _, problems = read_files(tmp_path, SETTINGS + EXPORT)
    actual = [(p.place.line, p.place.column, p.rule, p.details["column"]) for p in problems if p.level == "error"]

    assert [(2, 33, "cell-not-a-number", "Betrag"), (5, 6, "date-written-otherwise", "Datum")] == actual


@pytest.mark.parametrize("name", ["orders", "lines", "structure", "boxing"])
@pytest.mark.parametrize("change", ["CRLF", "BOM", "CR"])
def test_same_places(name: str, change: str, tmp_path: Path) -> None:
    """Line ends and a byte order mark move no problem."""
    files, marked = read_case(name)
    changes = {"CRLF": lambda t: t.replace("\n", "\r\n"), "BOM": lambda t: "\ufeff" + t, "CR": lambda t: t.replace("\n", "\r")}
    _, problems = read(write_folder(tmp_path, {file: changes[change](text) for file, text in files.items()}))
    actual = {(p.place.file, p.place.line, p.place.column, p.rule) for p in problems}

    assert set(marked) == actual


@pytest.mark.parametrize("encoding", ["utf-16", "utf-8-sig", "cp1252", "shift_jis"])
def test_encodings(encoding: str, tmp_path: Path) -> None:
    """A file in the encoding that the settings name is read; places count characters, not bytes."""
    text = {"shift_jis": "ヘロン"}.get(encoding, "Höhe")
    (tmp_path / "o.csv").write_bytes((ORDERS + f"1,2026-01-05,{text},AT,de,EUR,gone\n").encode(encoding))
    tables, problems = read_files(tmp_path, SETTINGS + f'[tables.orders]\nfile = "o.csv"\nencoding = "{encoding}"\n')

    assert [text] == tables["orders"].frame["model"].astype("str").tolist()
    assert [Place("o.csv", 2, 25 + len(text))] == [problem.place for problem in problems]


def test_undecodable_byte(tmp_path: Path) -> None:
    """A byte that is not in the encoding is told at its character, with the encoding that would fit."""
    read_files(tmp_path)
    (tmp_path / "orders.csv").write_bytes((ORDERS + "1,2026-01-05,Höhe ").encode() + b"\xfc,AT,de,EUR,waiting\n")
    _, problems = read(tmp_path)
    expected = [(Place("orders.csv", 2, 19), "table-not-in-encoding", "0xFC", 'encoding = "cp1252"')]

    assert expected == [(problem.place, problem.rule, problem.words, problem.offer) for problem in problems]


def test_missing_required_table(tmp_path: Path) -> None:
    """Without orders or boxing nothing can be told: both are named, all at once."""
    (tmp_path / "bulletin.toml").write_text(SETTINGS)
    _, problems = read(tmp_path)

    assert [("boxing.csv", "table-missing"), ("orders.csv", "table-missing")] == [(p.place.file, p.rule) for p in problems]


@pytest.mark.parametrize("path", ["../orders.csv", "/etc/passwd", "a/../../orders.csv", "..\\\\orders.csv", "link.csv"])
def test_files_outside_the_folder(path: str, tmp_path: Path) -> None:
    """A file that the settings name outside the data folder is not opened, even through a link."""
    (tmp_path / "orders.csv").write_text(ORDERS)
    folder = tmp_path / "data"
    folder.mkdir()
    (folder / "link.csv").symlink_to(tmp_path / "orders.csv")
    tables, problems = read_files(folder, SETTINGS + f'[tables.orders]\nfile = "{path}"\n')

    assert tables.missing("orders")
    assert [("table-path-outside", Place("bulletin.toml", 5, 1))] == [(p.rule, p.place) for p in problems if p.level == "error"]


def test_settings_of_tables(tmp_path: Path) -> None:
    """What the settings say of tables and columns that do not exist is told in bulletin.toml, with an offer."""
    said = '[tables.order]\nfile = "x.csv"\n[tables.orders]\nfill = { stats = "x", order = "7" }\n'
    said += 'values = { status = { Weg = "send" } }\n'
    said += 'leave_out = { order = ["no such"] }\n'
    _, problems = read_files(tmp_path, SETTINGS + said)
    actual = [(p.place.line, p.place.column, p.rule, p.offer) for p in problems]
    expected = [
        (4, 9, "setting-unknown", "orders"),
        (7, 10, "setting-unknown", "status"),
        (7, 23, "fill-unused", ""),
        (8, 23, "setting-wrong", ""),
        (9, 15, "leave-out-unused", ""),
    ]

    assert expected == actual


def test_faults_of_the_form_come_first(tmp_path: Path) -> None:
    """What others may follow from is told before them, whatever the names of the files: missing columns, broken rows."""
    boxing = "serial,model,event,at\nH-1,Heron 8,boxed,2026-02-30T09:00\n"
    parts = "part,name\nP-1\n"
    stock = "part,state,quantity\nP-1,usable,-1\n"
    _, problems = read_files(tmp_path, boxing=boxing, parts=parts, stock=stock)

    assert ["row-short", "column-missing", "date-does-not-exist", "cell-too-small"] == [problem.rule for problem in problems]


def test_wrong_fill_is_told_once(tmp_path: Path) -> None:
    """A wrong text to fill in is a fault of the settings, not of each row."""
    rows = "".join(f"{number},2026-01-05,Heron 8,AT,EUR,waiting\n" for number in range(5))
    orders = "order,placed,model,market,currency,status\n" + rows
    _, problems = read_files(tmp_path, SETTINGS + '[tables.orders]\nfill = { locale = "xx" }\n', orders=orders)

    assert [("cell-not-a-locale", Place("bulletin.toml", 5, 10))] == [(p.rule, p.place) for p in problems]


@pytest.mark.parametrize(
    "text", ["=1+1", "@SUM(A1)", "<script>alert(1)</script>", "../../x", "'; drop table", "{{ boxed.week }}", "-5"]
)
def test_harmless_text(text: str, tmp_path: Path) -> None:
    """Formulas, HTML and tricks stay the text they are."""
    tables, problems = read_files(tmp_path, parts=f"part,name\nP-1,{text}\n{text},x\n")

    assert [] == problems
    assert [text, "x"] == tables["parts"].frame["name"].tolist()


def test_texts_that_look_like_numbers(tmp_path: Path) -> None:
    """Ids, models and batches stay text: 007 is no 7, 1.10 no 1.1, NA and null no missing value."""
    header = "order,placed,model,market,locale,currency,status,batch\n"
    rows = (
        "007,2026-01-05,08,AT,de,EUR,waiting,1.10\n7,2026-01-05,8.0,NA,de,EUR,waiting,NA\nnull,2026-01-05,8,AT,de,EUR,waiting,\n"
    )
    tables, problems = read_files(tmp_path, orders=header + rows)
    frame = tables["orders"].frame

    assert [] == problems
    assert [["007", "7", "null"], ["08", "8.0", "8"], ["1.10", "NA", ""]] == [
        frame[column].astype("str").tolist() for column in ("order", "model", "batch")
    ]


def test_currency_without_tier(tmp_path: Path) -> None:
    """A currency that no tier of waiting credit names is told once, with how many orders have it."""
    credit = '[credit]\ntiers = [ { from_month = 1, amount = { EUR = "10.00" } } ]\n'
    rows = "".join(f"{number},2026-01-05,Heron 8,AT,de,{code},waiting\n" for number, code in enumerate(["EUR", "USD", "USD"]))
    _, problems = read_files(tmp_path, SETTINGS + credit, orders=ORDERS + rows)

    assert [("currency-without-tier", Place("orders.csv", 3, 28), "2")] == [
        (p.rule, p.place, p.details["rows"]) for p in problems
    ]


@pytest.mark.parametrize("name", ["good", "orders", "boxing", "structure"])
@pytest.mark.parametrize("way", ["general", "without pyarrow"])
def test_all_ways_read_the_same(name: str, way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The swift way, the general way and a machine without pyarrow give the same frames and problems."""
    folder = write_folder(tmp_path, read_case(name)[0])
    swift, expected = read(folder)
    if way == "general":
        monkeypatch.setattr(cells, "is_simple", lambda source: False)
    else:
        monkeypatch.setattr(cells, "find_spec", lambda name: None)
    tables, actual = read(folder)

    assert expected == actual
    for table in tables:
        pd.testing.assert_frame_equal(swift[table].frame, tables[table].frame, check_column_type=False)


def test_blank_rows_between(tmp_path: Path) -> None:
    """Lines of blanks and rows without a text are no rows, in both ways of reading; later places stay true."""
    text = ORDERS + "  \n,,,,,,\n1,2026-01-05,Heron 8,AT,de,EUR,gone\n\t\n 2 ,2026-01-05, Heron 8 ,AT,de,EUR,gone\n"
    for quoted in (text, text.replace(",gone", ',"gone"')):
        tables, problems = read_files(tmp_path, orders=quoted)

        assert [(4, 32), (6, 36)] == [(problem.place.line, problem.place.column) for problem in problems]
        assert (["1", "2"], ["Heron 8"]) == (
            tables["orders"].frame["order"].tolist(),
            list(tables["orders"].frame["model"].cat.categories),
        )


def test_digest(tmp_path: Path) -> None:
    """A table's digest is that of the file's bytes, byte order mark and all."""
    tables, _ = read_files(tmp_path, orders="\ufeff" + ORDERS)
    expected = hashlib.sha256((tmp_path / "orders.csv").read_bytes()).hexdigest()

    assert expected == tables["orders"].digest


def test_many_rows_without_order(tmp_path: Path) -> None:
    """References and repeated keys are found among ids of different length and form."""
    ids = [f"A{number}" for number in range(1, 300)] + [f"{number:05d}" for number in range(300)] + ["x", "é", "1e5"]
    shuffled = np.random.default_rng(3).permutation(ids).tolist()
    orders = ORDERS + "".join(f"{number},2026-01-05,Heron 8,AT,de,EUR,waiting\n" for number in [*shuffled, "A17"])
    told = "order,told,kind\n" + "".join(f"{number},2026-02-01,notice\n" for number in [*ids, "A300", "0001", "y"])
    _, problems = read_files(tmp_path, orders=orders, told=told)
    actual = [(p.rule, p.words) for p in problems]
    expected = [("row-twice", "A17"), ("reference-lost", "A300"), ("reference-lost", "0001"), ("reference-lost", "y")]

    assert expected == actual


def test_left_out_contacts(tmp_path: Path) -> None:
    """Of a private row that is left out, the evidence keeps the order alone."""
    contacts = "order,name,email,bulletins\n1001,Edda,edda@de.example,maybe\n"
    folder = write_folder(
        tmp_path, {"contacts.csv": contacts}, SETTINGS + '[tables.contacts]\nleave_out = { order = ["1001"] }\n'
    )
    tables, problems = read(folder)

    assert [] == problems
    assert [{"order": "1001", "bulletins": "maybe"}] == [row.cells for row in tables.left_out]


def test_cell_without_end(tmp_path: Path) -> None:
    """A cell that is longer than any text of a table is told, whether a quote opens it or not."""
    long = "x" * 140_000
    for cell, rule in ((f'"{long}"', "cell-too-long"), (f'"{long}', "quote-open"), (f'"a",{long}', "cell-too-long")):
        _, problems = read_files(tmp_path, parts=f'part,name\n"P-1",a\nP-2,{cell}\n')

        assert [(3, rule)] == [(problem.place.line, problem.rule) for problem in problems if problem.rule != "row-long"], rule
