"""The models that the maker's orders and scans speak of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bulletin.tables.categories import used
from bulletin.tables.natural import natural_key

if TYPE_CHECKING:
    from bulletin.facts.scopes.day import Day


def models_of(day: Day) -> tuple[str, ...]:
    """Every model with an order or a scan up to the as-of date, in natural order."""
    found = {model for name in ("orders", "boxing") if day.has(name) for model in used(day.table(name).frame["model"])}
    return tuple(sorted(found, key=natural_key))
