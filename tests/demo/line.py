"""The line: which loom was boxed when, for whom, and which were opened and boxed again."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from random import Random
from zoneinfo import ZoneInfo

from tests.demo.ordering import Book, Unit
from tests.demo.world import AS_OF, FIRST_WEEK, MODELS, after_working_days, working_days

VIENNA = ZoneInfo("Europe/Vienna")
WEEKLY = (
    20, 22, 23, 26, 27, 29, 31, 33, 34, 36, 35, 38, 39, 40, 38, 41, 42, 40, 40, 41, 43, 42, 44, 45, 44, 46, 45, 47, 46, 55,
)  # fmt: skip
"""Looms a full week from 1 September 2025: a line that learns; week 13 is its best so far."""


@dataclass
class Loom:
    """One loom that stood in its box at least once, with everything that happened to it, in order."""

    serial: str
    model: str
    revision: str
    purpose: str
    unit: Unit | None
    order: str
    events: list[tuple[str, datetime]] = field(default_factory=list)

    @property
    def boxed(self) -> bool:
        """Whether it stands boxed on the day of the demo."""
        return self.events[-1][0] == "boxed"

    @property
    def first_day(self) -> date:
        """The day it counts on."""
        return self.events[0][1].date()


def revision_on(model: str, day: date) -> str:
    """The revision built that day; Heron 12 changed in November, both in February."""
    letters = "ABC" if model == "Heron 12" else "AB"
    changes = [date(2025, 11, 17), date(2026, 2, 2)][-len(letters) + 1 :]
    return letters[sum(day >= change for change in changes)]


class Line:
    """The workshop, day by day."""

    def __init__(self, book: Book, away: dict[str, list[tuple[date, date | None]]]) -> None:
        """`away`: the orders that stand outside the queue, with the days they do."""
        self.rng = Random(20250901)
        self.waiting = sorted(book.units, key=lambda unit: unit.queue)
        self.away = away
        self.orders = book.orders()
        self.looms: list[Loom] = []

    def run(self) -> list[Loom]:
        """All looms from the first day of boxing to the day of the demo."""
        for week, target in enumerate(WEEKLY):
            monday = FIRST_WEEK + timedelta(7 * week)
            days = working_days(monday, min(monday + timedelta(4), AS_OF))
            for place, day in enumerate(days):
                self.work(day, self.share(target, place))
        self.extras()
        self.number()
        self.reopen()
        return self.looms

    def share(self, target: int, place: int) -> int:
        """A day's part of a full week's output; the fifth day takes what the others left."""
        even = (target * (place + 1)) // 5 - (target * place) // 5
        return even + (self.rng.choice((-1, 0, 0, 1)) if target < 50 else 0)

    def work(self, day: date, output: int) -> None:
        """Box a day's looms, one after the other from a quarter past seven."""
        moment = datetime(day.year, day.month, day.day, 7, 15, tzinfo=VIENNA)
        for _ in range(output):
            moment += timedelta(minutes=20 + int(0.72 * 480 / output * self.rng.random()))
            unit = self.next_unit(day)
            if unit is not None:
                self.box(unit, moment)

    def next_unit(self, day: date) -> Unit | None:
        """Whose turn it is: the head of a model's queue, now and then one of the next four."""
        model = MODELS[self.rng.random() < 0.37]
        ready = []
        for unit in self.waiting:
            if unit.model == model and unit.placed < day and self.present(unit, day):
                ready.append(unit)
                if len(ready) == 5:
                    break
        if not ready:
            return None
        return ready[0] if self.rng.random() < 0.8 else self.rng.choice(ready)

    def present(self, unit: Unit, day: date) -> bool:
        """Whether an order stands in the queue that day."""
        if unit.cancels is not None and unit.cancels <= day:
            return False
        return not any(first <= day <= (last or AS_OF) for first, last in self.away.get(unit.order, []))

    def box(self, unit: Unit, moment: datetime) -> None:
        """Give a loom its serial and its order; whoever gets one loom no longer gives up the others."""
        self.waiting.remove(unit)
        self.loom(unit.model, moment, "order", unit)
        unit.boxed = moment.date()
        for sibling in self.orders[unit.order]:
            sibling.cancels = None

    def loom(self, model: str, moment: datetime, purpose: str, unit: Unit | None = None) -> Loom:
        """Keep a new loom; its serial comes later, in the order of boxing."""
        loom = Loom("", model, revision_on(model, moment.date()), purpose, unit, unit.order if unit else "")
        loom.events.append(("boxed", moment))
        self.looms.append(loom)
        return loom

    def number(self) -> None:
        """Give out the serials of each model as the looms were boxed."""
        numbers: Counter[str] = Counter()
        self.looms.sort(key=lambda loom: loom.events[0][1])
        for loom in self.looms:
            numbers[loom.model] += 1
            loom.serial = f"H{loom.model.split()[1]}-{numbers[loom.model]}"
            if loom.unit is not None:
                loom.unit.serial = loom.serial

    def extras(self) -> None:
        """Samples for fairs, looms for the shelf, replacements for looms that were hurt on their way."""
        days = working_days(date(2025, 9, 8), AS_OF - timedelta(8))
        delivered = [loom.unit for loom in self.looms if loom.unit and loom.first_day < date(2026, 1, 20)]
        for purpose, count in (("sample", 9), ("stock", 14), ("replacement", 11)):
            first = 90 if purpose == "replacement" else 0
            for day in sorted(self.rng.sample(days[first:], count)):
                moment = datetime(day.year, day.month, day.day, 16, 5 + self.rng.randrange(40), tzinfo=VIENNA)
                hurt = self.rng.choice(delivered) if purpose == "replacement" else None
                model = hurt.model if hurt else self.rng.choice(MODELS)
                self.loom(model, moment, purpose).order = hurt.order if hurt else ""

    def reopen(self) -> None:
        """Open some boxes again: most are closed within days, some in a later week, two are open still."""
        fresh = [loom for loom in self.looms if loom.purpose == "order" and loom.first_day < AS_OF - timedelta(4)]
        for loom in self.rng.sample(fresh, 34):
            gap = self.rng.choice((0, 0, 1, 1, 2, 4, 6))
            self.open_again(loom, gap)
        last_week = [loom for loom in fresh if loom.first_day == date(2026, 3, 19) and len(loom.events) == 1]
        for loom in last_week[3:6]:
            self.open_again(loom, 2)
        for loom in [loom for loom in self.looms if loom.unit and loom.first_day == date(2026, 3, 24)][2:4]:
            loom.events.append(("reopened", datetime(2026, 3, 26, 14, 20, tzinfo=VIENNA)))

    def open_again(self, loom: Loom, gap: int) -> None:
        """Reopen a loom the working day after it was boxed and box it again after a gap of working days."""
        opened = after_working_days(loom.first_day, 1)
        again = after_working_days(opened, gap)
        if again > AS_OF:
            return
        minute = self.rng.randrange(50)
        loom.events.append(("reopened", datetime(opened.year, opened.month, opened.day, 8, minute, tzinfo=VIENNA)))
        loom.events.append(("boxed", datetime(again.year, again.month, again.day, 15, minute, tzinfo=VIENNA)))


def scan(rng: Random, moment: datetime) -> str:
    """A scanner's way of writing a moment: mostly local and zone-less, one gate writes offsets, the old one UTC."""
    way = rng.random()
    if way < 0.06:
        return moment.astimezone(ZoneInfo("UTC")).strftime("%Y-%m-%dT%H:%M:%SZ")
    if way < 0.3:
        return moment.isoformat(timespec="seconds")
    return moment.strftime("%Y-%m-%dT%H:%M:%S")


def boxing_rows(looms: list[Loom]) -> list[list[str]]:
    """The rows of boxing.csv, by moment."""
    rng = Random(20250902)
    events = [(moment, loom, event) for loom in looms for event, moment in loom.events]
    events.sort(key=lambda each: (each[0], each[1].serial))
    return [
        [loom.serial, loom.model, loom.revision, event, scan(rng, moment), loom.order, loom.purpose]
        for moment, loom, event in events
    ]
