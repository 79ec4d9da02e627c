"""Small makers at random: data folders that pass every check and hold the odd cases that trip people up."""

from __future__ import annotations

import csv
from datetime import date, timedelta
from pathlib import Path
from random import Random

FIRST, LAST = date(2025, 6, 1), date(2026, 4, 30)
MARKETS = {"AT": "EUR", "US": "USD", "JP": "JPY", "KW": "KWD"}
LOCALES = {"AT": "de-AT", "US": "en-US", "JP": "ja-JP", "KW": "ar-KW"}
PLACES = {"EUR": 2, "USD": 2, "JPY": 0, "KWD": 3}
DOUBLED = (
    "2025-10-26T02:15:00",
    "2025-10-26T02:45:00+01:00",
    "2026-03-29T01:59:00",
    "2025-11-30T23:59:30",
    "2026-01-01T00:00:00",
)
OPTIONAL = (
    "told", "plan", "supply", "stock", "reserved", "holds", "refunds", "affected", "credits", "inspections", "changes",
    "promises", "policies", "attested",
)  # fmt: skip
"""Tables that no other refers to: now and then they are missing, or have no row."""
Table = list[dict[str, str]]


def amount(rng: Random, currency: str, top: int) -> str:
    """A random amount in the decimals of its currency."""
    places = PLACES[currency]
    whole, part = rng.randint(1, top), rng.randrange(10**places) if places else 0
    return f"{whole}.{part:0{places}}" if places else str(whole * 100)


class Folder:
    """One folder in the making; each method fills a table from what stands already."""

    def __init__(self, seed: int) -> None:
        self.rng = Random(seed)
        self.tables: dict[str, Table] = {}
        self.models = ["Loom 4", "Loom 12", "Wheel"][: self.rng.choice((1, 2, 2, 3))]
        self.orders: Table = []
        self.boxing: Table = []
        self.serials: dict[str, str] = {}

    def day(self, first: date = FIRST, last: date = LAST) -> date:
        """A day between two."""
        return first + timedelta(self.rng.randrange(max(1, (last - first).days)))

    def maybe(self, chance: float, text: str) -> str:
        """A text or nothing."""
        return text if self.rng.random() < chance else ""

    def fill(self) -> None:
        """All tables, some of them left out."""
        for number in range(self.rng.randint(10, 120)):
            self.order(f"A{number * 7 + 3}")
        if self.rng.random() < 0.08:
            self.orders = [row for row in self.orders if row["status"] != "waiting"]
            kept = {row["order"] for row in self.orders}
            self.boxing = [row for row in self.boxing if row["order"] in kept | {""}]
        for number in range(self.rng.randrange(5)):
            self.unit(f"S{number + 1}", self.rng.choice(self.models), self.day(), self.rng.choice(("stock", "sample")), "")
        if not self.boxing:
            self.unit("S9", self.models[0], self.day(), "stock", "")
        self.known_orders = sorted({row["order"] for row in self.orders}) or []
        self.tables = {"orders": self.orders, "boxing": self.boxing}
        self.told()
        self.materials()
        self.credits()
        self.defects()
        self.outside()
        self.inspections()
        self.changes()
        self.promises()
        self.statements()
        for name in OPTIONAL:
            if self.rng.random() < 0.07:
                self.tables.pop(name, None)
            elif self.rng.random() < 0.05:
                self.emptied(name)

    def emptied(self, name: str) -> None:
        """A table without a row; tables that others refer to stay whole."""
        if name in self.tables:
            self.tables[name] = []

    def order(self, number: str) -> None:
        """One order of one to three units of one currency."""
        market = self.rng.choice(sorted(MARKETS))
        placed = self.day()
        lines = self.rng.choice((1, 1, 1, 1, 2, 3))
        for line in range(1, lines + 1):
            row = {
                "order": number, "line": str(line) if lines > 1 else self.maybe(0.5, "1"), "placed": str(placed),
                "model": self.rng.choice(self.models), "market": market, "locale": LOCALES[market],
                "currency": MARKETS[market], "amount": self.maybe(0.8, amount(self.rng, MARKETS[market], 900)),
                "status": "waiting", "promised": "", "priority": self.maybe(0.15, str(self.rng.randint(-1, 3))),
                "batch": self.maybe(0.6, f"B{placed.month}"), "serial": "", "closed": "", "delivered": "",
            }  # fmt: skip
            self.fate(row, placed, lines)
            self.orders.append(row)

    def fate(self, row: dict[str, str], placed: date, lines: int) -> None:
        """What becomes of one unit: waiting, cancelled, or boxed and more."""
        fate = self.rng.choice(("waiting", "waiting", "waiting", "cancelled", "boxed", "shipped", "delivered"))
        if fate == "cancelled" and lines == 1:
            row["status"], row["closed"] = fate, self.maybe(0.85, str(self.day(placed, LAST)))
        elif fate in ("boxed", "shipped", "delivered"):
            serial = f"U{len(self.serials) + 1}"
            self.serials[serial] = row["order"]
            last, stands = self.unit(serial, row["model"], self.day(placed, LAST), self.maybe(0.8, "order"), row["order"])
            row["serial"] = serial if lines > 1 else self.maybe(0.7, serial)
            if stands:
                self.leave(row, fate, last)

    def leave(self, row: dict[str, str], fate: str, boxed: date) -> None:
        """Ship and deliver a boxed unit."""
        row["status"] = fate
        if fate != "boxed":
            closed = boxed + timedelta(self.rng.randrange(6))
            row["closed"] = self.maybe(0.95, str(closed))
            if fate == "delivered":
                row["delivered"] = str(closed + timedelta(self.rng.randrange(9)))

    def unit(self, serial: str, model: str, day: date, purpose: str, order: str) -> tuple[date, bool]:
        """Box a unit, now and then open it again and box it again; the day it was boxed last, and whether it stands boxed."""
        events = ["boxed", *self.rng.choice(((), (), (), (), ("reopened",), ("reopened", "boxed")))]
        for event in events:
            row = {"serial": serial, "model": model, "revision": "", "event": event, "at": self.moment(day), "order": order}
            self.boxing.append(row | {"purpose": purpose})
            last = day
            day += timedelta(self.rng.choice((1, 2, 3, 9)))
        return last, events[-1] == "boxed"

    def moment(self, day: date) -> str:
        """A time of a day: mostly in working hours and zone-less, some near midnight, some with an offset."""
        way = self.rng.random()
        for odd in DOUBLED:
            if odd.startswith(str(day)):
                return odd
        clock = f"{self.rng.randint(7, 16):02}:{self.rng.randrange(60):02}"
        if way < 0.15:
            clock = self.rng.choice(("00:00", "23:59", "00:30", "22:45"))
        return f"{day}T{clock}" + self.rng.choice(("", "", ":00", ":30Z", ":00+02:00"))

    def told(self) -> None:
        """First dates, notices, some without a date; the last one stands on the order too."""
        rows: Table = []
        by_order: dict[str, Table] = {}
        for row in self.orders:
            by_order.setdefault(row["order"], []).append(row)
        for number, lines in by_order.items():
            told, due = date.fromisoformat(lines[0]["placed"]), ""
            for kind in ("order", "notice", "renewed")[: self.rng.randrange(4)]:
                first = self.rng.choice((told + timedelta(30), date(2025, 8, 31), date(2025, 12, 31), date(2026, 1, 31)))
                new = self.maybe(0.85, str(max(first, told)))
                rows.append({"order": number, "told": str(told), "due": new, "kind": kind, "answer": "", "answered": ""})
                due, told = new or due, told + timedelta(self.rng.randint(1, 90))
            if due:
                for row in lines:
                    row["promised"] = due
        self.tables["told"] = rows

    def materials(self) -> None:
        """Parts, a structure with diamonds, made parts, scrap and days of effect, shelves and supply; left out at times."""
        if self.rng.random() < 0.07:
            return
        bought = [f"P{number}" for number in range(1, self.rng.randint(3, 9))]
        made = [f"M-{number}" for number in range(1, self.rng.randint(1, 4))]
        self.tables["parts"] = [{"part": part, "name": f"part {part}", "lead_days": ""} for part in bought + made]
        if self.rng.random() < 0.93:
            self.tables["structure"] = self.structure(bought, made)
        if self.rng.random() < 0.93:
            self.tables["stock"] = self.stock(bought + made)
        self.tables["supply"] = self.supply(bought)
        uses = [(part, use) for part in bought + made for use in ("shop", "service", "retrofit") if self.rng.random() < 0.15]
        self.tables["reserved"] = [{"part": p, "use": use, "quantity": str(self.rng.randint(1, 9))} for p, use in uses]
        days = [LAST - timedelta(n) for n in range(-60, 120) if self.rng.random() < 0.6]
        self.tables["plan"] = [
            {"date": str(day), "model": model, "units": str(self.rng.randint(1, 4))}
            for day in sorted(days) for model in self.models if self.rng.random() < 0.7
        ]  # fmt: skip

    def structure(self, bought: list[str], made: list[str]) -> Table:
        """Models take made and bought parts, made parts take later made ones and bought ones."""
        rows: Table = []
        for place, parent in enumerate(self.models + made):
            below = made if place < len(self.models) else made[place - len(self.models) + 1 :]
            chosen = [part for part in below if self.rng.random() < 0.7]
            chosen += [part for part in bought if self.rng.random() < 0.45] or [bought[0]]
            for component in chosen:
                rows += self.component(parent, component)
        return rows

    def component(self, parent: str, component: str) -> Table:
        """One component, now and then changed in its quantity from a day on."""
        row = {"parent": parent, "component": component, "quantity": self.rng.choice(("1", "2", "3", "0.5", "1.25", "12"))}
        row |= {"scrap": self.maybe(0.3, self.rng.choice(("0.02", "0.1", "0.333"))), "from": "", "until": ""}
        if self.rng.random() > 0.15:
            return [row]
        change = self.day(date(2025, 12, 1), date(2026, 4, 1))
        after = row | {"quantity": "4", "from": str(change + timedelta(self.rng.choice((1, 1, 20))))}
        return [row | {"until": str(change)}, after]

    def stock(self, parts: list[str]) -> Table:
        """Counts on one to three days, in lots and states."""
        rows: Table = []
        for part in parts:
            for day in sorted({self.day(date(2025, 7, 1)) for _ in range(self.rng.randrange(4))}):
                for lot, state in (("", "usable"), ("L1", "usable"), ("L2", "quarantine"), ("L2", "inspection")):
                    if self.rng.random() < 0.6:
                        quantity = self.rng.choice(("0", "3", "17", "40.5", "250", str(self.rng.randrange(60))))
                        rows.append({"part": part, "lot": lot, "state": state, "quantity": quantity, "counted": str(day)})
        return rows

    def supply(self, parts: list[str]) -> Table:
        """Purchases in all states, early and late."""
        rows: Table = []
        for number in range(self.rng.randrange(14)):
            ordered = self.day()
            due = ordered + timedelta(self.rng.randint(1, 70))
            state = self.rng.choice(("ordered", "confirmed", "in_transit", "received", "received", "cancelled"))
            came = str(max(ordered, due + timedelta(self.rng.randint(-5, 20)))) if state == "received" else ""
            rows.append({
                "purchase": f"PO{number}", "part": self.rng.choice(parts), "quantity": str(self.rng.randint(1, 90)),
                "due": str(due), "state": state, "ordered": self.maybe(0.8, str(ordered)), "received": came, "reason": "",
            })  # fmt: skip
        return rows

    def credits(self) -> None:
        """Credit booked at random: the owed side matters as much as what fits."""
        rows: Table = []
        currencies = {row["order"]: row["currency"] for row in self.orders}
        for order in self.known_orders:
            for kind in ("credit", "credit", "redemption", "expiry", "correction"):
                if self.rng.random() < 0.2:
                    value = amount(self.rng, currencies[order], 20)
                    sign = self.rng.choice(("", "-")) if kind == "correction" else ""
                    row = {"order": order, "date": str(self.day()), "kind": kind, "amount": sign + value}
                    rows.append(row | {"currency": currencies[order]})
        self.tables["credits"] = rows

    def defects(self) -> None:
        """Defects in all states with units boxed before; none at times."""
        if self.rng.random() < 0.1:
            return
        defects: Table = []
        affected: Table = []
        serials = sorted({row["serial"] for row in self.boxing})
        parts = [row["part"] for row in self.tables.get("parts", [])]
        for number in range(self.rng.randrange(5)):
            opened = self.day()
            state = self.rng.choice(("open", "contained", "fixed", "closed"))
            closed = str(opened + timedelta(self.rng.randrange(60))) if state == "closed" else ""
            defects.append({
                "defect": f"D-{number}", "title": f"fault {number}", "severity": self.rng.choice(("safety", "function")),
                "opened": str(opened), "state": state, "closed": closed, "remedy": "retrofit",
                "remedy_part": self.maybe(0.6, self.rng.choice(parts)) if parts else "",
                "traced": self.rng.choice(("", "no", "partly", "complete")),
            })  # fmt: skip
            for serial in self.rng.sample(serials, min(len(serials), self.rng.randrange(5))):
                first = opened + timedelta(self.rng.randrange(20))
                affected.append({
                    "defect": f"D-{number}", "serial": serial, "order": "", "address_confirmed": self.maybe(0.6, str(first)),
                    "kit_sent": "", "remedied": self.maybe(0.5, str(first + timedelta(9))),
                })  # fmt: skip
        self.tables |= {"defects": defects, "affected": affected}

    def outside(self) -> None:
        """Holds and refunds."""
        self.tables["holds"], self.tables["refunds"] = [], []
        for row in self.orders:
            if row["line"] in ("", "1") and self.rng.random() < 0.08:
                first = self.day(date.fromisoformat(row["placed"]), LAST)
                until = self.maybe(0.5, str(first + timedelta(self.rng.randrange(40))))
                self.tables["holds"].append({"order": row["order"], "reason": "away", "from": str(first), "until": until})
            elif row["line"] in ("", "1") and self.rng.random() < 0.05:
                asked = self.day(date.fromisoformat(row["placed"]), LAST)
                paid = self.maybe(0.4, str(asked + timedelta(self.rng.randrange(20))))
                value = amount(self.rng, row["currency"], 99)
                refund = {"order": row["order"], "asked": str(asked), "paid": paid, "amount": value}
                self.tables["refunds"].append(refund | {"currency": row["currency"]})

    def inspections(self) -> None:
        """Samples of all sizes, in lots that the standard has a plan for and in others."""
        rows: Table = []
        for number in range(self.rng.randrange(6)):
            checked = self.rng.choice((1, 3, 8, 20, 50, 80, 125))
            failed = min(checked, self.rng.choice((0, 0, 1, 2, 7, checked)))
            rows.append({
                "inspection": f"I-{number}", "title": f"torque {number}", "part": "", "lot": self.maybe(0.5, f"L{number}"),
                "checked": str(checked), "failed": str(failed), "at": self.moment(self.day()),
                "lot_size": self.maybe(0.8, self.rng.choice(("1", "9", "60", "150", "281", "1000", "3200", "36000", "600000"))),
                "quality_limit": self.maybe(
                    0.8, self.rng.choice(("0.65", "1.0", "1.5", "2.5", "4.0", "6.5", "1", "0.1", "0.3", "10"))
                ),
            })  # fmt: skip
        self.tables["inspections"] = rows

    def changes(self) -> None:
        """Changes from a serial or from a day on, with and without a defect."""
        serials = sorted({row["serial"] for row in self.boxing})
        defects = [row["defect"] for row in self.tables.get("defects", [])]
        self.tables["changes"] = [
            {
                "change": f"C-{number}", "title": f"better pin {number}", "model": self.rng.choice(self.models),
                "from_serial": self.maybe(0.5, self.rng.choice((*serials, "U9", "U10", "U09", "U007"))),
                "from_date": self.maybe(0.7, str(self.day())),
                "defect": self.maybe(0.8, self.rng.choice(defects)) if defects else "",
                "state": self.rng.choice(("planned", "released")),
            }
            for number in range(self.rng.randrange(5))
        ]  # fmt: skip

    def promises(self) -> None:
        """Promises that were kept, with and without a day on record, late, withdrawn, or are still open."""
        rows: Table = []
        for number in range(self.rng.randrange(8)):
            made = self.day()
            due = made + timedelta(self.rng.randrange(90))
            state = self.rng.choice(("open", "kept", "kept", "withdrawn"))
            ended = str(max(made, due + timedelta(self.rng.randint(-20, 20)))) if self.rng.random() < 0.8 else ""
            rows.append({
                "promise": f"R-{number}", "made": str(made), "text": f"we will do {number}", "due": str(due), "state": state,
                "done": ended if state == "kept" else "", "withdrawn": ended if state == "withdrawn" else "",
            })  # fmt: skip
        self.tables["promises"] = rows

    def statements(self) -> None:
        """Policies in every state, and statements that expire or do not."""
        self.tables["policies"] = [
            {
                "policy": f"Q-{number}", "title": f"rule {number}", "from": self.maybe(0.5, str(self.day())),
                "state": self.rng.choice(("idea", "planned", "decided", "in_force", "in_force")),
            }
            for number in range(self.rng.randrange(4))
        ]  # fmt: skip
        self.tables["attested"] = [
            {
                "statement": f"T.{number}", "text": f"no loom is like another, says {number}", "by": "A. Weaver",
                "on": str(self.day()), "file": "", "expires": self.maybe(0.6, str(self.day())),
            }
            for number in range(self.rng.randrange(4))
        ]  # fmt: skip

    def settings(self) -> str:
        """A bulletin.toml: zones on both sides of UTC, other weeks, other working days, credit in several shapes or none."""
        zone = self.rng.choice(("Europe/Vienna", "America/New_York", "Asia/Tokyo", "UTC"))
        lines = ["[maker]", 'name = "Small Maker"', f'time_zone = "{zone}"']
        lines += self.rng.choice(([], ['week_starts = "sunday"'], ['holidays = "AT"'], ["holidays = [2026-01-05]"]))
        if self.rng.random() < 0.2:
            lines.append('working_days = ["tuesday", "wednesday", "saturday"]')
        if self.rng.random() < 0.3:
            lines += ["", "[checks]", f"confidence = {self.rng.choice((0.8, 0.9, 0.99))}"]
        if self.rng.random() < 0.12:
            return "\n".join(lines) + "\n"
        lines += ["", "[credit]", self.rng.choice(('months_from = "promised"', 'months_from = "placed"'))]
        lines += [self.rng.choice(('until = "boxed"', 'until = "shipped"')), "tiers = ["]
        for month in self.rng.choice(((1,), (1, 4), (3,), (2, 3, 5), (1, 2, 12))):
            lines.append(f"    {{ from_month = {month}, amount = {self.amounts(20)} }},")
        lines.append("]")
        if self.rng.random() < 0.7:
            lines.append(f"cap = {self.amounts(60)}")
        return "\n".join(lines) + "\n"

    def amounts(self, top: int) -> str:
        """An inline table of an amount in each currency."""
        return "{ " + ", ".join(f'{currency} = "{amount(self.rng, currency, top)}"' for currency in sorted(PLACES)) + " }"


def random_folder(seed: int, path: Path) -> None:
    """Write a small maker's data folder, always the same for a seed; a good day to look at it is 2026-02-28 or any near."""
    folder = Folder(seed)
    folder.fill()
    path.mkdir(parents=True, exist_ok=True)
    (path / "bulletin.toml").write_text(folder.settings(), "utf-8")
    for name, rows in folder.tables.items():
        headers = list(rows[0]) if rows else HEADERS[name].split()
        with (path / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, headers, lineterminator="\n")
            writer.writeheader()
            writer.writerows(rows)


HEADERS = {
    "orders": "order line placed model market locale currency status",
    "boxing": "serial model event at",
    "told": "order told due kind",
    "parts": "part name",
    "structure": "parent component quantity",
    "stock": "part lot state quantity counted",
    "supply": "purchase part quantity due state",
    "reserved": "part use quantity",
    "plan": "date model units",
    "defects": "defect title severity opened state",
    "affected": "defect serial",
    "credits": "order date kind amount currency",
    "holds": "order reason from until",
    "refunds": "order asked paid amount currency",
    "inspections": "inspection title checked failed at",
    "changes": "change title model state",
    "promises": "promise made text due state",
    "policies": "policy title state",
    "attested": "statement text by on",
}
"""The columns of tables that have no row."""
