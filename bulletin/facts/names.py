"""What things are called: names.csv in every locale, and all names that claim nothing when a draft speaks of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from bulletin.formats.reading import find_figures
from bulletin.model import Names
from bulletin.settings import Settings
from bulletin.tables.table import Tables

NAMING: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "orders": ("model",),
        "parts": ("part", "name"),
        "defects": ("defect",),
        "inspections": ("inspection",),
        "changes": ("change",),
        "policies": ("policy",),
    }
)
"""The columns that name things by table. Orders, serials and people are never names: readers must not meet them. Nor are
revisions, which are letters and figures that could stand for any word."""
TITLES = ("defects", "inspections", "changes", "policies")
COUNTED = "unit"
"""The kind in names.csv of what is counted: "looms" is the maker's own word, and frees nothing."""


def names_of(tables: Tables, settings: Settings) -> Names:
    """The names that tables and settings know.

    A name without a letter is none, since it could pass for a figure; nor is a title or a name of the settings that begins with a
    figure ("40 looms"), which would free that figure wherever it stands.
    """
    maker = settings.maker
    written = {name for name in (*maker.names, *titles(tables)) if not _tells_a_figure(name, maker.locales)}
    known = {maker.name, *written, *table_names(tables)}
    plain = frozenset(name for name in known if any(sign.isalpha() for sign in name))
    return Names(forms_of(tables), plain)


def table_names(tables: Tables) -> Iterator[str]:
    """Every value of the naming columns, and of names.csv whatever is no unit, once or more often."""
    for name, columns in NAMING.items():
        table = tables.get(name)
        if table is not None:
            for column in columns:
                yield from map(str, table.frame[column].unique())
    yield from (name for (kind, *_), name in forms_of(tables).items() if kind != COUNTED)


def titles(tables: Tables) -> Iterator[str]:
    """What defects, inspections, changes and policies are called."""
    tables_with_titles = (tables.get(name) for name in TITLES)
    for table in tables_with_titles:
        if table is not None:
            yield from map(str, table.frame["title"].unique())


def _tells_a_figure(name: str, locales: Iterable[str]) -> bool:
    """Whether a name begins with a number, an amount or a span of time in one of the maker's languages."""
    return any(figure.start == 0 for locale in locales for figure in find_figures(name, locale))


def forms_of(tables: Tables) -> dict[tuple[str, str, str, str, str], str]:
    """names.csv by kind, id, locale, form and case."""
    table = tables.get("names")
    if table is None:
        return {}
    columns = [table.frame[column].astype("str") for column in ("kind", "id", "locale", "form", "case", "name")]
    return {(kind, item, locale, form, case): name for kind, item, locale, form, case, name in zip(*columns, strict=True)}
