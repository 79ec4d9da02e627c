"""Writes the tables of the demo maker: `python -m tests.demo.make [FOLDER]`.

All tables of a data folder come from here; bulletin.toml, the drafts and the papers beside signed statements are written
by hand and stay as they are. The credit that was booked follows the tiers of bulletin.toml.
"""

from __future__ import annotations

import csv
import sys
import tomllib
from datetime import date
from pathlib import Path

from tests.demo import credit, line, ordering, outcomes, outside, papers, parts, people, plan, quality, stores, telling, words

DEMO = Path(__file__).parents[2] / "data" / "demo"

HEADERS = {
    "orders": "order line placed model market locale currency amount status promised priority batch serial closed delivered",
    "boxing": "serial model revision event at order purpose",
    "told": "order told due kind answer answered",
    "parts": "part name lead_days safety_stock",
    "structure": "parent component quantity scrap from until",
    "stock": "part lot state quantity counted",
    "supply": "purchase part quantity due state ordered received reason",
    "reserved": "part use quantity",
    "plan": "date model units",
    "stops": "from until cause",
    "defects": "defect title severity part lot opened state closed remedy remedy_part traced hazard do_now",
    "affected": "defect serial order address_confirmed kit_sent remedied",
    "inspections": "inspection title part lot checked failed at lot_size quality_limit",
    "changes": "change title model from_serial from_date defect state",
    "credits": "order date kind amount currency",
    "promises": "promise made text due state done withdrawn",
    "policies": "policy title state from",
    "attested": "statement text by on file expires",
    "holds": "order reason from until",
    "refunds": "order asked paid amount currency",
    "lanes": "market days_low days_high",
    "contacts": "order name email bulletins",
    "names": "kind id locale form case name",
}


def tables() -> dict[str, list[list[str]]]:
    """All tables by name, in the order in which each follows from those before."""
    book = ordering.order_book()
    held = outside.holds(book)
    asked = outside.asked_before(book, {hold.order for hold in held})
    away: dict[str, list[tuple[date, date | None]]] = {order: [(day, None)] for order, day in asked.items()}
    for hold in held:
        away.setdefault(hold.order, []).append((hold.first, hold.last))
    looms = line.Line(book, away).run()
    outcomes.settle(book, looms)
    told = telling.told_rows(book)
    return customers(book, told) | workshop(book, looms) | {
        "holds": [[h.order, h.reason, h.first.isoformat(), h.last.isoformat() if h.last else ""] for h in held],
        "refunds": [
            [r.order, r.asked.isoformat(), r.paid.isoformat() if r.paid else "", r.amount, r.currency]
            for r in outside.refunds(book, asked)
        ],
    }  # fmt: skip


def customers(book: ordering.Book, told: list[list[str]]) -> dict[str, list[list[str]]]:
    """The tables about orders and what was said and owed."""
    policy = tomllib.loads((DEMO / "bulletin.toml").read_text("utf-8"))["credit"]
    return {
        "orders": outcomes.order_rows(book),
        "told": told,
        "credits": credit.credit_rows(book, policy),
        "contacts": people.contact_rows(book),
        "promises": papers.promise_rows(),
        "policies": papers.policy_rows(words.titles("policies")),
        "attested": papers.attested_rows(),
        "lanes": papers.lane_rows(),
        "names": words.name_rows(),
    }


def workshop(book: ordering.Book, looms: list[line.Loom]) -> dict[str, list[list[str]]]:
    """The tables about looms, parts and their faults."""
    supply = stores.supply_rows(book)
    return {
        "boxing": line.boxing_rows(looms),
        "parts": parts.part_rows(words.titles("parts")),
        "structure": [list(step) for step in parts.structure()],
        "stock": stores.stock_rows(book, looms, supply),
        "supply": supply,
        "reserved": [list(row) for row in stores.RESERVED],
        "plan": plan.plan_rows(),
        "stops": papers.stop_rows(),
        "defects": quality.defect_rows(words.titles("defects")),
        "affected": quality.affected_rows(looms),
        "inspections": quality.inspection_rows(words.titles("inspections")),
        "changes": quality.change_rows(words.titles("changes"), looms),
    }


def write(folder: Path) -> None:
    """Write every table as UTF-8 with plain line ends."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, rows in tables().items():
        with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(HEADERS[name].split())
            writer.writerows(rows)


if __name__ == "__main__":
    write(Path(sys.argv[1]) if len(sys.argv) > 1 else DEMO)
