"""What must never change a fact, and what must never make one fall; the makers are those of the row-by-row computation."""

from __future__ import annotations

import csv
from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from random import Random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bulletin.draft.expressions import parse_key
from bulletin.facts.book import Book, facts_of
from bulletin.facts.families import FAMILIES
from bulletin.facts.scopes.day import Day
from bulletin.model import Fact, Money
from bulletin.settings import read_settings
from bulletin.tables.as_of import as_of
from bulletin.tables.reading import read_tables
from tests.naive.folders import random_folder

Row = dict[str, str]
Change = Callable[[str, list[Row]], list[Row]]
DAY = date(2026, 2, 28)
COUNTED = ("boxed", "orders", "plan", "coverage", "defects", "inspections", "changes", "credits", "promises", "refunds")
SEEDS = st.integers(3000, 9999)
some = settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def maker(seed: int, path: Path) -> Path:
    """The folder of a random maker."""
    folder = path / str(seed)
    if not folder.exists():
        random_folder(seed, folder)
    return folder


def book_of(folder: Path, day: date = DAY) -> Book:
    read, problems = read_settings(folder)
    assert read is not None, problems
    tables, found = read_tables(folder, read)
    assert [] == [problem for problem in found if problem.level == "error"]
    families = {name: family for name, family in FAMILIES.items() if name in COUNTED}
    return facts_of(Day(day, as_of(tables, day), read), families)


def told(folder: Path, day: date = DAY) -> dict[str, object]:
    """Every countable fact that can be told, and its value."""
    book = book_of(folder, day)
    found = [book.find(path) for path in book.countable()]
    return {fact.key: fact.value for fact in found if isinstance(fact, Fact)}


def changed(folder: Path, change: Change, encoding: str = "utf-8", delimiter: str = ",") -> Path:
    """A copy of a folder with the rows of its tables changed, written in another way."""
    copy = folder.with_name(f"{folder.name}-changed")
    copy.mkdir(exist_ok=True)
    settings_text = (folder / "bulletin.toml").read_text("utf-8")
    for file in sorted(folder.glob("*.csv")):
        with file.open(encoding="utf-8", newline="") as source:
            reader = csv.DictReader(source)
            rows, header = list(reader), list(reader.fieldnames or ())
        with (copy / file.name).open("w", encoding=encoding, newline="") as target:
            writer = csv.DictWriter(target, header, delimiter=delimiter)
            writer.writeheader()
            writer.writerows(change(file.stem, rows))
        settings_text += f'\n[tables.{file.stem}]\nencoding = "{encoding}"\ndelimiter = "{delimiter}"\n'
    (copy / "bulletin.toml").write_text(settings_text, "utf-8")
    return copy


@some
@given(SEEDS, st.randoms(use_true_random=False))
def test_the_order_of_rows_changes_nothing(tmp_path: Path, seed: int, chance: Random) -> None:
    """Whatever order the rows of every table stand in, each fact is the same."""
    folder = maker(seed, tmp_path)
    expected = told(folder)

    actual = told(changed(folder, lambda _, rows: chance.sample(rows, len(rows))))

    assert expected == actual


@some
@given(SEEDS)
def test_a_lot_split_in_two_changes_nothing(tmp_path: Path, seed: int) -> None:
    """Half of each lot under another number is the same stock."""
    folder = maker(seed, tmp_path)
    expected = told(folder)

    actual = told(changed(folder, lambda table, rows: split(rows) if table == "stock" else rows))

    assert expected == actual


def split(rows: list[Row]) -> list[Row]:
    """Every lot in two halves."""
    halves = [{**row, "quantity": str(Decimal(row["quantity"]) / 2)} for row in rows]
    return halves + [{**row, "lot": f"{row['lot']} b"} for row in halves]


@some
@given(SEEDS)
def test_a_further_level_changes_nothing(tmp_path: Path, seed: int) -> None:
    """A kit of all parts of a model between it and them, of which none lies on a shelf, leaves every need as it was."""
    folder = maker(seed, tmp_path)
    expected = told(folder)

    actual = told(changed(folder, with_kits))

    assert expected == {key: value for key, value in actual.items() if ".part.KIT " not in key}


def with_kits(table: str, rows: list[Row]) -> list[Row]:
    """Structures by way of a kit a model, for the models that use anything on the day: an empty kit would be a part to buy."""
    models = ("Loom 4", "Loom 12", "Wheel")
    if table == "parts":
        return rows + [{"part": f"KIT {model}", "name": f"kit for {model}", "lead_days": ""} for model in models]
    if table != "structure":
        return rows
    used = (row for row in rows if row["from"] <= DAY.isoformat() <= (row["until"] or "9999"))
    kits = {row["parent"]: f"KIT {row['parent']}" for row in used if row["parent"] in models}
    plain = dict.fromkeys(rows[0], "") if rows else {}
    inner = [{**row, "parent": kits.get(row["parent"], row["parent"])} for row in rows]
    return inner + [{**plain, "parent": model, "component": kit, "quantity": "1"} for model, kit in kits.items()]


@some
@given(SEEDS, st.sampled_from(["utf-8-sig", "cp1252", "utf-16", "iso8859-15"]), st.sampled_from([",", ";", "\t"]))
def test_the_way_a_file_is_written_changes_nothing(tmp_path: Path, seed: int, encoding: str, delimiter: str) -> None:
    """The same rows in another encoding, with other signs between the cells, tell the same."""
    folder = maker(seed, tmp_path)
    expected = told(folder)

    actual = told(changed(folder, lambda _, rows: rows, encoding, delimiter))

    assert expected == actual


@some
@given(SEEDS, st.integers(0, 10**6), st.integers(1, 400))
def test_more_stock_never_lets_less_be_built(tmp_path: Path, seed: int, at: int, more: int) -> None:
    """A larger count of any lot never lowers what can be built or how many days it lasts, nor makes more orders wait."""
    folder = maker(seed, tmp_path)
    before = told(folder)

    after = told(changed(folder, lambda table, rows: grown(rows, at, more) if table == "stock" else rows))

    rising = [key for key in before if key.endswith((".buildable", ".days", ".parts_in_house", ".shop"))]
    falling = [key for key in before if key.endswith((".held_up", ".short", ".short_parts"))]
    assert [] == [key for key in rising if key in after and number(after, key) < number(before, key)]
    assert [] == [key for key in falling if number(after, key) > number(before, key)]


def grown(rows: list[Row], at: int, more: int) -> list[Row]:
    """More in one usable lot."""
    usable = [position for position, row in enumerate(rows) if row["state"] == "usable"]
    chosen = usable[at % len(usable)] if usable else -1
    return [
        {**row, "quantity": str(Decimal(row["quantity"]) + more)} if position == chosen else row
        for position, row in enumerate(rows)
    ]


def number(facts: dict[str, object], key: str) -> Fraction:
    """A fact that counts."""
    value = facts[key]
    assert isinstance(value, int | Fraction)
    return Fraction(value)


@some
@given(SEEDS, st.integers(1, 120))
def test_credit_never_falls_as_time_passes(tmp_path: Path, seed: int, later: int) -> None:
    """What an order that still waits has earned by a day, it has earned by every later day on which it waits."""
    folder = maker(seed, tmp_path)
    first, second = book_of(folder), book_of(folder, DAY + timedelta(later))
    orders = first.day.table("orders").frame
    waiting = orders.loc[orders["status"] == "waiting", "order"].tolist()

    earned = [(credit(first, order), credit(second, order)) for order in dict.fromkeys(waiting)]

    assert [] == [(before, after) for before, after in earned if before is not None and after is not None and before > after]


def credit(book: Book, order: str) -> object:
    """What an order has earned so far, in whatever its currency is; None where it earns nothing that can be told."""
    found = book.find(parse_key(f'credits.so_far["{order}"]'))
    if not isinstance(found, Fact) or not isinstance(found.value, Money):
        return None
    return sum(amount for _, amount in found.value.amounts)


@some
@given(SEEDS)
def test_the_models_add_up_to_the_whole(tmp_path: Path, seed: int) -> None:
    """Counts of units and orders by model add up to those of all, and so do planned units."""
    facts = told(maker(seed, tmp_path))
    models = {key.split(".")[2] for key in facts if key.startswith("boxed.of.")}
    counts = [
        key
        for key in facts
        if key.startswith(("boxed.", "orders.", "plan."))
        and key.count(".") == 1
        and not key.endswith(("wait", "best_day", "best_week", "best_month", "unusual"))
    ]

    expected = {key: number(facts, key) for key in counts}
    actual = {key: sum(number(facts, of) for of in of_models(key, models) if of in facts) for key in counts}

    assert expected == actual


def of_models(key: str, models: set[str]) -> list[str]:
    """The keys of the same fact, model by model."""
    return [key.replace(".", f".of.{model}.", 1) for model in sorted(models)]
