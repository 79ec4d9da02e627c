"""A file that has its own words for our choices: told apart from a slip, since a setting mends it and no edit of cells does."""

from __future__ import annotations

import json
import re
from typing import Any

import numpy as np

from bulletin.tables.faults import Wrong
from bulletin.tables.layouts import Column
from bulletin.tables.texts import Coded

OFTEN = 3
"""So many cells with one unknown word are no slip."""
BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


def with_other_words(column: Column, texts: Coded, values: list[Any]) -> list[Any]:
    """The values of a column's distinct texts, where unknown choices that stand often offer the setting for all of them."""
    counts = np.bincount(texts.codes, minlength=len(values))
    often = {
        code: value
        for code, value in enumerate(values)
        if isinstance(value, Wrong) and value.rule == "cell-not-a-choice" and counts[code] >= OFTEN
    }
    pairs = ", ".join(f'{_key(texts.distinct[code])} = "{value.offer or "..."}"' for code, value in often.items())
    settings = f"values = {{ {column.name} = {{ {pairs} }} }}"
    told = {code: Wrong("choice-in-other-words", {**value.details, "settings": settings}) for code, value in often.items()}
    return [told.get(code, value) for code, value in enumerate(values)]


def _key(word: str) -> str:
    return word if BARE_KEY.fullmatch(word) else json.dumps(word, ensure_ascii=False)
