"""What suppliers owe and what they delivered, part by part: the rows of supply.csv gone through once."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day

ON_THE_WAY = frozenset(("ordered", "confirmed", "in_transit"))


class Purchase(NamedTuple):
    """A row that is still to come: its record, how much, when it is due."""

    record: int
    quantity: Fraction
    due: date


class Lateness(NamedTuple):
    """A row that came: its record, and the days from due to received, below 0 where it came early."""

    record: int
    days: int


@dataclass(frozen=True, slots=True)
class Supply:
    """The rows of one part."""

    coming: list[Purchase] = field(default_factory=list)
    came: list[Lateness] = field(default_factory=list)


def supply_of(day: Day) -> dict[str, Supply]:
    """The supply of each part that was ever ordered, as it stands on a day."""
    frame = day.table("supply").frame
    found: dict[str, Supply] = {}
    dates = [frame[name].to_numpy().astype("datetime64[D]").tolist() for name in ("due", "received")]
    columns = [frame[name].tolist() for name in ("part", "state", "quantity")]
    exact = {quantity: Fraction(quantity) for quantity in set(columns[-1])}
    for record, part, state, quantity, due, received in zip(frame.index.tolist(), *columns, *dates, strict=True):
        supply = found.setdefault(part, Supply())
        if state in ON_THE_WAY:
            supply.coming.append(Purchase(record, exact[quantity], due))
        elif state == "received" and received is not None:
            supply.came.append(Lateness(record, (received - due).days))
    return found
