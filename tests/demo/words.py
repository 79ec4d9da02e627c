"""What things are called in each language: the lists in words/, and names.csv made of them."""

from __future__ import annotations

import csv
from pathlib import Path

from tests.demo.world import MODELS

LANGUAGES = ("en", "de", "fr", "es", "ja", "pl", "ar")
LISTS = (("part", "parts"), ("defect", "defects"), ("inspection", "inspections"), ("change", "changes"), ("policy", "policies"))
ARABIC_MODELS = {"Heron 8": "هيرون 8", "Heron 12": "هيرون 12"}


def read(name: str) -> list[dict[str, str]]:
    """One of the lists, row by row."""
    with (Path(__file__).parent / "words" / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def titles(name: str) -> dict[str, str]:
    """The names of things in the maker's own language, by id."""
    return {row["id"]: row["en"] for row in read(name)}


def name_rows() -> list[list[str]]:
    """The rows of names.csv."""
    rows = [["unit", "unit", row["locale"], row["form"], row["case"], row["name"]] for row in read("units")]
    for model in MODELS:
        rows += [["model", model, tag, "", "", ARABIC_MODELS[model] if tag == "ar" else model] for tag in LANGUAGES]
    for kind, name in LISTS:
        rows += [[kind, row["id"], tag, "", "", row[tag]] for row in read(name) for tag in LANGUAGES]
    return rows
