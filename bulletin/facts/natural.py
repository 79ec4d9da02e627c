"""Natural order: H12-99 before H12-100, as people count, for orders and serials."""

from __future__ import annotations

import re

import numpy as np

from bulletin.facts.keys import Integers, Texts, numbered

DIGITS = re.compile(r"(\d+)")


def natural_key(text: str) -> tuple[tuple[str | int, ...], str]:
    """Sorts runs of digits by their value and all else as text; the text itself decides between 07 and 7."""
    pieces = DIGITS.split(text)
    return tuple(int(piece) if at % 2 else piece for at, piece in enumerate(pieces)), text


def natural_ranks(texts: Texts) -> Integers:
    """For each text a number that sorts as it does in natural order; equal texts have equal ones.

    Ids as programs number them are their numbers; any others are sorted by `natural_key`.
    """
    numbers = numbered(texts)
    if numbers is not None:
        return numbers
    rank = {text: at for at, text in enumerate(sorted(set(texts), key=natural_key))}
    return np.fromiter((rank[text] for text in texts), np.int64, len(texts))
