"""A column as text, in one of two forms with the same methods.

Columns with few distinct texts keep each of them once, with a number a row; columns whose texts are nearly all different
(ids, titles, moments) keep them text by text.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from bulletin.tables.letters import as_strings, in_one_piece, looked_over

Mask = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Coded:
    """`distinct` texts, and for each row the number of its text."""

    codes: NDArray[np.intp]
    distinct: tuple[str, ...]

    @staticmethod
    def of(texts: Any) -> Coded:
        """A column by its distinct texts, without blanks around them."""
        codes, distinct = pd.factorize(texts)
        return Coded(codes, tuple(str(text).strip() for text in distinct))

    @staticmethod
    def same(text: str, length: int) -> Coded:
        """One text in every row."""
        return Coded(np.zeros(length, dtype=np.intp), (text.strip(),))

    def among(self, words: Collection[str]) -> Mask:
        """Which rows hold one of some texts."""
        fits = np.array([text in words for text in self.distinct] or [False])
        return np.asarray(fits[self.codes])

    def taken(self, rows: Mask) -> Coded:
        """Some of the rows."""
        return Coded(self.codes[rows], self.distinct)

    def renamed(self, words: Mapping[str, str]) -> Coded:
        """With texts replaced by others."""
        return Coded(self.codes, tuple(words.get(text, text) for text in self.distinct))

    def one_by_one(self) -> Any:
        """All texts as pandas' `str`."""
        return pd.array(np.array([*self.distinct, ""], dtype=object)[self.codes], dtype="str")


@dataclass(frozen=True, eq=False)
class Plain:
    """All texts as pandas' `str`; `printable` tells that they are printable ASCII."""

    texts: Any
    printable: bool = False

    @staticmethod
    def of(texts: Any) -> Plain:
        """A column text by text, without blanks around them."""
        whole = in_one_piece(texts)
        printable, blank_ends = looked_over(whole)
        if printable and not blank_ends:
            return Plain(whole, printable)
        return Plain(pd.array([text.strip() for text in as_strings(whole)], dtype="str"), printable)

    def among(self, words: Collection[str]) -> Mask:
        """Which rows hold one of some texts."""
        found = np.zeros(len(self.texts), dtype=bool)
        for word in words:
            found |= np.asarray(self.texts == word, dtype=bool)
        return found

    def taken(self, rows: Mask) -> Plain:
        """Some of the rows."""
        return Plain(self.texts[rows], self.printable)

    def renamed(self, words: Mapping[str, str]) -> Plain:
        """With texts replaced by others."""
        return Plain(pd.array([words.get(text, text) for text in self.texts], dtype="str")) if words else self

    def one_by_one(self) -> Any:
        """All texts as pandas' `str`."""
        return self.texts


Texts = Coded | Plain
