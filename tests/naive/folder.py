"""A data folder as it stood on a day: every table as a list of dicts, with the rows and days that came later taken out."""

from __future__ import annotations

import csv
import re
import tomllib
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import holidays

Row = dict[str, str]

OWN_DATE = {
    "orders": "placed",
    "told": "told",
    "stock": "counted",
    "defects": "opened",
    "credits": "date",
    "supply": "ordered",
    "holds": "from",
    "refunds": "asked",
    "promises": "made",
    "attested": "on",
}
LATER = {
    "orders": ("closed", "delivered"),
    "told": ("answered",),
    "supply": ("received",),
    "defects": ("closed",),
    "affected": ("address_confirmed", "kit_sent", "remedied"),
    "refunds": ("paid",),
    "holds": ("until",),
    "promises": ("done", "withdrawn"),
}
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def natural(text: str) -> list[tuple[int, int, str]]:
    """A key that puts H12-99 before H12-100."""
    return [(0, int(piece), "") if piece.isdigit() else (1, 0, piece) for piece in re.split(r"(\d+)", text) if piece]


def step(text: str, names: tuple[str, ...] = ()) -> str:
    """An item in a key: as it is, or in brackets where it could be taken for something else."""
    plain = re.fullmatch(r"[\w \-]+", text) is not None and text not in names
    return f".{text}" if plain else f'["{text}"]'


class Unit:
    """One loom of boxing.csv: its events up to the day, in order."""

    def __init__(self, serial: str) -> None:
        self.serial = serial
        self.model = ""
        self.order = ""
        self.purpose = ""
        self.known_later = False
        self.events: list[tuple[datetime, str]] = []

    @property
    def stands(self) -> bool:
        """Whether its latest event is `boxed`."""
        return bool(self.events) and self.events[-1][1] == "boxed"

    def boxed_days(self, zone: ZoneInfo) -> list[date]:
        """The days on which it was boxed, in order."""
        return [at.astimezone(zone).date() for at, event in self.events if event == "boxed"]


class Maker:
    """Everything that was known on a day."""

    def __init__(self, folder: Path, as_of: date) -> None:
        self.folder = folder
        self.as_of = as_of
        path = folder / "bulletin.toml"
        self.settings = tomllib.loads(path.read_text("utf-8")) if path.exists() else {}
        maker = self.settings.get("maker", {})
        self.zone = ZoneInfo(maker.get("time_zone", "UTC"))
        self.week_starts = WEEKDAYS.index(maker.get("week_starts", "monday"))
        self.weekdays = {WEEKDAYS.index(name) for name in maker.get("working_days", WEEKDAYS[:5])}
        self.holidays = maker.get("holidays", [])
        self.told: dict[str, list[Row]] = {}
        for row in self.raw("told") or []:
            self.told.setdefault(row["order"], []).append(row)
        self.units = self.read_units()
        self.order_rows = self.read_orders()

    def raw(self, name: str) -> list[Row] | None:
        """A table as written; None where it is missing."""
        path = self.folder / f"{name}.csv"
        if not path.exists():
            return None
        with path.open(encoding="utf-8-sig", newline="") as file:
            return [{key: value or "" for key, value in row.items()} for row in csv.DictReader(file)]

    def rows(self, name: str) -> list[Row] | None:
        """A table as of the day: later rows gone, later second dates empty."""
        rows = self.raw(name)
        if rows is None:
            return None
        own = OWN_DATE.get(name)
        kept = [row for row in rows if own is None or not row.get(own) or row[own] <= self.as_of.isoformat()]
        if name == "inspections":
            kept = [row for row in rows if self.moment(row["at"]).astimezone(self.zone).date() <= self.as_of]
        for row in kept:
            for column in LATER.get(name, ()):
                if row.get(column, "") > self.as_of.isoformat():
                    row[column] = ""
                    row[f"{column} later"] = "yes"
        return kept

    def moment(self, text: str) -> datetime:
        """A time with offset, or in the maker's zone; in the doubled hour the first one."""
        at = datetime.fromisoformat(text)
        return at if at.tzinfo is not None else at.replace(tzinfo=self.zone, fold=0)

    def read_units(self) -> dict[str, Unit]:
        """The looms of boxing.csv by serial; those whose first event comes later have no events."""
        units: dict[str, Unit] = {}
        timed = [(self.moment(row["at"]), row) for row in self.raw("boxing") or []]
        for at, row in sorted(timed, key=lambda each: each[0].timestamp()):
            unit = units.setdefault(row["serial"], Unit(row["serial"]))
            unit.model = unit.model or row["model"]
            unit.order = unit.order or row.get("order", "")
            unit.purpose = unit.purpose or row.get("purpose", "")
            if at.astimezone(self.zone).date() <= self.as_of:
                unit.events.append((at, row["event"]))
            else:
                unit.known_later = True
        return units

    def read_orders(self) -> list[Row]:
        """The rows of orders.csv with their unit's serial found and their status read back."""
        rows = self.rows("orders") or []
        self.match(rows)
        for row in rows:
            row["written"] = row["status"]
            row["status"] = self.status(row)
        return rows

    def match(self, rows: list[Row]) -> None:
        """Find the unit of each row: by its serial, else by the order that the unit was boxed for."""
        taken = {row.get("serial", "") for row in rows}
        loose: dict[tuple[str, str], list[str]] = {}
        for serial in sorted(self.units, key=natural):
            unit = self.units[serial]
            if unit.order and unit.purpose in ("order", "") and serial not in taken:
                loose.setdefault((unit.order, unit.model), []).append(serial)
        served = ("boxed", "shipped", "delivered")
        for row in sorted(rows, key=lambda row: (row["status"] not in served, natural(row.get("line", "")))):
            serials = loose.get((row["order"], row["model"]), [])
            row["unit"] = row.get("serial", "") or (serials.pop(0) if serials else "")

    def status(self, row: Row) -> str:
        """The status that is left when what came later is not known yet."""
        unit = self.units.get(row["unit"])
        stands = unit is not None and unit.stands
        if row.get("closed later"):
            return "boxed" if stands else "waiting"
        if row["status"] == "delivered" and row.get("delivered later"):
            return "shipped"
        if row["status"] in ("boxed", "waiting") and unit is not None and unit.known_later:
            return "boxed" if stands else "waiting"
        return row["status"]

    def dates_told(self, row: Row) -> list[date]:
        """The dates a customer was told, first to last: of told.csv where it knows the order, else the one on the order."""
        told = self.told.get(row["order"])
        if told is None:
            return [date.fromisoformat(row["promised"])] if row.get("promised") else []
        known = sorted((each["told"], each["due"]) for each in told if each.get("due") and each["told"] <= self.as_of.isoformat())
        return [date.fromisoformat(due) for _, due in known]

    def is_working(self, day: date) -> bool:
        """Whether it is a working day by the settings."""
        if isinstance(self.holidays, str):
            country, _, part = self.holidays.partition("-")
            free = day in holidays.country_holidays(country, subdiv=part or None, years=day.year)
        else:
            free = day.isoformat() in {str(each) for each in self.holidays}
        return day.weekday() in self.weekdays and not free

    def week_of(self, day: date) -> date:
        """The day on which a day's week began."""
        return day - timedelta((day.weekday() - self.week_starts) % 7)

    def periods(self) -> dict[str, tuple[date, date]]:
        """The periods whose counts have a name, each with its first and last day."""
        today, week, month = self.as_of, self.week_of(self.as_of), self.as_of.replace(day=1)
        last_month_ends = month - timedelta(1)
        return {
            "today": (today, today),
            "yesterday": (today - timedelta(1), today - timedelta(1)),
            "week": (week, today),
            "last_week": (week - timedelta(7), week - timedelta(1)),
            "month": (month, today),
            "last_month": (last_month_ends.replace(day=1), last_month_ends),
        }
