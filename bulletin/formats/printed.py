"""A printed fact: its text in stretches, each with its exact value for machines beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PieceKind = Literal["data", "time", "text"]


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of printed text. `machine` holds its exact value (`data`) or ISO 8601 date (`time`); glue has none."""

    text: str
    kind: PieceKind = "text"
    machine: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Printed:
    """A fact as printed, in pieces: windows, ranges and money in several currencies have several with a value."""

    pieces: tuple[Piece, ...]

    @property
    def text(self) -> str:
        """What the reader sees."""
        return "".join(piece.text for piece in self.pieces)

    @property
    def kind(self) -> PieceKind:
        """The kind of its pieces with a value; `text` where none has one."""
        return next((piece.kind for piece in self.pieces if piece.machine), "text")

    @property
    def machine(self) -> tuple[str, ...]:
        """The exact values of all its pieces, in order."""
        return tuple(value for piece in self.pieces for value in piece.machine)
