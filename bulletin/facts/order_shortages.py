"""What one waiting order waits for, part by part: when more is announced, and how late that part usually comes."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import TYPE_CHECKING

from bulletin.facts.coverage import NEEDS
from bulletin.facts.materials.queue_needs import QueueNeeds
from bulletin.facts.part_coverage import PartCoverage
from bulletin.facts.scopes.family import Found, Gap
from bulletin.formats.exact import half_up
from bulletin.model import Name, Shortage

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day


def shortages_of(day: Day, position: int, model: str) -> tuple[Shortage, ...]:
    """The parts that hold a waiting line up, by id; none where a table that would tell is missing."""
    if day.lacks(NEEDS):
        return ()
    return tuple(_shortage(day, part, model) for part in day.once(QueueNeeds).awaited(position))


def _shortage(day: Day, part: Name, model: str) -> Shortage:
    """A part with what supply.csv says of it; a part that usually comes in time, or early, has no lateness to tell."""
    if not day.has("supply"):
        return Shortage(part)
    coverage = PartCoverage(day, part.id, (model,))
    arrival, lateness = (_value(fact.function(coverage)) for fact in (PartCoverage.next_arrival, PartCoverage.usual_lateness))
    late = int(half_up(lateness, 0)) if isinstance(lateness, int | Fraction) else 0
    return Shortage(part, arrival if isinstance(arrival, date) else None, late if late > 0 else None)


def _value(found: Found | Gap) -> object:
    return found.value if isinstance(found, Found) else None
