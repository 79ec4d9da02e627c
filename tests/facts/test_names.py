"""Which names claim nothing in a draft, by tables and settings."""

from __future__ import annotations

from pathlib import Path

from bulletin.facts.names import names_of
from bulletin.settings import Settings
from bulletin.tables.reading import read_tables

ORDERS = "order,placed,model,market,locale,currency,status\nF-1,2026-03-02,Heron 8,AT,de,EUR,waiting\n"
BOXING = "serial,model,revision,event,at\nH8-1,Heron 8,A,boxed,2026-03-20T10:00:00\nH8-2,Heron 8,C2,boxed,2026-03-20T11:00:00\n"
NAMES = "kind,id,locale,form,case,name\nunit,unit,en,other,,looms\nmodel,Heron 8,en,,,Heron eight\n"
POLICIES = "policy,title,state\nreturns,sixty days to return,in_force\npickup,pick-up at the workshop,in_force\n"


def plain(folder: Path, *names: str) -> frozenset[str]:
    """The free names of a small maker with these names in the settings."""
    for file, text in {"orders": ORDERS, "boxing": BOXING, "names": NAMES, "policies": POLICIES}.items():
        (folder / f"{file}.csv").write_text(text, encoding="utf-8")
    settings = Settings.model_validate({"maker": {"name": "Fennmoor", "time_zone": "Europe/Vienna", "names": list(names)}})
    return names_of(read_tables(folder, settings)[0], settings).plain


def test_models_titles_and_names_of_the_settings_are_free(tmp_path: Path) -> None:
    """What tables and settings call things by claims nothing."""
    expected = {"Fennmoor", "Heron 8", "Heron eight", "pick-up at the workshop", "returns", "pickup", "Route 66", "A4"}

    assert expected == plain(tmp_path, "Route 66", "A4")


def test_names_that_tell_a_figure_free_none(tmp_path: Path) -> None:
    """A figure does not become a name by being listed, with a noun behind it or spelled out."""
    assert plain(tmp_path, "40", "40 looms", "two weeks", "100 %", "\u20ac10") == plain(tmp_path)


def test_revisions_and_the_word_for_units_free_nothing(tmp_path: Path) -> None:
    """A revision called A frees no article, and the maker's word for what it makes is counted like any other."""
    assert frozenset() == plain(tmp_path) & {"A", "C2", "looms"}
