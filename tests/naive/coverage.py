"""Parts: what waiting orders need, down every level, against what lies on the shelves."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from statistics import median

from tests.naive.folder import Maker, Row, natural, step

Needs = dict[str, Fraction]


class Store:
    """Structure, shelves and queue as they stand on the day."""

    def __init__(self, maker: Maker) -> None:
        self.maker = maker
        day = maker.as_of.isoformat()
        rows = maker.raw("structure") or []
        self.structure = [row for row in rows if row.get("from", "") <= day and (not row.get("until") or row["until"] >= day)]
        self.parents = {row["parent"] for row in self.structure}
        parts = maker.raw("parts")
        self.told = bool(rows)
        self.counted = bool(maker.rows("stock"))
        self.whole = self.told and self.counted
        self.names = {row["part"]: row["name"] for row in parts or []}
        self.parts = list(self.names) if parts is not None else sorted({row["component"] for row in self.structure})
        self.stock = newest(maker.rows("stock") or [])
        self.reserved = maker.raw("reserved") or []
        self.waiting = [row for row in maker.order_rows if row["status"] == "waiting"]
        things = {row["component"] for row in self.structure} | self.parents | set(self.parts)
        self.shelves = {thing: self.amount(thing, "usable") - self.kept(thing, "shop", "service", "retrofit") for thing in things}
        self.levels = self.order_of_levels()
        self.made_of = {parent: [row for row in self.structure if row["parent"] == parent] for parent in things}
        self.plan = [row for row in maker.raw("plan") or [] if row["date"] > day]
        self.held_up = self.held_up_along(queue(self))
        self.plan_needs: dict[str, list[tuple[str, Needs]]] = {}

    def amount(self, part: str, *states: str) -> Fraction:
        """What was counted of a part in some states."""
        return sum(
            (Fraction(row["quantity"]) for row in self.stock if row["part"] == part and row["state"] in states), Fraction()
        )

    def kept(self, part: str, *uses: str) -> Fraction:
        """What is reserved of a part for some uses."""
        rows = [row for row in self.reserved if row["part"] == part and row["use"] in uses]
        return sum((Fraction(row["quantity"]) for row in rows), Fraction())

    def shelf(self, part: str) -> Fraction:
        """Usable less everything reserved."""
        return self.shelves[part]

    def order_of_levels(self) -> list[str]:
        """Every thing of the structure, each after all its parents."""
        done: list[str] = []
        left = sorted(self.parents | {row["component"] for row in self.structure})
        while left:
            for thing in left:
                if all(row["parent"] in done for row in self.structure if row["component"] == thing):
                    done.append(thing)
                    left.remove(thing)
                    break
        return done

    def needs(self, units: Mapping[str, Fraction]) -> Needs:
        """Gross needs of every part for some units a model: what made parts' shelves hold is not needed below them."""
        gross: Needs = {}
        for thing in self.levels:
            run = units.get(thing, Fraction())
            if thing in gross:
                run = max(Fraction(), gross[thing] - max(Fraction(), self.shelf(thing)))
            for row in self.made_of[thing]:
                lost = 1 - Fraction(row.get("scrap") or "0")
                gross[row["component"]] = gross.get(row["component"], Fraction()) + run * Fraction(row["quantity"]) / lost
        return gross

    def held_up_along(self, rows: list[Row]) -> dict[str, int]:
        """By part, the order rows of a queue that need it and, with all before them, more of it than its shelf gives out."""
        stopped: dict[str, int] = {}
        units, before = dict[str, Fraction](), Needs()
        for row in rows:
            units[row["model"]] = units.get(row["model"], Fraction()) + 1
            needs = self.needs(units)
            for part, need in needs.items():
                if need > before.get(part, 0) and need > self.shelf(part):
                    stopped[part] = stopped.get(part, 0) + 1
            before = needs
        return stopped

    def planned(self, model: str) -> list[tuple[str, Needs]]:
        """Each day of the plan after the day with the needs summed up to it, of one model or (empty) all."""
        if model not in self.plan_needs:
            units: dict[str, Fraction] = {}
            self.plan_needs[model] = []
            for day in sorted({row["date"] for row in self.plan}):
                for row in self.plan:
                    if row["date"] == day and model in ("", row["model"]):
                        units[row["model"]] = units.get(row["model"], Fraction()) + Fraction(row["units"])
                self.plan_needs[model].append((day, self.needs(units)))
        return self.plan_needs[model]


def newest(rows: list[Row]) -> list[Row]:
    """Of each part the rows of its newest day of counting."""
    days: dict[str, str] = {}
    for row in rows:
        days[row["part"]] = max(days.get(row["part"], ""), row["counted"])
    return [row for row in rows if row["counted"] == days[row["part"]]]


def per_model(rows: list[Row]) -> dict[str, Fraction]:
    """Units a model of some order rows."""
    units: dict[str, Fraction] = {}
    for row in rows:
        units[row["model"]] = units.get(row["model"], Fraction()) + 1
    return units


def facts(maker: Maker) -> dict[str, object]:
    """The family, as far as its tables are there."""
    store = Store(maker)
    found: dict[str, object] = {}
    if store.whole:
        found = whole(store, store.waiting, "coverage")
        scanned = {unit.model for unit in maker.units.values() if unit.events}
        for model in sorted(scanned | {row["model"] for row in maker.order_rows}):
            own = [row for row in store.waiting if row["model"] == model]
            found |= whole(store, own, f"coverage.of{step(model)}", model)
    for part in store.parts:
        found |= {f"coverage.part{step(part)}.{name}": value for name, value in of_part(store, part).items()}
    return found


def lines(store: Store, needs: Needs) -> list[str]:
    """The bought parts with a need."""
    return [part for part in sorted(needs, key=natural) if needs[part] > 0 and part not in store.parents]


def whole(store: Store, waiting: list[Row], prefix: str, model: str = "") -> dict[str, object]:
    """What can be told of all part lines at once, for all waiting orders or those of one model, whether or not one waits."""
    needs = store.needs(per_model(waiting))
    bought = lines(store, needs)
    found: dict[str, object] = {}
    if bought:
        short = [part for part in bought if needs[part] > store.shelf(part)]
        found[f"{prefix}.short_parts"] = len(short)
        found[f"{prefix}.short_names"] = [store.names.get(part, part) for part in short]
        found[f"{prefix}.parts_in_house"] = float(Fraction(len(bought) - len(short), len(bought)))
        tightest = min(bought, key=lambda part: (store.shelf(part) / needs[part], natural(part)))
        found[f"{prefix}.tightest"] = store.names.get(tightest, tightest)
    mix = per_model(waiting) or ({model: Fraction(1)} if model else {})
    if any(below(store, each) - store.parents for each in mix):
        found[f"{prefix}.buildable"] = buildable(store, mix)
    days = [count for count in (days_covered(store, part, model) for part in bought_parts(store)) if count is not None]
    if days:
        found[f"{prefix}.days"] = min(days)
    return found


def bought_parts(store: Store) -> list[str]:
    """All bought parts of the structure."""
    return sorted({row["component"] for row in store.structure} - store.parents)


def buildable(store: Store, mix: Mapping[str, Fraction]) -> int:
    """Count up, doubling and halving, to the last whole number of units that the shelves cover."""
    share = {model: units / sum(mix.values()) for model, units in mix.items()}

    def covered(count: int) -> bool:
        needs = store.needs({model: count * part for model, part in share.items()})
        return all(needs[part] <= store.shelf(part) for part in lines(store, needs))

    high = 1
    while covered(high):
        high *= 2
    low = high // 2
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if covered(middle) else (low, middle)
    return low


def days_covered(store: Store, part: str, model: str = "") -> int | None:
    """Working days of the plan, one after the other, that the shelf covers; None for a part the plan does not use."""
    days = [(day, needs.get(part, Fraction())) for day, needs in store.planned(model)]
    covered = [day for day, need in days if need <= max(Fraction(), store.shelf(part))]
    planned = {row["model"] for row in store.plan if model in ("", row["model"])}
    used = any(part in below(store, each) for each in planned)
    worked = any(store.maker.is_working(date.fromisoformat(row["date"])) for row in store.plan)
    return sum(store.maker.is_working(date.fromisoformat(day)) for day in covered) if used and worked else None


def of_part(store: Store, part: str) -> dict[str, object]:
    """All names of one part."""
    found: dict[str, object] = {}
    if any(row["part"] == part for row in store.stock):
        found["usable"] = float(store.amount(part, "usable"))
        found["held"] = float(store.amount(part, "inspection", "quarantine"))
    if store.maker.raw("reserved") is not None:
        found["reserved"] = float(store.kept(part, "shop", "service", "retrofit"))
    if store.told:
        found["needed"] = float(store.needs(per_model(store.waiting)).get(part, Fraction()))
    if store.whole:
        found |= against_needs(store, part)
    return found | supply(store, part)


def against_needs(store: Store, part: str) -> dict[str, object]:
    """What waits for a part, against its shelf."""
    need, shelf = store.needs(per_model(store.waiting)).get(part, Fraction()), store.shelf(part)
    free = store.amount(part, "usable") - store.kept(part, "service", "retrofit") - need
    found: dict[str, object] = {"shop": float(max(Fraction(), free))}
    if part not in store.parents:
        found["short"] = float(max(Fraction(), need - shelf))
        found["held_up"] = store.held_up.get(part, 0)
    days = days_covered(store, part)
    return found if days is None else found | {"days": days}


def supply(store: Store, part: str) -> dict[str, object]:
    """What is still to come of a part, and how late it came before."""
    table = store.maker.rows("supply")
    if table is None:
        return {}
    rows = [row for row in table if row["part"] == part]
    today = store.maker.as_of.isoformat()
    due = [row for row in rows if row["state"] != "cancelled" and not is_received(row)]
    found: dict[str, object] = {
        "overdue": float(sum((Fraction(row["quantity"]) for row in due if row["due"] < today), Fraction()))
    }
    coming = [row["due"] for row in due if row["due"] >= today]
    if coming:
        found["next_arrival"] = min(coming)
    came = [row for row in rows if is_received(row) and row.get("received")]
    late = [Fraction((date.fromisoformat(row["received"]) - date.fromisoformat(row["due"])).days) for row in came]
    if late:
        found["usual_lateness"] = float(median(late))
    return found


def is_received(row: Row) -> bool:
    """Whether a purchase had come by the day."""
    return row["state"] == "received" and not row.get("received later")


def below(store: Store, thing: str) -> set[str]:
    """All parts that go into a thing, at any level."""
    found: set[str] = set()
    for row in store.structure:
        if row["parent"] == thing:
            found |= {row["component"]} | below(store, row["component"])
    return found


def queue(store: Store) -> list[Row]:
    """Waiting rows in the order in which stock serves them: priority, placed, order, line; held and asked back ones last."""
    day = store.maker.as_of.isoformat()
    holds = store.maker.raw("holds") or []
    away = {row["order"] for row in holds if row["from"] <= day and (not row.get("until") or row["until"] >= day)}
    away |= {row["order"] for row in store.maker.rows("refunds") or []}

    def place(row: Row) -> tuple[object, ...]:
        priority = -int(row.get("priority") or 0)
        return (row["order"] in away, priority, row["placed"], natural(row["order"]), natural(row.get("line", "")))

    return sorted(store.waiting, key=place)
