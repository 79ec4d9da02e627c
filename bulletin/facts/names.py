"""What things are called: names.csv in every locale, and all names that claim nothing when a draft speaks of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from bulletin.model import Names
from bulletin.settings import Settings
from bulletin.tables.table import Tables

NAMING: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "orders": ("model",),
        "boxing": ("revision",),
        "parts": ("part", "name"),
        "defects": ("defect", "title"),
        "inspections": ("inspection", "title"),
        "changes": ("change", "title"),
        "policies": ("policy", "title"),
        "names": ("name",),
    }
)
"""The columns that name things by table. Orders, serials and people are never names: readers must not meet them."""


def names_of(tables: Tables, settings: Settings) -> Names:
    """The names that tables and settings know. A name without a letter is none, since it could pass for a figure."""
    known = {*settings.maker.names, settings.maker.name, *table_names(tables)}
    plain = frozenset(name for name in known if any(sign.isalpha() for sign in name))
    return Names(forms_of(tables), plain)


def table_names(tables: Tables) -> Iterator[str]:
    """Every value of the naming columns, once or more often."""
    for name, columns in NAMING.items():
        table = tables.get(name)
        if table is not None:
            for column in columns:
                yield from map(str, table.frame[column].unique())


def forms_of(tables: Tables) -> dict[tuple[str, str, str, str, str], str]:
    """names.csv by kind, id, locale, form and case."""
    table = tables.get("names")
    if table is None:
        return {}
    columns = [table.frame[column].astype("str") for column in ("kind", "id", "locale", "form", "case", "name")]
    return {(kind, item, locale, form, case): name for kind, item, locale, form, case, name in zip(*columns, strict=True)}
